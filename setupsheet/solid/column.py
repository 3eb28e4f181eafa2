"""How much metal stands over a point: exact interval arithmetic on the removed shapes, no kernel.

The removed shapes are prisms and cones along part axes, so a straight line along any axis cuts each of
them in plain intervals. A point on a wall belongs to both sides: it is asked four times, shifted by an
infinitely small step to each side, and where any of them has metal there is metal (a point on no wall is
asked once). So a wall counts as
standing, while two cuts that only touch leave no sheet of metal between them.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from itertools import product

from setupsheet.part.face import Box, Face
from setupsheet.plane import Point2
from setupsheet.solid.close_by import close_by
from setupsheet.solid.volume import ArcEdge, CircleLoop, Cone, LineEdge, Loop, Primitive, Prism

Interval = tuple[float, float]
Intervals = tuple[Interval, ...]
_Probe = tuple[float, int, list[bool]]
"""A coordinate, the side (+1, -1) to which it is shifted by an infinitely small step, and a list that
grows whenever that shift decides something."""

_THIN = 1e-9
"""mm; what is thinner is float noise and no metal."""


def metal(box: Box, removed: Iterable[Primitive], axis: int, at: Point2) -> Intervals:
    """Return the intervals of metal along a part axis over a point, rising, in mm.

    ``at`` are the other two part coordinates in alphabetical order.
    """
    shapes = close_by(removed if isinstance(removed, tuple) else tuple(removed), axis, at)
    found: list[Interval] = []
    on_a_wall: list[bool] = []
    for side_1, side_2 in product((1, -1), repeat=2):
        probes = ((at[0], side_1, on_a_wall), (at[1], side_2, on_a_wall))
        if _inside_box(box, axis, probes):
            gone = [span for shape in shapes for span in _spans(shape, axis, probes)]
            found += _minus([(box.low[axis], box.high[axis])], gone)
        if not on_a_wall:
            break
    return tuple(_union(found))


def surface(box: Box, removed: Iterable[Primitive], face: Face, at: Point2) -> float | None:
    """Return where a line from this face first meets metal (coordinate along the face's axis), or None."""
    spans = metal(box, removed, face.axis, at)
    if not spans:
        return None
    return spans[-1][1] if face.sign > 0 else spans[0][0]


def _inside_box(box: Box, axis: int, probes: tuple[_Probe, _Probe]) -> bool:
    others = [i for i in range(3) if i != axis]
    return all(_between(probe, box.low[i], box.high[i]) for i, probe in zip(others, probes, strict=True))


def _spans(shape: Primitive, axis: int, probes: tuple[_Probe, _Probe]) -> list[Interval]:
    if isinstance(shape, Prism):
        return _prism_spans(shape, axis, probes)
    return _cone_spans(shape, axis, probes)


def _prism_spans(prism: Prism, axis: int, probes: tuple[_Probe, _Probe]) -> list[Interval]:
    if prism.axis == axis:
        whole = _inside(prism.outer, probes) and not any(_inside(loop, probes) for loop in prism.islands)
        return [(prism.low, prism.high)] if whole else []
    along, fixed, first = _split(prism.axis, axis, probes)
    if not _between(along, prism.low, prism.high):
        return []
    spans = _line(prism.outer, fixed, fixed_first=first)
    islands = [span for loop in prism.islands for span in _line(loop, fixed, fixed_first=first)]
    return _minus(spans, islands)


def _cone_spans(cone: Cone, axis: int, probes: tuple[_Probe, _Probe]) -> list[Interval]:
    if cone.axis == axis:
        return _cone_along(cone, math.hypot(probes[0][0] - cone.centre[0], probes[1][0] - cone.centre[1]))
    along, fixed, first = _split(cone.axis, axis, probes)
    if not _between(along, cone.low, cone.high):
        return []
    share = (along[0] - cone.low) / (cone.high - cone.low)
    circle = CircleLoop(cone.centre, cone.radius_low + share * (cone.radius_high - cone.radius_low))
    return _line(circle, fixed, fixed_first=first)


def _cone_along(cone: Cone, away: float) -> list[Interval]:
    """Cut a cone by a line parallel to its axis at the distance ``away``."""
    low_in, high_in = away < cone.radius_low, away < cone.radius_high
    if low_in and high_in:
        return [(cone.low, cone.high)]
    if not low_in and not high_in:
        return []
    share = (away - cone.radius_low) / (cone.radius_high - cone.radius_low)
    edge = cone.low + share * (cone.high - cone.low)
    return [(cone.low, edge)] if low_in else [(edge, cone.high)]


def _split(own_axis: int, axis: int, probes: tuple[_Probe, _Probe]) -> tuple[_Probe, _Probe, bool]:
    """Return the probes along a shape's axis and across it, and whether the latter is its first axis."""
    others = [i for i in range(3) if i != axis]
    along = probes[others.index(own_axis)]
    fixed_axis = 3 - axis - own_axis
    return along, probes[others.index(fixed_axis)], fixed_axis < axis


def _between(probe: _Probe, low: float, high: float) -> bool:
    value, side, on_a_wall = probe
    if value in (low, high):
        on_a_wall.append(True)
        return low < high and (side > 0) == (value == low)
    return low < value < high


def _inside(loop: Loop, probes: tuple[_Probe, _Probe]) -> bool:
    return any(_between(probes[1], low, high) for low, high in _line(loop, probes[0], fixed_first=True))


def _line(loop: Loop, fixed: _Probe, *, fixed_first: bool) -> list[Interval]:
    """Return where a line of the loop's plane runs inside it; ``fixed`` is its first or second coordinate."""
    if isinstance(loop, CircleLoop):
        centre = loop.centre if fixed_first else loop.centre[::-1]
        half2 = loop.radius**2 - (fixed[0] - centre[0]) ** 2
        return [(centre[1] - math.sqrt(half2), centre[1] + math.sqrt(half2))] if half2 > 0 else []
    crossings: list[float] = []
    across, along, value = (0, 1, fixed[0]) if fixed_first else (1, 0, fixed[0])
    for edge in loop.edges:
        if not isinstance(edge, LineEdge):
            crossings += _cross_arc(edge, fixed, fixed_first)
            continue
        a, b = edge.a, edge.b  # written out: asked millions of times for a plan
        start, end = a[across], b[across]
        beyond = start > value if start != value else _beyond(start, fixed)
        if beyond != (end > value if end != value else _beyond(end, fixed)):
            crossings.append(a[along] + (value - start) / (end - start) * (b[along] - a[along]))
    crossings.sort()
    return list(zip(crossings[::2], crossings[1::2], strict=False))


def _turned(point: Point2, fixed_first: bool) -> Point2:
    return point if fixed_first else (point[1], point[0])


def _beyond(value: float, fixed: _Probe) -> bool:
    if value == fixed[0]:
        fixed[2].append(True)
        return fixed[1] < 0
    return value > fixed[0]


def _cross_arc(arc: ArcEdge, fixed: _Probe, fixed_first: bool) -> list[float]:
    """Cross each piece of the arc between its extremes; every such piece is crossed at most once."""
    a, b, centre = (_turned(point, fixed_first) for point in (arc.a, arc.b, arc.centre))
    ccw = arc.ccw if fixed_first else not arc.ccw
    if not ccw:
        a, b = b, a
    radius = math.hypot(a[0] - centre[0], a[1] - centre[1])
    start = math.atan2(a[1] - centre[1], a[0] - centre[0]) % math.tau
    sweep = (math.atan2(b[1] - centre[1], b[0] - centre[0]) - start) % math.tau or math.tau
    turns = [k * math.pi for k in range(1, 5) if start < k * math.pi < start + sweep]
    ends = [a[0], *(centre[0] + radius * math.cos(turn) for turn in turns), b[0]]
    angles = [start, *turns, start + sweep]
    found: list[float] = []
    for i in range(len(ends) - 1):
        if _beyond(ends[i], fixed) != _beyond(ends[i + 1], fixed):
            upper = math.sin((angles[i] + angles[i + 1]) / 2) > 0
            half = math.sqrt(max(0.0, radius**2 - (fixed[0] - centre[0]) ** 2))
            found.append(centre[1] + half if upper else centre[1] - half)
    return found


def _minus(spans: list[Interval], gone: list[Interval]) -> list[Interval]:
    left: list[Interval] = []
    for low, high in spans:
        start = low
        for a, b in _union(gone):
            if b <= start or a >= high:
                continue
            if a - start > _THIN:
                left.append((start, a))
            start = b
        if high - start > _THIN:
            left.append((start, high))
    return left


def _union(spans: list[Interval]) -> list[Interval]:
    merged: list[Interval] = []
    for low, high in sorted(spans):
        if merged and low <= merged[-1][1] + _THIN:
            merged[-1] = (merged[-1][0], max(high, merged[-1][1]))
        else:
            merged.append((low, high))
    return merged
