"""Straight sides of the part: milled to a plane, as deep as the finished part stands there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from setupsheet.finding import Finding, caution
from setupsheet.part.face import Face
from setupsheet.part.feature import EdgeCut
from setupsheet.plan.bench import Bench, Removed, finished_at, flat_box, metal_above, metal_at, top_over
from setupsheet.plan.draft import Draft
from setupsheet.plan.milling import area
from setupsheet.plan.milling.area import FAR_MM, Region
from setupsheet.plan.milling.expected import before_last_side
from setupsheet.plan.milling.milling import WALL_MM, AreaWork, mill_area
from setupsheet.plan.milling.mills import MillNeed, pick_mill
from setupsheet.plan.sizes import length, with_unit
from setupsheet.plane import Point2
from setupsheet.solid.volume import Primitive, Prism, Volume

PAST_MM = 0.5
"""How far a side is cut below the metal that has to have it. Common practice, no source."""

OVER_JAW_MM = 1.0
"""Least height of a milling cutter over the jaws. Common practice, no source."""

_ALONG = {
    (1, -1): "left to right",
    (0, 1): "front to back",
    (1, 1): "right to left",
    (0, -1): "back to front",
}
"""The way of the cutter along each side: anticlockwise round the part, which is conventional milling."""

_INSIDE_MM = 0.05
_SAMPLES = 25


def side_draft(
    bench: Bench, removed: Removed, side: Face, feature: EdgeCut | None = None
) -> tuple[list[Draft], list[Finding]]:
    """Mill one side of the part; ``feature`` where an edge cut makes it, else the envelope's own face."""
    index, sign = bench.laid.where(side)
    plane = bench.laid.along(index, bench.part.box.at(side))
    if feature is not None:
        plane = bench.laid.flat(feature.line[0])[index]
    inside, outside = (_edge(bench, index, plane + by) for by in (-sign * _INSIDE_MM, sign * _INSIDE_MM))
    need = lowest_needed(bench, removed, inside, outside)
    if need is None:
        return [], []
    floor, findings = cut_floor(bench, need, _reach(bench, index, sign, plane), feature.id if feature else side.value)
    strip, keep = _half(index, sign, plane), _half(index, -sign, plane)
    target = area.common(strip, metal_above(bench, removed, floor))
    if area.is_empty(target):
        return [], []
    top = top_over(bench, removed, target)
    ids = (feature.id,) if feature else ()
    title = f"{feature.id if feature else side.value + ' side'}, {_ALONG[(index, sign)]}"
    cutter = pick_mill(bench, MillNeed(target, keep, top - floor))
    words = _words(bench, feature) or before_last_side(bench, removed, side, (plane, floor))
    work = AreaWork("mill", title, ids, target, keep, top, floor, words, floor_counts=False)
    made = mill_area(bench, work, cutter)
    return [Draft(made, column_over(bench, target, floor), cutter)], findings


def _words(bench: Bench, feature: EdgeCut | None) -> tuple[str, ...]:
    if feature is None or feature.distance is None:
        return ()
    there = length(feature.distance.nominal_mm + WALL_MM, bench.part.unit)
    said = f"{feature.distance.written} from {feature.measured_from}"
    return (f"{said}: measure before the last pass, it should be {there} then",)


def _half(index: int, sign: int, plane: float) -> Region:
    """Return the half plane beyond a plane, as a rectangle far larger than any part."""
    low, high = [-FAR_MM, -FAR_MM], [FAR_MM, FAR_MM]
    (low if sign > 0 else high)[index] = plane
    return area.rectangle((low[0], low[1]), (high[0], high[1]))


def _edge(bench: Bench, index: int, plane: float) -> list[Point2]:
    """Return points along a side of the finished part, a hair inside it."""
    other = 1 - index
    low, high = bench.envelope.low[other], bench.envelope.high[other]
    shares = [(i + 0.5) / _SAMPLES for i in range(_SAMPLES)]
    along = [low + (high - low) * share for share in shares]
    return [(plane, value) if index == 0 else (value, plane) for value in along]


def _reach(bench: Bench, index: int, sign: int, plane: float) -> tuple[float, float]:
    """Return the X range that a cutter working on this side sweeps, ends of the run included."""
    if index == 0:
        return (plane, plane + sign * 20.0) if sign > 0 else (plane + sign * 20.0, plane)
    return bench.stock.low[0], bench.stock.high[0]


def lowest_needed(bench: Bench, removed: Removed, inside: Sequence[Point2], outside: Sequence[Point2]) -> float | None:
    """Return how far down an edge has to be cut, None where no metal stands beside it any more.

    ``inside`` and ``outside`` are points a hair to either side of the finished edge: no deeper than the finished
    part stands there, and no deeper than metal is left by what was cut from the other side before.
    """
    left = [spans[0][0] for point in outside if (spans := metal_at(bench, removed, point))]
    if not left:
        return None
    lows = [spans[0][0] for point in inside if (spans := finished_at(bench, point))]
    return max(min(lows) if lows else bench.envelope.low[2], min(left))


def cut_floor(bench: Bench, need: float, x_range: tuple[float, float], name: str) -> tuple[float, list[Finding]]:
    """Return how deep an outside cut goes, and a caution where the jaws forbid what the part needs.

    ``need`` is the lowest metal that has to go; ``x_range`` is where the cutter passes along X.
    """
    wanted = need - PAST_MM
    clear_of_jaws = x_range[1] < bench.jaws_x[0] or x_range[0] > bench.jaws_x[1]
    lowest = bench.jaw_top + OVER_JAW_MM
    if clear_of_jaws or wanted >= lowest - 1e-6:
        return wanted, []
    if lowest <= need + 1e-6:
        return lowest, []
    size = with_unit(lowest - need, bench.part.unit)
    finding = caution(
        "side-hidden-by-jaws",
        f"{size} of {name} stays uncut in setup {bench.number}: the jaws are in the way",
        bench.asked.hold.place if bench.asked.hold else bench.asked.place,
        feature=name,
        because="a cutter that goes deeper runs into the jaws",
        try_="write setups: in which it is gripped less, or that end hangs out past the jaws (overhang:)",
    )
    return lowest, [finding]


def column_over(bench: Bench, region: Region, floor: float) -> tuple[Primitive, ...]:
    """Return everything over a region from a floor up, as volumes in the part frame."""
    top = bench.stock.high[2] + 1.0
    grown = area.common(area.grown(region, 1.0), area.grown(flat_box(bench.stock), 1.0))
    outside = area.union([region, area.without(grown, flat_box(bench.stock))])
    prisms = [Prism(2, outer, islands, floor, top) for outer, islands in area.loops_of(outside)]
    return tuple(bench.laid.primitive_to_part(prism) for prism in prisms)


def cut_above(bench: Bench, volume: Volume, floor: float) -> tuple[Primitive, ...]:
    """Return the part of a volume of upright prisms that lies over a height (part frame)."""
    bound = bench.laid.to_part((0.0, 0.0, floor))[bench.up.axis]
    kept = []
    for shape in volume:
        low, high = (max(shape.low, bound), shape.high) if bench.up.sign > 0 else (shape.low, min(shape.high, bound))
        if high > low:
            kept.append(replace(shape, low=low, high=high))
    return tuple(kept)
