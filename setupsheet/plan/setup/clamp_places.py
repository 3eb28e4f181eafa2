"""Where straps and a bolt hold a part on a rotary table: nothing that turns with it may meet a cutter or its holder.

A strap lies square to an edge of the part, its toe on metal that this setup leaves alone. Through a bore over the
table's middle that is there already goes a bolt with a washer.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from setupsheet.part.feature import Hole
from setupsheet.part.shop import RotaryTable
from setupsheet.plan.bench import Bench, Removed, metal_at
from setupsheet.plan.checks import limits
from setupsheet.plan.checks.swept import arc_way
from setupsheet.plan.milling import area, rim_ways
from setupsheet.plan.milling.area import Region
from setupsheet.plan.places import feature_of
from setupsheet.plan.record import Body, Step, ToolPlan
from setupsheet.plane import Point2, polar

STRAP_WIDE_MM, STRAP_THICK_MM, STRAP_OUT_MM = 20.0, 10.0, 40.0
"""A strap's width and thickness, and how far it stands out over the edge. Common practice, no source."""

TOE_MM = 10.0
"""How much of a strap lies on the part. Common practice, no source."""

NUT_MM, NUT_RADIUS_MM, BOLT_OUT_MM = 14.0, 9.0, 14.0
"""Height of a nut over a strap, its radius, how far beyond the edge it stands. Common practice, no source."""

CLEAR_MM = 2.0
"""How far a cutter or its holder stays from a clamp. Common practice, no source."""

EVERY_MM = 2.5
"""How far apart the places along an edge are that are tried."""


@dataclass(frozen=True, slots=True)
class Strap:
    """A strap: which edge (axis and sign), its middle along it, the edge's place, the height that its toe lies on."""

    axis: int
    sign: int
    along: float
    edge: float
    z: float

    @property
    def toe(self) -> Point2:
        """The middle of what lies on the part."""
        return self._at(-TOE_MM / 2)

    @property
    def bolt(self) -> Point2:
        """Where its bolt stands, beside the part."""
        return self._at(BOLT_OUT_MM)

    def box(self) -> tuple[Point2, Point2]:
        """Return the strap as a rectangle seen from above."""
        ends = sorted((self.edge - self.sign * TOE_MM, self.edge + self.sign * STRAP_OUT_MM))
        half = STRAP_WIDE_MM / 2
        (a, b), (c, d) = ends, (self.along - half, self.along + half)
        return ((a, c), (b, d)) if self.axis == 0 else ((c, a), (d, b))

    def _at(self, out: float) -> Point2:
        across = self.edge + self.sign * out
        return (across, self.along) if self.axis == 0 else (self.along, across)


@dataclass(frozen=True, slots=True)
class Clamps:
    """What holds a part on a rotary table: straps, and the washer's radius and height of a bolt through its bore."""

    straps: tuple[Strap, ...]
    washer: tuple[float, float] | None = None

    @property
    def enough(self) -> bool:
        """Tell whether the part can neither slide nor turn: two straps, or one and the bolt."""
        return len(self.straps) + (self.washer is not None) > 1

    def bodies(self) -> tuple[Body, ...]:
        """Return straps, their nuts and the bolt as bodies."""
        found = []
        for strap in self.straps:
            (x0, y0), (x1, y1) = strap.box()
            top = strap.z + STRAP_THICK_MM
            found.append(Body("clamp", (x0, y0, strap.z), (x1, y1, top)))
            found.append(_round_body("clamp's nut", strap.bolt, NUT_RADIUS_MM, (top, top + NUT_MM)))
        if self.washer is not None:
            radius, z = self.washer
            found.append(_round_body("bolt and washer", (0.0, 0.0), radius, (z, z + NUT_MM)))
        return tuple(found)


def _round_body(name: str, at: Point2, radius: float, z: tuple[float, float]) -> Body:
    return Body(name, (at[0], at[1], z[0]), (at[0], at[1], z[1]), radius)


def clamps(bench: Bench, table: RotaryTable, removed: Removed, steps: Sequence[Step]) -> Clamps:
    """Return how a part is clamped on a rotary table so that no step of its setup comes near."""
    swept = _swept(bench, steps)
    washer = _washer(bench, removed, steps, swept)
    free = [s for s in _tried(bench, removed) if _is_free(s, table, swept)]
    first = max(free, key=lambda s: (round(_apart(swept, s), 1), -s.axis, s.sign, s.along), default=None)
    if first is None:
        return Clamps((), washer)
    if washer is not None:
        return Clamps((first,), washer)
    others = [s for s in free if not _touch(s, first)]
    second = max(others, key=lambda s: (round(math.dist(s.toe, first.toe), 1), -s.axis, s.sign, s.along), default=None)
    return Clamps((first,) if second is None else (first, second))


def _tried(bench: Bench, removed: Removed) -> Iterator[Strap]:
    """Yield every place of a strap whose toe lies flat on metal that goes down to the packing."""
    for axis, sign in ((0, -1), (0, 1), (1, -1), (1, 1)):
        for along in _along(bench, 1 - axis):
            edge = _edge(bench, removed, (axis, sign), along)
            z = None if edge is None else _flat(bench, removed, (axis, sign), along, edge)
            if edge is not None and z is not None:
                yield Strap(axis, sign, along, edge, z)


def _along(bench: Bench, axis: int) -> list[float]:
    """Return the middles of straps along an edge: from end to end, and flush with the finished ends."""
    half = STRAP_WIDE_MM / 2
    low, high = bench.stock.low[axis] + half, bench.stock.high[axis] - half
    count = math.floor(max(0.0, high - low) / EVERY_MM)
    flush = (bench.envelope.low[axis] + half, bench.envelope.high[axis] - half)
    return sorted({*flush, *(low + i * EVERY_MM for i in range(count + 1))}) if high >= low else []


def _edge(bench: Bench, removed: Removed, side: tuple[int, int], along: float) -> float | None:
    """Return where the metal ends on a side at a place along it."""
    axis, sign = side
    for outer in (
        (bench.stock.low, bench.stock.high)[sign > 0][axis],
        (bench.envelope.low, bench.envelope.high)[sign > 0][axis],
    ):
        inside = outer - sign * 0.05
        at = (inside, along) if axis == 0 else (along, inside)
        if metal_at(bench, removed, at):
            return outer
    return None


def _flat(bench: Bench, removed: Removed, side: tuple[int, int], along: float, edge: float) -> float | None:
    """Return the height under a strap's toe, None unless it is flat there and metal down to the rest."""
    axis, sign = side
    tops, lows = set(), set()
    for inward in (0.5, TOE_MM / 2, TOE_MM - 0.5):
        for aside in (-STRAP_WIDE_MM / 2 + 0.5, 0.0, STRAP_WIDE_MM / 2 - 0.5):
            across = edge - sign * inward
            at = (across, along + aside) if axis == 0 else (along + aside, across)
            spans = metal_at(bench, removed, at)
            if len(spans) != 1:
                return None
            tops.add(round(spans[0][1], 4))
            lows.add(round(spans[0][0], 4))
    return tops.pop() if len(tops) == 1 and len(lows) == 1 else None


def _swept(bench: Bench, steps: Sequence[Step]) -> Region:
    """Return where cutters and, low down, their holders come, seen from above."""
    top = max(bench.stock.high[2], bench.envelope.high[2]) + STRAP_THICK_MM + NUT_MM + CLEAR_MM
    regions = []
    for step in steps:
        if step.tool is None:
            continue
        rings = max((ring.radius_outer + step.tool.diameter_mm for ring in step.rings), default=0.0)
        ways = [*_ways(step), *([(ring.centre,) for ring in step.rings])]
        if ways:
            regions.append(rim_ways.swept(ways, max(rings, _wide(step.tool, _lowest(step), top))))
        if step.touch_off is not None:
            place = (step.touch_off.x, step.touch_off.y)
            regions.append(rim_ways.swept([(place,)], _wide(step.tool, step.touch_off.z, top)))
    return area.union(regions)


def _wide(tool: ToolPlan, low: float, top: float) -> float:
    """Return the radius to keep clear about a cutter whose end is this low: its holder's where that meets a clamp."""
    radius = tool.diameter_mm / 2
    holder = (tool.holder_diameter_mm or limits.mm("collet holder diameter")) / 2
    return CLEAR_MM + (max(radius, holder) if low + tool.stickout_mm < top else radius)


def _ways(step: Step) -> list[tuple[Point2, ...]]:
    """Return every way of a step's cutter, also those from one cut to the next."""
    ways: list[tuple[Point2, ...]] = [((p.x, p.y),) for p in step.positions]
    ways += [move.path for move in step.moves]
    ways += [(a.path[-1], b.path[0]) for a, b in pairwise(step.moves) if a.path[-1] != b.path[0]]
    ways += [arc_way(arc) for arc in step.arcs]
    return ways


def _lowest(step: Step) -> float:
    heights = [move.z for move in step.moves] + [arc.z for arc in step.arcs] + [p.z_to for p in step.positions]
    return min(heights + [ring.z_to for ring in step.rings])


def _is_free(strap: Strap, table: RotaryTable, swept: Region) -> bool:
    """Tell whether a strap's bolt finds the table and nothing of the strap lies in a cutter's way."""
    if math.hypot(*strap.bolt) > table.diameter_mm / 2 - NUT_RADIUS_MM:
        return False
    return area.is_empty(area.common(area.rectangle(*strap.box()), swept))


def _apart(swept: Region, strap: Strap) -> float:
    """Return how far a strap's toe lies from the cutters' ways, no more than counts."""
    return 50.0 if area.is_empty(swept) else min(50.0, area.distance(swept, strap.toe))


def _touch(a: Strap, b: Strap) -> bool:
    (ax0, ay0), (ax1, ay1) = a.box()
    (bx0, by0), (bx1, by1) = b.box()
    return ax0 < bx1 + CLEAR_MM and bx0 < ax1 + CLEAR_MM and ay0 < by1 + CLEAR_MM and by0 < ay1 + CLEAR_MM


def _washer(bench: Bench, removed: Removed, steps: Sequence[Step], swept: Region) -> tuple[float, float] | None:
    """Return radius and height of the washer of a bolt through the bore over the table's middle, if it can stay in."""
    feature = feature_of(bench.part, bench.asked.hold.centred) if bench.asked.hold else None
    if not isinstance(feature, Hole) or not feature.through or metal_at(bench, removed, (0.0, 0.0)):
        return None
    radius = feature.diameter.nominal_mm
    if any(feature.id in step.features for step in steps) or area.distance(swept, (0.0, 0.0)) < radius:
        return None
    heights = {
        round(spans[-1][1], 4)
        for angle in range(0, 360, 45)
        if (spans := metal_at(bench, removed, polar((0.0, 0.0), radius - 0.2, angle)))
    }
    return (radius, heights.pop()) if len(heights) == 1 else None
