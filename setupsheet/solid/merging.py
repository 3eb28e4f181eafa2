"""Merge the pieces that a hidden-line pass leaves: join what continues, drop what is drawn twice.

The kernel splits lines wherever faces meet and gives hidden lines that lie under visible ones. Lines are
joined on their common straight, arcs and ellipses on their common curve, by the union of intervals; then
visible intervals are taken from the hidden ones. Plain arithmetic, mm and degrees.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TypeVar

from setupsheet.plane import Point2, distance_to_segment
from setupsheet.solid.flat import NEAR_MM, Arc, Circle, Ellipse, Flat, Line, Outlines, Polyline, chain

Interval = tuple[float, float]
_T = TypeVar("_T")

_ANGLE_RAD = 1e-5
_SAME_MM = 1e-4
"""mm; pieces nearer than this lie on one curve, gaps shorter than this are none."""
_SPECK_MM = 1e-3
"""mm; what is shorter is no line on any drawing."""


@dataclass(frozen=True, slots=True)
class _Piece:
    """A piece of a curve: whether it is visible, which curve, and from where to where along it."""

    visible: bool
    flat: Flat
    key: tuple[float, ...]
    span: Interval


def merged(visible: Sequence[Flat], hidden: Sequence[Flat]) -> Outlines:
    """Return both lists merged, hidden ones only where nothing visible lies on them, in a fixed order."""
    flats = [(True, flat) for flat in visible] + [(False, flat) for flat in hidden]
    seen: list[Flat] = []
    unseen: list[Flat] = []
    for kind, work in ((Line, _lines), (Arc | Circle, _arcs), (Ellipse, _ellipses), (Polyline, _polylines)):
        shown, covered = work([(is_seen, flat) for is_seen, flat in flats if isinstance(flat, kind)])
        seen += shown
        unseen += covered
    return Outlines(tuple(sorted(seen, key=_order)), tuple(sorted(unseen, key=_order)))


def _lines(flats: list[tuple[bool, Flat]]) -> tuple[list[Flat], list[Flat]]:
    pieces = [_line_piece(is_seen, flat) for is_seen, flat in flats if isinstance(flat, Line)]
    seen: list[Flat] = []
    unseen: list[Flat] = []
    for parallel in _clusters(pieces, lambda piece: piece.key[0], _ANGLE_RAD):
        longest = max(parallel, key=lambda piece: piece.span[1] - piece.span[0])
        angle = longest.key[0]
        along = (math.cos(angle), math.sin(angle))
        if abs(along[0]) < _ANGLE_RAD or abs(along[1]) < _ANGLE_RAD:
            along = (float(abs(along[0]) > 0.5), float(abs(along[1]) > 0.5))
        measured = [_on_line(piece, along) for piece in parallel]
        for row in _clusters(measured, lambda piece: piece.key[0], _SAME_MM):
            offset = row[0].key[0]
            shown, covered = _intervals(row, _SAME_MM)
            seen += [_line_at(along, offset, span) for span in shown]
            unseen += [_line_at(along, offset, span) for span in covered if span[1] - span[0] > _SPECK_MM]
    return seen, unseen


def _line_piece(is_seen: bool, line: Line) -> _Piece:
    angle = math.atan2(line.b[1] - line.a[1], line.b[0] - line.a[0]) % math.pi
    if angle > math.pi - _ANGLE_RAD:
        angle -= math.pi
    return _Piece(is_seen, line, (angle,), (0.0, math.dist(line.a, line.b)))


def _on_line(piece: _Piece, along: Point2) -> _Piece:
    assert isinstance(piece.flat, Line)
    a, b = piece.flat.a, piece.flat.b
    offset = ((a[1] + b[1]) * along[0] - (a[0] + b[0]) * along[1]) / 2
    low, high = sorted((a[0] * along[0] + a[1] * along[1], b[0] * along[0] + b[1] * along[1]))
    return _Piece(piece.visible, piece.flat, (offset,), (low, high))


def _line_at(along: Point2, offset: float, span: Interval) -> Line:
    (u, v), (low, high) = along, span
    return Line(
        (_clean(low * u - offset * v), _clean(low * v + offset * u)),
        (_clean(high * u - offset * v), _clean(high * v + offset * u)),
    )


def _arcs(flats: list[tuple[bool, Flat]]) -> tuple[list[Flat], list[Flat]]:
    pieces = []
    for is_seen, flat in flats:
        assert isinstance(flat, Arc | Circle)
        span = (flat.from_deg, flat.to_deg) if isinstance(flat, Arc) else (0.0, 360.0)
        pieces.append(_Piece(is_seen, flat, (*flat.centre, flat.radius), span))
    return _rounds(pieces, _arc_at)


def _arc_at(piece: _Piece, span: Interval) -> Flat:
    x, y, radius = piece.key
    centre = (_clean(x), _clean(y))
    whole = span[1] - span[0] >= 360.0 - 1e-6
    return Circle(centre, _clean(radius)) if whole else Arc(centre, _clean(radius), *_from_to(span))


def _ellipses(flats: list[tuple[bool, Flat]]) -> tuple[list[Flat], list[Flat]]:
    pieces = []
    for is_seen, flat in flats:
        assert isinstance(flat, Ellipse)
        turned = flat.major[0] < -_SAME_MM or (abs(flat.major[0]) <= _SAME_MM and flat.major[1] < 0)
        sign, shift = (-1.0, 180.0) if turned else (1.0, 0.0)
        key = (*flat.centre, sign * flat.major[0], sign * flat.major[1], flat.ratio)
        pieces.append(_Piece(is_seen, flat, key, (flat.from_deg + shift, flat.to_deg + shift)))
    return _rounds(pieces, _ellipse_at)


def _ellipse_at(piece: _Piece, span: Interval) -> Flat:
    x, y, mx, my, ratio = (_clean(value) for value in piece.key)
    if span[1] - span[0] >= 360.0 - 1e-6:
        return Ellipse((x, y), (mx, my), ratio)
    return Ellipse((x, y), (mx, my), ratio, *_from_to(span))


def _from_to(span: Interval) -> Interval:
    start = _clean(span[0] % 360.0)
    start = 0.0 if start >= 360.0 else start
    return start, _clean(start + span[1] - span[0])


def _rounds(pieces: list[_Piece], made: Callable[[_Piece, Interval], Flat]) -> tuple[list[Flat], list[Flat]]:
    """Merge pieces of closed curves by their parameter; a turn is cut open at 0 and joined again."""
    groups = [pieces] if pieces else []
    for i in range(len(pieces[0].key) if pieces else 0):
        groups = [part for group in groups for part in _clusters(group, _key_at(i), _SAME_MM)]
    seen: list[Flat] = []
    unseen: list[Flat] = []
    for group in groups:
        size = max(group[0].key[2:4])
        slack = math.degrees(_SAME_MM / max(abs(size), _SAME_MM))
        opened = [_Piece(p.visible, p.flat, p.key, span) for p in group for span in _opened(p.span)]
        shown, covered = _intervals(opened, slack)
        seen += [made(group[0], span) for span in _closed(shown, slack)]
        unseen += [made(group[0], span) for span in _closed(covered, slack) if span[1] - span[0] > 10 * slack]
    return seen, unseen


def _key_at(index: int) -> Callable[[_Piece], float]:
    return lambda piece: piece.key[index]


def _opened(span: Interval) -> list[Interval]:
    length = span[1] - span[0]
    if length >= 360.0 - 1e-9:
        return [(0.0, 360.0)]
    start = span[0] % 360.0
    end = start + length
    return [(start, end)] if end <= 360.0 else [(start, 360.0), (0.0, end - 360.0)]


def _closed(spans: list[Interval], slack: float) -> list[Interval]:
    if len(spans) == 1 and spans[0][0] <= slack and spans[0][1] >= 360.0 - slack:
        return [(0.0, 360.0)]
    if len(spans) > 1 and spans[0][0] <= slack and spans[-1][1] >= 360.0 - slack:
        return [*spans[1:-1], (spans[-1][0], spans[0][1] + 360.0)]
    return spans


def _intervals(pieces: list[_Piece], slack: float) -> tuple[list[Interval], list[Interval]]:
    seen = _union([piece.span for piece in pieces if piece.visible], slack)
    unseen = _union([piece.span for piece in pieces if not piece.visible], slack)
    return seen, [left for span in unseen for left in _less(span, seen, slack)]


def _union(spans: list[Interval], slack: float) -> list[Interval]:
    found: list[Interval] = []
    for low, high in sorted(spans):
        if found and low <= found[-1][1] + slack:
            found[-1] = (found[-1][0], max(high, found[-1][1]))
        else:
            found.append((low, high))
    return found


def _less(span: Interval, taken: list[Interval], slack: float) -> list[Interval]:
    left, start = [], span[0]
    for low, high in taken:
        if high <= start or low >= span[1]:
            continue
        if low - start > slack:
            left.append((start, low))
        start = high
    return [*left, (start, span[1])] if span[1] - start > slack else left


def _polylines(flats: list[tuple[bool, Flat]]) -> tuple[list[Flat], list[Flat]]:
    """Keep each polyline once; leave out hidden ones that run under a visible one all along."""
    seen: list[Flat] = []
    unseen: list[Flat] = []
    for is_seen, flat in flats:
        kept = seen if is_seen else unseen
        if not any(_covers(other, flat) for other in (seen if is_seen else [*seen, *unseen])):
            kept.append(flat)
    return seen, unseen


def _covers(other: Flat, flat: Flat) -> bool:
    path, points = chain(other), chain(flat)
    for i in (0, 1):
        low, high = min(p[i] for p in path) - 2 * NEAR_MM, max(p[i] for p in path) + 2 * NEAR_MM
        if any(not low <= point[i] <= high for point in points):
            return False
    return all(
        any(distance_to_segment(p, path[i], path[i + 1]) < 2 * NEAR_MM for i in range(len(path) - 1)) for p in points
    )


def _clusters(items: list[_T], value: Callable[[_T], float], gap: float) -> list[list[_T]]:
    """Return the items in groups whose values follow each other closer than ``gap``."""
    groups: list[list[_T]] = []
    last = -math.inf
    for item in sorted(items, key=value):
        if value(item) - last <= gap:
            groups[-1].append(item)
        else:
            groups.append([item])
        last = value(item)
    return groups


def _order(flat: Flat) -> tuple[float, ...]:
    points = chain(flat, 1.0) if isinstance(flat, Polyline) else (flat.a, flat.b) if isinstance(flat, Line) else ()
    if points:
        return (0.0, *(round(c, 6) for point in (points[0], points[-1]) for c in point))
    assert isinstance(flat, Arc | Circle | Ellipse)
    start = 0.0 if isinstance(flat, Circle) else flat.from_deg
    size = math.hypot(*flat.major) if isinstance(flat, Ellipse) else flat.radius
    return (1.0, round(flat.centre[0], 6), round(flat.centre[1], 6), round(size, 6), round(start, 6))


def _clean(value: float) -> float:
    """Drop float noise far below a nanometre, and never keep -0."""
    return round(value, 9) + 0.0
