"""Hatch of what a setup cuts, line by line: where each hatch line runs through the cutter's ways.

A cutter's way is a disc drawn along a leg; a straight line meets it in one interval, so the hatch is
nothing but intervals joined and taken away from each other. Plain arithmetic in setup mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from setupsheet.plan.record import Setup, Step
from setupsheet.plane import Point2, polar

Interval = tuple[float, float]
_SAME_LEVEL_MM = 0.25
"""Heights closer than this are one floor (a rough and a last pass)."""


@dataclass(frozen=True, slots=True)
class Swept:
    """Metal in a cutter's way: a disc of ``radius`` drawn from ``a`` to ``b``, less one of ``inner`` about a."""

    a: Point2
    b: Point2
    radius: float
    inner: float = 0.0


@dataclass(frozen=True, slots=True)
class Floor:
    """An area cut down to one height. ``step`` and ``reading`` are the indices of what is printed for it."""

    z: float
    step: int
    reading: int
    features: tuple[str, ...]
    swept: tuple[Swept, ...]


@dataclass(frozen=True, slots=True)
class Ruler:
    """A straight line through ``foot`` along the unit vector ``along``: one line of a hatch."""

    foot: Point2
    along: Point2

    def at(self, t: float) -> Point2:
        """Return the point ``t`` mm along the line."""
        return self.foot[0] + t * self.along[0], self.foot[1] + t * self.along[1]


def floors(setup: Setup) -> tuple[Floor, ...]:
    """Return what the setup mills, deepest first; facing of the whole top only where nothing else is milled."""
    cutting = [(i, step) for i, step in enumerate(setup.steps) if step.removes and not _is_edge_work(step)]
    rows = [_floors_of(step, i) for i, step in cutting]
    other = [row for row, (_, step) in zip(rows, cutting, strict=True) if step.operation != "face"]
    found = [floor for row in (other if any(other) else rows) for floor in row]
    found.sort(key=lambda floor: floor.z)
    merged: list[Floor] = []
    for floor in found:
        if merged and floor.z - merged[-1].z <= _SAME_LEVEL_MM and floor.step >= 0:
            merged[-1] = _joined(merged[-1], floor)
        else:
            merged.append(floor)
    return tuple(merged)


def _is_edge_work(step: Step) -> bool:
    """Tell whether only the flank of a pointed cutter works: its way says nothing about a floor."""
    return step.tool is not None and step.tool.kind == "countersink"


def _joined(low: Floor, high: Floor) -> Floor:
    return Floor(low.z, low.step, low.reading, low.features, low.swept + high.swept)


def _floors_of(step: Step, index: int) -> list[Floor]:
    radius = step.tool.diameter_mm / 2 if step.tool else 0.0
    by_z: dict[float, list[Swept]] = {}
    for move in step.moves:
        legs = list(pairwise(move.path)) if len(move.path) > 1 else [(move.path[0], move.path[0])]
        by_z.setdefault(move.z, []).extend(Swept(leg[0], leg[1], radius) for leg in legs)
    for arc in step.arcs:
        by_z.setdefault(arc.z, []).extend(_arc_legs(arc.centre, arc.radius, (arc.from_deg, arc.to_deg), radius))
    for ring in step.rings:
        by_z.setdefault(ring.z_to, []).append(Swept(ring.centre, ring.centre, ring.radius_outer, ring.radius_inner))
    if step.method == "by_points":
        for position in step.positions:
            place = (position.x, position.y)
            by_z.setdefault(position.z_to, []).append(Swept(place, place, radius))
    last = len(step.z_shown) - 1
    return [Floor(z, index, last, step.features, tuple(swept)) for z, swept in by_z.items()]


def _arc_legs(centre: Point2, radius: float, span: tuple[float, float], cutter: float) -> list[Swept]:
    sweep = span[1] - span[0]
    count = max(1, math.ceil(abs(sweep) / 10))
    points = [polar(centre, radius, span[0] + sweep * i / count) for i in range(count + 1)]
    return [Swept(a, b, cutter) for a, b in pairwise(points)]


def rulers(low: Point2, high: Point2, angle_deg: float, pitch: float) -> list[Ruler]:
    """Return parallel hatch lines that cover a box, ``pitch`` mm apart."""
    along = polar((0.0, 0.0), 1.0, angle_deg)
    across = (-along[1], along[0])
    corners = [(x, y) for x in (low[0], high[0]) for y in (low[1], high[1])]
    offsets = [x * across[0] + y * across[1] for x, y in corners]
    first, last = math.ceil(min(offsets) / pitch), math.floor(max(offsets) / pitch)
    return [Ruler((across[0] * i * pitch, across[1] * i * pitch), along) for i in range(first, last + 1)]


def inside(ruler: Ruler, swept: Iterable[Swept]) -> list[Interval]:
    """Return the joined intervals of a hatch line that lie in the cutter's ways."""
    raw: list[Interval] = []
    for one in swept:
        outer = _through(ruler, one) if _near(ruler, one) else None
        if outer is None:
            continue
        hole = _through(ruler, Swept(one.a, one.a, one.inner)) if one.inner else None
        raw.extend(minus([outer], [hole] if hole else []))
    return joined(raw)


def _near(ruler: Ruler, swept: Swept) -> bool:
    """Tell quickly whether a line can meet a swept disc: both ends far off on one side means no."""
    nx, ny = -ruler.along[1], ruler.along[0]
    off = nx * ruler.foot[0] + ny * ruler.foot[1]
    a, b = nx * swept.a[0] + ny * swept.a[1] - off, nx * swept.b[0] + ny * swept.b[1] - off
    return min(a, b) < swept.radius and max(a, b) > -swept.radius


def _through(ruler: Ruler, swept: Swept) -> Interval | None:
    """Return where a line runs through a disc drawn along a leg: one interval, as the area is convex."""
    found = [t for t in (_disc(ruler, swept.a, swept.radius), _disc(ruler, swept.b, swept.radius)) if t]
    leg = (swept.b[0] - swept.a[0], swept.b[1] - swept.a[1])
    length = math.hypot(*leg)
    if length > 1e-9:
        band = _band(ruler, swept.a, (leg[0] / length, leg[1] / length), (length, swept.radius))
        found.extend([band] if band else [])
    return (min(a for a, _ in found), max(b for _, b in found)) if found else None


def _disc(ruler: Ruler, centre: Point2, radius: float) -> Interval | None:
    dx, dy = centre[0] - ruler.foot[0], centre[1] - ruler.foot[1]
    middle = dx * ruler.along[0] + dy * ruler.along[1]
    off2 = dx * dx + dy * dy - middle * middle
    half2 = radius * radius - off2
    return (middle - math.sqrt(half2), middle + math.sqrt(half2)) if half2 > 0 else None


def _band(ruler: Ruler, a: Point2, leg: Point2, size: Point2) -> Interval | None:
    """Return the interval in the box of (length, half width) ``size`` that starts at ``a`` along ``leg``."""
    dx, dy = ruler.foot[0] - a[0], ruler.foot[1] - a[1]
    near, far = -math.inf, math.inf
    for axis, low, high in ((leg, 0.0, size[0]), ((-leg[1], leg[0]), -size[1], size[1])):
        start = dx * axis[0] + dy * axis[1]
        speed = ruler.along[0] * axis[0] + ruler.along[1] * axis[1]
        if abs(speed) < 1e-12:
            if not low < start < high:
                return None
            continue
        ends = sorted(((low - start) / speed, (high - start) / speed))
        near, far = max(near, ends[0]), min(far, ends[1])
    return (near, far) if far > near else None


def joined(intervals: Iterable[Interval]) -> list[Interval]:
    """Return the union of intervals, in order."""
    out: list[Interval] = []
    for low, high in sorted(intervals):
        if out and low <= out[-1][1] + 1e-9:
            out[-1] = (out[-1][0], max(out[-1][1], high))
        else:
            out.append((low, high))
    return out


def minus(intervals: Sequence[Interval], away: Sequence[Interval]) -> list[Interval]:
    """Return what is left of ``intervals`` when ``away`` is taken off; both in order and joined."""
    out: list[Interval] = []
    for low, high in intervals:
        start = low
        for a, b in away:
            if b <= start or a >= high:
                continue
            if a > start:
                out.append((start, a))
            start = max(start, b)
        if start < high:
            out.append((start, high))
    return out


def crossing_span(ruler: Ruler, chains: Iterable[Sequence[Point2]]) -> Interval | None:
    """Return the first and last place where a line crosses any of the chains: the metal seen from above."""
    found: list[float] = []
    nx, ny = -ruler.along[1], ruler.along[0]
    for points in chains:
        sides = [(x - ruler.foot[0]) * nx + (y - ruler.foot[1]) * ny for x, y in points]
        for (p, q), (s, t) in zip(pairwise(points), pairwise(sides), strict=True):
            if (s > 0) != (t > 0):
                share = s / (s - t)
                x, y = p[0] + share * (q[0] - p[0]), p[1] + share * (q[1] - p[1])
                found.append((x - ruler.foot[0]) * ruler.along[0] + (y - ruler.foot[1]) * ruler.along[1])
    return (min(found), max(found)) if found else None
