"""Cut straight pieces where another piece ends on them: a boss's side ends in the middle of the plate's edge.

Without a point there the two would never join, and the rim of the view would run past the boss.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from itertools import pairwise

from setupsheet.drawing.chains import MEET_MM, Piece
from setupsheet.plane import Point2, distance


def cut_at_ends(pieces: Sequence[Piece]) -> list[Piece]:
    """Return the pieces with the straight ones cut at the ends of others, none of them twice."""
    ends = sorted({point for piece in pieces for point in (piece.points[0], piece.points[-1])})
    found: dict[object, Piece] = {}
    for index, piece in enumerate(pieces):
        if len(piece.points) != 2 or piece.bulges[0]:
            found[index] = piece
            continue
        a, b = piece.points
        for p, q in pairwise([a, *_between(a, b, ends), b]):
            found.setdefault(frozenset((_key(p), _key(q))), Piece((p, q), (0.0,)))
    return list(found.values())


def _between(a: Point2, b: Point2, ends: list[Point2]) -> list[Point2]:
    """Return the ends of other pieces that lie on a segment and not at its own ends, from ``a`` to ``b``."""
    low, high = sorted((a[0], b[0]))
    near = ends[bisect_left(ends, (low - MEET_MM, float("-inf"))) : bisect_right(ends, (high + MEET_MM, float("inf")))]
    long_ = distance(a, b)
    found: list[tuple[float, Point2]] = []
    for point in near:
        along = ((point[0] - a[0]) * (b[0] - a[0]) + (point[1] - a[1]) * (b[1] - a[1])) / long_
        off = abs((point[0] - a[0]) * (b[1] - a[1]) - (point[1] - a[1]) * (b[0] - a[0])) / long_
        if off <= MEET_MM < along < long_ - MEET_MM:
            found.append((along, point))
    found.sort()
    return [point for k, (along, point) in enumerate(found) if not k or along - found[k - 1][0] > MEET_MM]


def _key(point: Point2) -> Point2:
    return round(point[0], 3) + 0.0, round(point[1], 3) + 0.0
