"""What of a part is milled by turning a rotary table: ends, corners, bosses, circles that stand, openings, grooves.

Each maker looks whether its round stands about the table's axis and whether there is room to turn; where not, it
returns nothing and the work is done in the ways of a fixed table.
"""

from __future__ import annotations

import math

from setupsheet.finding import Finding, caution
from setupsheet.part.feature import CornerRadius, RoundBoss, RoundedEnd
from setupsheet.part.shape import CircleShape
from setupsheet.part.shop import Cutter
from setupsheet.plan.bench import BOSS_ROUGH_MM, Bench, Removed, flat_box, metal_above, top_over
from setupsheet.plan.draft import Draft
from setupsheet.plan.milling import area, boss, turned
from setupsheet.plan.milling.area import Region
from setupsheet.plan.milling.milling import WALL_MM, AreaWork
from setupsheet.plan.milling.mills import MillNeed, pick_mill, reaches_down
from setupsheet.plan.milling.sides import cut_above, cut_floor, lowest_needed
from setupsheet.plan.record import Step
from setupsheet.plane import Point2
from setupsheet.solid.volume import Prism
from setupsheet.solid.volumes import feature_volume

Drafts = tuple[list[Draft], list[Finding]]

ROOM_MM = 1.0
"""How far from a wall that stands beside it a cutter is turned round a boss. Common practice, no source."""

GROOVE_ROOM_MM = 0.2
"""How much narrower than a groove a cutter is that makes each wall by itself. Common practice, no source."""

_SAWN = "saw the corners off first if there is much to go"
_SAME_MM = 0.005


def edge_drafts(
    bench: Bench,
    removed: Removed,
    feature: CornerRadius | RoundedEnd,
    beside: tuple[list[Point2], list[Point2]],
    wall: turned.Wall,
) -> Drafts:
    """Round a corner or an end; ``beside`` are points a hair inside and outside of its finished edge."""
    need = lowest_needed(bench, removed, *beside)
    if need is None:
        return [], []
    floor, findings = cut_floor(bench, need, (0.0, 0.0), feature.id)
    metal = metal_above(bench, removed, floor)
    prisms = [shape for shape in feature_volume(feature, bench.part) if isinstance(shape, Prism)]
    volume = area.union(area.carried(area.of_loop(p.outer, p.islands), bench.laid.flat) for p in prisms)
    target = area.common(volume, metal)
    if area.is_empty(target):
        return [], findings
    top = top_over(bench, removed, area.common(metal, flat_box(bench.envelope)))
    nothing = area.nothing()
    cutter = pick_mill(bench, MillNeed(nothing, nothing, top - floor))
    work = AreaWork("mill", feature.id, (feature.id,), target, nothing, top, floor, (_SAWN,), floor_counts=False)
    made = turned.outside_step(bench, work, wall, cutter, metal)
    takes = cut_above(bench, feature_volume(feature, bench.part), floor)
    return [Draft(made, takes, cutter)], findings


def off_axis(bench: Bench, feature: CornerRadius | RoundedEnd) -> list[Finding]:
    """Return a caution for a round that the table that holds the part cannot turn, since its centre is elsewhere."""
    if bench.rotary is None or bench.asked.hold is None:
        return []
    away = math.dist(bench.laid.flat(feature.centre), turned.AXIS)
    size = bench.scales["x"].plain(away).lstrip("+")
    return [
        caution(
            "centre-off-table-axis",
            f"the centre of {feature.id} lies {size} beside the axis of {bench.rotary.name}: it is cut by points",
            feature.place,
            feature=feature.id,
            found=size,
            allowed=f"its centre over the table's middle, as {bench.asked.hold.centred}",
            because="the table turns the work about its own axis only; points leave ridges for a file",
            try_=f"give {feature.id} a setup with its own centre under centred:",
        )
    ]


def boss_step(bench: Bench, feature: RoundBoss, top: float, foot: float) -> Draft | None:
    """Return the step that turns a boss to size; None where it stands elsewhere or there is no room round it."""
    size = (feature.diameter.lower_mm + feature.diameter.upper_mm) / 4
    centre, half = bench.laid.flat(feature.at), feature.diameter.nominal_mm / 2 + BOSS_ROUGH_MM
    round_ = boss.Round(feature.id, feature.id, centre, size, half - size)
    return _round(bench, round_, boss.others(bench, feature), (top, foot))


def leave_step(bench: Bench, round_: boss.Round, rest: AreaWork) -> Draft | None:
    """Return the step that turns a circle that a level leaves; None where it has to be cut by points."""
    square = area.grown(_square(round_), 0.1)
    return _round(bench, round_, area.without(rest.keep, square), (rest.z_top, rest.z_floor))


def _round(bench: Bench, round_: boss.Round, others: Region, heights: tuple[float, float]) -> Draft | None:
    """Return the step that takes a square off a round with the largest cutter that has room beside ``others``."""
    if not turned.is_on_axis(bench, round_.centre):
        return None
    top, foot = heights
    square = _square(round_)
    circle = area.of_shape(CircleShape(round_.centre, 2 * round_.radius_mm))
    target = area.without(square, circle)
    title = f"{round_.name} round"
    work = AreaWork("mill", title, (round_.feature,), target, area.nothing(), top, foot)
    room = area.distance(others, turned.AXIS) - ROOM_MM if not area.is_empty(others) else math.inf
    for cutter in _mills(bench, top - foot):
        made = turned.outside_step(bench, work, turned.Wall(round_.radius_mm), cutter, area.union([square, others]))
        if _reach(made) + cutter.diameter_mm / 2 <= room:
            return Draft(made, (), cutter)
    return None


def _square(round_: boss.Round) -> Region:
    (x, y), half = round_.centre, round_.radius_mm + round_.skin_mm
    return area.rectangle((x - half, y - half), (x + half, y + half))


def _reach(made: Step) -> float:
    """Return how far from the axis a cutter's centre comes."""
    return max(max(arc.radius, arc.run_in) for arc in made.arcs)


def _mills(bench: Bench, depth_mm: float) -> list[Cutter]:
    """Return the shop's end mills that reach down, largest first."""
    mills = [c for c in bench.shop.cutters if c.kind == "end mill" and reaches_down(c, depth_mm)]
    return sorted(mills, key=lambda c: (-c.diameter_mm, c.label))


def opening_drafts(bench: Bench, removed: Removed, work: AreaWork, circle: CircleShape, size_mm: float) -> list[Draft]:
    """Return the steps of a round pocket or window; none where the table cannot turn it."""
    if not turned.is_on_axis(bench, circle.centre):
        return []
    least = 2 * WALL_MM
    mills = [c for c in _mills(bench, work.z_top - work.z_floor) if c.diameter_mm <= size_mm - least]
    if not mills:
        return []
    metal = metal_above(bench, removed, work.z_floor)
    steps = turned.inside_steps(bench, work, size_mm / 2, mills[0], metal)
    volume = feature_volume(bench.part.feature(work.features[0]), bench.part)
    return [Draft(made, volume if i == 0 else (), mills[0]) for i, made in enumerate(steps)]


def groove_draft(bench: Bench, work: AreaWork, centre: Point2, walls: tuple[float, float]) -> Draft | None:
    """Return the step of a ring groove between two radii; None where the table cannot turn it."""
    width = walls[1] - walls[0]
    mills = _mills(bench, work.z_top - work.z_floor)
    fit = [c for c in mills if c.diameter_mm <= width - GROOVE_ROOM_MM or abs(c.diameter_mm - width) < _SAME_MM]
    if not turned.is_on_axis(bench, centre) or not fit:
        return None
    made = turned.groove_step(bench, work, walls, fit[0])
    return Draft(made, feature_volume(bench.part.feature(work.features[0]), bench.part), fit[0])
