"""Pockets, windows and slots: openings cut with an end mill that plunges or comes in from outside."""

from __future__ import annotations

from setupsheet.finding import Finding
from setupsheet.part.feature import Pocket, Slot
from setupsheet.part.shape import CircleShape, SlotShape
from setupsheet.part.shop import Cutter
from setupsheet.plan.bench import Bench, Removed, boss_squares, flat_box, metal_above, open_holes, top_over
from setupsheet.plan.cutting import milling
from setupsheet.plan.draft import Draft, step, tool_plan
from setupsheet.plan.milling import area, passes
from setupsheet.plan.milling.area import FAR_MM
from setupsheet.plan.milling.entries import Entry, entry_for
from setupsheet.plan.milling.milling import FLOOR_MM, LIFT_MM, AreaWork, feed_fields, heights_down
from setupsheet.plan.milling.mills import MillNeed, cuts_to_centre, pick_mill, pick_shaped, reaches_down
from setupsheet.plan.milling.passes import Pass
from setupsheet.plan.milling.round_openings import round_drafts
from setupsheet.plan.milling.shaped import Shaped, shaped_steps
from setupsheet.plan.milling.slanted_slot import slanted_step
from setupsheet.plan.record import Move, Step
from setupsheet.plane import Point2
from setupsheet.solid.volume import Prism
from setupsheet.solid.volumes import feature_volume
from setupsheet.tables import end_mills

Drafts = tuple[list[Draft], list[Finding]]

THROUGH_MM = 0.5
"""How far an opening is cut past the far side. Common practice, no source."""

SLOT_ROOM_MM = 0.5
"""How much narrower than a slot a cutter must be to run along both its walls. Common practice, no source."""


def pocket_drafts(bench: Bench, removed: Removed, feature: Pocket) -> Drafts:
    """Clear a pocket or window of any outline."""
    shape = bench.laid.shape(feature.shape)
    if isinstance(shape, SlotShape):
        return _slot_drafts(bench, removed, feature, shape)
    if isinstance(shape, CircleShape):
        size = feature.width
        middle = (size.lower_mm + size.upper_mm) / 2 if size else shape.diameter_mm
        return round_drafts(bench, removed, _opening(bench, removed, feature), shape, middle)
    most = 2 * shape.corner_radius_mm
    return _shaped(bench, _opening(bench, removed, feature), most)


def slot_drafts(bench: Bench, removed: Removed, feature: Slot) -> Drafts:
    """Cut a slot: along its own line with a cutter of its width, else with a smaller one along both walls."""
    shape = bench.laid.shape(feature.shape)
    assert isinstance(shape, SlotShape)
    return _slot_drafts(bench, removed, feature, shape)


def _slot_drafts(bench: Bench, removed: Removed, feature: Pocket | Slot, shape: SlotShape) -> Drafts:
    straight = min(abs(shape.start[0] - shape.end[0]), abs(shape.start[1] - shape.end[1])) < 1e-6
    opened = _opening(bench, removed, feature)
    depth = opened.z_top - opened.z_floor
    mills = [c for c in bench.shop.cutters if c.kind == "end mill" and reaches_down(c, depth)]
    exact = [c for c in mills if abs(c.diameter_mm - shape.width_mm) < 0.005]
    narrower = [c for c in mills if c.diameter_mm <= shape.width_mm - SLOT_ROOM_MM]
    if straight and (exact or (not narrower and end_mills.named(shape.width_mm))):
        return _slot(bench, removed, feature, opened, shape), []
    slot_drills = [c for c in exact if cuts_to_centre(c)]
    if not straight and slot_drills:
        made = slanted_step(bench, opened, shape, slot_drills[0])
        return [Draft(made, feature_volume(feature, bench.part), slot_drills[0])], []
    return _shaped(bench, opened, shape.width_mm - SLOT_ROOM_MM)


def _opening(bench: Bench, removed: Removed, feature: Pocket | Slot) -> AreaWork:
    """Return an opening as an area to mill: its outline at the floor, what must stand round it, its heights."""
    floor = _floor(bench, feature)
    prisms = [shape for shape in feature_volume(feature, bench.part) if isinstance(shape, Prism)]
    outline = area.union(area.carried(area.of_loop(p.outer), bench.laid.flat) for p in prisms)
    keep = area.without(area.rectangle((-FAR_MM, -FAR_MM), (FAR_MM, FAR_MM)), outline)
    keep = area.common(keep, flat_box(bench.envelope))
    keep = area.union([keep, area.common(boss_squares(bench, floor), outline)])
    target = area.common(area.without(outline, keep), area.grown(flat_box(bench.stock), passes.RUN_OUT_MM))
    top = top_over(bench, removed, area.common(target, flat_box(bench.stock)))
    has_floor = feature.floor is not None
    holes = open_holes(bench, removed, floor, top)
    return AreaWork("mill", feature.id, (feature.id,), target, keep, top, floor, floor_counts=has_floor, holes=holes)


def _shaped(bench: Bench, work: AreaWork, most_mm: float) -> Drafts:
    cutter = pick_shaped(bench, MillNeed(work.target, work.keep, work.z_top - work.z_floor, max(most_mm, 0.0)))
    steps = shaped_steps(bench, Shaped(work), cutter)
    feature = bench.part.feature(work.features[0])
    volume = feature_volume(feature, bench.part)
    drafts = [Draft(made, volume if i == 0 else (), cutter) for i, made in enumerate(steps)]
    return drafts, []


def _slot(bench: Bench, removed: Removed, feature: Pocket | Slot, opened: AreaWork, shape: SlotShape) -> list[Draft]:
    """Return the steps of a slot as wide as its cutter: in from outside, else down into the metal at its end."""
    start, end = _outside_first(bench, shape)
    path = tuple((bench.settle("x", x), bench.settle("y", y)) for x, y in (start, end))
    metal = metal_above(bench, removed, opened.z_floor)
    outside = area.distance(metal, path[0]) >= shape.width_mm / 2 - 1e-3
    cutter = _slot_mill(bench, shape.width_mm, opened, plunges=not outside)
    entry = Entry("outside", ()) if outside else entry_for(bench, opened, cutter, [Pass(path, False)])
    made = _slot_step(bench, opened, cutter, (Pass(path, outside, (start, end)), entry))
    drilled = [Draft(entry.drilling)] if entry.drilling else []
    return [*drilled, Draft(made, feature_volume(feature, bench.part), cutter)]


def _slot_mill(bench: Bench, width_mm: float, opened: AreaWork, *, plunges: bool) -> Cutter:
    """Return the cutter of a slot's width; where it has to plunge, one that cuts to its centre if there is any."""
    depth = opened.z_top - opened.z_floor
    exact = [c for c in bench.shop.cutters if c.kind == "end mill" and abs(c.diameter_mm - width_mm) < 0.005]
    slot_drills = sorted((c for c in exact if reaches_down(c, depth) and cuts_to_centre(c)), key=lambda c: c.label)
    if plunges and slot_drills:
        return slot_drills[0]
    return pick_mill(bench, MillNeed(opened.target, area.nothing(), depth, width_mm))


def _slot_step(bench: Bench, opened: AreaWork, cutter: Cutter, way: tuple[Pass, Entry]) -> Step:
    passed, entry = way
    cut = milling(bench, cutter, full_width=True, slot=True)
    finish = FLOOR_MM if opened.floor_counts else 0.0
    heights = [bench.settle("z", z) for z in heights_down(opened.z_top, opened.z_floor, cut.depth_mm, finish)]
    clear = bench.settle("z", opened.z_top) + LIFT_MM
    return step(
        "mill",
        opened.title,
        opened.features,
        method="table",
        removes=True,
        tool=tool_plan(cutter),
        direction="conventional",
        moves=tuple(Move(entry.kind, z, clear, passed.path, "table", "slot", passed.exact) for z in heights),
        z_shown=tuple(bench.shown("z", z) for z in heights),
        where=_slot_words(bench, passed.path),
        words=entry.words,
        **feed_fields(cut),
    )


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
    out = edge + sign * (shape.width_mm / 2 + passes.RUN_OUT_MM)
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
