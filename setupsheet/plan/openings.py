"""Pockets, windows and slots: openings cut with an end mill that plunges or comes in from outside."""

from __future__ import annotations

from setupsheet.finding import Finding
from setupsheet.part.feature import Feature, Pocket, Slot
from setupsheet.part.shape import BoxShape, SlotShape
from setupsheet.plan import area
from setupsheet.plan.area import FAR_MM
from setupsheet.plan.bench import Bench, Removed, flat_box, metal_above, top_over
from setupsheet.plan.cutting import milling
from setupsheet.plan.draft import Draft, region_of, step, tool_plan
from setupsheet.plan.milling import FLOOR_MM, LIFT_MM, AreaWork, feed_fields, heights_down, mill_area
from setupsheet.plan.mills import MillNeed, pick_mill
from setupsheet.plan.record import Move
from setupsheet.plane import Point2
from setupsheet.solid.volumes import feature_volume

Drafts = tuple[list[Draft], list[Finding]]

THROUGH_MM = 0.5
"""How far an opening is cut past the far side. Common practice, no source."""

_PLUNGE_WORDS = "plunge with a cutter that cuts to its centre, slowly, and lift to clear the chips"


def pocket_drafts(bench: Bench, removed: Removed, feature: Feature) -> Drafts:
    """Clear a box-shaped pocket or window with a cutter of its corner radius."""
    assert isinstance(feature, Pocket)
    shape = bench.laid.shape(feature.shape)
    if isinstance(shape, SlotShape):
        return [_slot(bench, removed, feature, shape)], []
    if not isinstance(shape, BoxShape):
        return [_unproved(bench, feature)], []
    inside = area.of_shape(shape)
    keep = area.without(area.rectangle((-FAR_MM, -FAR_MM), (FAR_MM, FAR_MM)), inside)
    floor = _floor(bench, feature)
    top = top_over(bench, removed, inside)
    cutter = pick_mill(bench, MillNeed(inside, keep, top - floor, 2 * shape.corner_radius_mm))
    work = AreaWork("mill", feature.id, (feature.id,), inside, keep, top, floor, (_PLUNGE_WORDS,))
    made = mill_area(bench, work, cutter)
    return [Draft(made, feature_volume(feature, bench.part), cutter)], []


def slot_drafts(bench: Bench, removed: Removed, feature: Feature) -> Drafts:
    """Cut a slot along its own line with a cutter of its width."""
    assert isinstance(feature, Slot)
    shape = bench.laid.shape(feature.shape)
    assert isinstance(shape, SlotShape)
    return [_slot(bench, removed, feature, shape)], []


def _slot(bench: Bench, removed: Removed, feature: Pocket | Slot, shape: SlotShape) -> Draft:
    start, end = _outside_first(bench, shape)
    if min(abs(start[0] - end[0]), abs(start[1] - end[1])) > 1e-6:
        return _unproved(bench, feature)
    floor = _floor(bench, feature)
    region = area.of_shape(shape)
    top = top_over(bench, removed, region)
    cutter = pick_mill(bench, MillNeed(region, area.nothing(), top - floor, shape.width_mm))
    cut = milling(bench, cutter, full_width=True)
    finish = FLOOR_MM if feature.floor else 0.0
    heights = [bench.settle("z", z) for z in heights_down(top, floor, cut.depth_mm, finish)]
    path = tuple((bench.settle("x", x), bench.settle("y", y)) for x, y in (start, end))
    metal = metal_above(bench, removed, floor)
    entry = "outside" if area.distance(metal, path[0]) >= shape.width_mm / 2 - 1e-3 else "plunge"
    clear = bench.settle("z", top) + LIFT_MM
    made = step(
        "mill",
        feature.id,
        (feature.id,),
        method="table",
        removes=True,
        tool=tool_plan(cutter),
        direction="conventional",
        moves=tuple(Move(entry, z, clear, path, "table", "slot") for z in heights),
        z_shown=tuple(bench.shown("z", z) for z in heights),
        where=_slot_words(bench, path),
        words=(_PLUNGE_WORDS,) if entry == "plunge" else (),
        **feed_fields(cut),
    )
    return Draft(made, feature_volume(feature, bench.part), cutter)


def _outside_first(bench: Bench, shape: SlotShape) -> tuple[Point2, Point2]:
    """Start at the end that runs out over an edge, clear of the stock, where there is one."""
    start, end = shape.start, shape.end
    stock = flat_box(bench.stock)
    if area.distance(stock, end) > area.distance(stock, start):
        start, end = end, start
    if area.distance(flat_box(bench.envelope), start) <= 0 or area.distance(stock, start) >= shape.width_mm / 2:
        return start, end
    index = 0 if abs(start[0] - end[0]) > abs(start[1] - end[1]) else 1
    sign = 1 if start[index] > end[index] else -1
    edge = (bench.stock.high if sign > 0 else bench.stock.low)[index]
    out = edge + sign * (shape.width_mm / 2 + area.RUN_OUT_MM)
    return ((out, start[1]) if index == 0 else (start[0], out)), end


def _slot_words(bench: Bench, path: tuple[Point2, ...]) -> str:
    index = 0 if abs(path[0][0] - path[-1][0]) > 1e-6 else 1
    along, across = "xy"[index], "xy"[1 - index]
    ends = [bench.shown(along, point[index]) for point in path]
    return f"{across.upper()} {bench.shown(across, path[0][1 - index])}; {along.upper()} {ends[0]} to {ends[1]}"


def _floor(bench: Bench, feature: Pocket | Slot) -> float:
    if feature.floor is not None:
        return bench.z(feature.floor.nominal_mm)
    return min(bench.z(feature.exit_mm), bench.z(feature.mouth_mm)) - THROUGH_MM


def _unproved(bench: Bench, feature: Pocket | Slot) -> Draft:
    """Describe an opening that straight moves cannot give, and name it as not proved."""
    words = f"{feature.id}: mark out, drill out the middle, finish on a rotary table or by points to the line"
    volume = feature_volume(feature, bench.part)
    made = step(
        "mill",
        feature.id,
        (feature.id,),
        method="by_hand",
        words=(words,),
        not_proved=f"{feature.id}: its round or slanted outline is not given as moves",
        region_mm=region_of(bench.part, volume),
    )
    return Draft(made, volume)
