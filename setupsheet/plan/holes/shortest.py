"""The shortest way through places: of few by looking at all ways, of more by taking detours out of one."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from setupsheet.plan.record import Position

_PASSES = 40
_SAVED_MM = 1e-6


def length(row: Sequence[Position]) -> float:
    """Return how long the way through places is, mm, without the way to the first and from the last."""
    return sum(_way(a, b) for a, b in pairwise(row))


def of_few(row: Sequence[Position]) -> list[list[Position]]:
    """Return the shortest way from the first place of a row on, and the shortest from any place.

    Every set of places with the last of them is looked at once, so it is for few places only.
    """
    count = len(row)
    ways = [[_way(a, b) for b in row] for a in row]
    from_first = _shortest(ways, [0])
    from_any = _shortest(ways, list(range(count)))
    return [[row[i] for i in order] for order in (from_first, _from_front(row, from_any))]


def _from_front(row: Sequence[Position], order: list[int]) -> list[int]:
    """Return a way from the end that lies nearer to the front left."""
    first, last = row[order[0]], row[order[-1]]
    return order if (first.x + first.y, first.x) <= (last.x + last.y, last.x) else order[::-1]


def _shortest(ways: list[list[float]], starts: list[int]) -> list[int]:
    """Return the order of the shortest way that begins at one of ``starts``."""
    count = len(ways)
    best: dict[tuple[int, int], tuple[float, int]] = {(1 << i, i): (0.0, -1) for i in starts}
    for been in range(1, 1 << count):
        for last in range(count):
            here = best.get((been, last))
            if here is None:
                continue
            for there in range(count):
                key, way = (been | 1 << there, there), here[0] + ways[last][there]
                if not been >> there & 1 and (key not in best or way < best[key][0] - _SAVED_MM):
                    best[key] = (way, last)
    been = (1 << count) - 1
    last = min((i for i in range(count) if (been, i) in best), key=lambda i: (round(best[(been, i)][0], 6), i))
    order = [last]
    while (before := best[(been, last)][1]) >= 0:
        been, last = been & ~(1 << last), before
        order.append(last)
    return order[::-1]


def without_detours(row: Sequence[Position]) -> list[Position]:
    """Return a way with its detours taken out: stretches driven the other way round as long as that saves something."""
    found = list(row)
    for _ in range(_PASSES):
        if not _turn_stretches(found):
            break
    return found


def _turn_stretches(row: list[Position]) -> bool:
    """Turn every stretch that is shorter the other way round; the first place stays. Tell whether one was."""
    turned, last = False, len(row) - 1
    for i in range(len(row) - 2):
        for j in range(i + 2, len(row)):
            was = _way(row[i], row[i + 1]) + (_way(row[j], row[j + 1]) if j < last else 0.0)
            now = _way(row[i], row[j]) + (_way(row[i + 1], row[j + 1]) if j < last else 0.0)
            if now < was - _SAVED_MM:
                row[i + 1 : j + 1] = row[i + 1 : j + 1][::-1]
                turned = True
    return turned


def _way(a: Position, b: Position) -> float:
    return math.dist((a.x, a.y), (b.x, b.y))
