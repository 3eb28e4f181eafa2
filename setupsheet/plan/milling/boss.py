"""A round boss: square limits first, then its corners by points, then the boring head with its edge inward.

The end mill leaves a square about the boss (milling.py). Here its four corners are nibbled to a ridged
round, and the boring head takes that to size: spindle backwards, sliding in makes the boss smaller.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from setupsheet.finding import Finding, caution
from setupsheet.length import fixed, plain
from setupsheet.part.feature import Level, RoundBoss
from setupsheet.part.shop import BoringHead, Cutter
from setupsheet.plan.bench import BOSS_ROUGH_MM, Bench, standing
from setupsheet.plan.cutting import boring, milling
from setupsheet.plan.draft import step, tool_plan, where_words
from setupsheet.plan.milling import area, points, rim_ways
from setupsheet.plan.milling.area import Region
from setupsheet.plan.milling.milling import feed_fields, heights_down
from setupsheet.plan.milling.mills import MillNeed, largest_first, pick_mill, reaches_down
from setupsheet.plan.record import Leftover, Ring, Step, ToolPlan
from setupsheet.plan.sizes import with_unit
from setupsheet.plane import Point2

FOOT_MM = 0.05
"""How far the boring head stays above the floor, so that it never rubs it. Common practice, no source."""

_CORNER_RIDGE_MM = 0.4
_CORNERS = (
    ("front left, feed right to X", -1, -1, 0),
    ("front right, feed away to Y", 1, -1, 1),
    ("back right, feed left to X", 1, 1, 0),
    ("back left, feed towards you to Y", -1, 1, 1),
)


@dataclass(frozen=True, slots=True)
class Round:
    """A circle that a feature leaves standing: its name in words, centre and radius in the setup plane."""

    feature: str
    name: str
    centre: Point2
    radius_mm: float
    skin_mm: float = 0.0
    """How much the square about it is larger all round."""


def corner_step(bench: Bench, boss: RoundBoss, cutter: Cutter, z_top: float, z_floor: float) -> Step:
    """Return the step that takes the corners off the square about a boss."""
    round_radius, radius = boss.diameter.nominal_mm / 2 + BOSS_ROUGH_MM, cutter.diameter_mm / 2
    count = _corner_count(round_radius, radius)
    cuts = _boss_corners(bench, boss, radius)
    ridge = round_radius + points.round_ridge(round_radius, radius, 90 / count)
    least, most = shown_diameter(bench, 2 * round_radius), shown_diameter(bench, 2 * ridge)
    return step(
        "mill",
        f"corners of {boss.id}",
        (boss.id,),
        where="table of points, from clear ground towards the boss, to the stop",
        words=(f"leaves Ø {least} with ridges to Ø {most}",),
        **_cut_fields(bench, cutter, cuts, z_top, z_floor),
    )


def round_step(bench: Bench, round_: Round, cutter: Cutter, z_top: float, z_floor: float) -> Step:
    """Return the step that takes the corners off a square about a circle that stands and is no boss: points, a file."""
    radius, edge = cutter.diameter_mm / 2, round_.radius_mm
    count = points.steps_for(edge, radius, 90, points.RIDGE_MM)
    cuts = _round_corners(bench, round_, radius)
    ridge = points.round_ridge(edge, radius, 90 / count)
    shown = bench.scales["x"].plain(math.ceil(ridge * 100) / 100).lstrip("+")
    return step(
        "mill",
        f"corners of {round_.name}",
        (round_.feature,),
        where="table of points, from clear ground towards the circle, to the stop",
        words=(f"ridges up to {shown} stay: file them off",),
        leftover=(Leftover("cusp", (round_.feature,), ridge + 0.005, f"ridges up to {shown}, for the file"),),
        **_cut_fields(bench, cutter, cuts, z_top, z_floor),
    )


def _round_corners(bench: Bench, round_: Round, radius: float) -> list[points.PointCut]:
    """Return the cuts that take the corners off the square about a circle, the places where it touches included."""
    count = points.steps_for(round_.radius_mm, radius, 90, points.RIDGE_MM)
    turns = [90 * i / count for i in range(count)]
    return _corner_cuts(bench, round_.centre, round_.radius_mm, radius, turns, round_.skin_mm)


def round_mill(bench: Bench, round_: Round, beside: Region, depth_mm: float) -> Cutter | None:
    """Return the largest end mill that goes round a circle without touching what stands beside it, if there is one."""
    for cutter in largest_first(bench):
        cuts = _round_corners(bench, round_, cutter.diameter_mm / 2) if reaches_down(cutter, depth_mm) else []
        if cuts and _stays_clear(cuts, cutter, beside):
            return cutter
    return None


def _stays_clear(cuts: list[points.PointCut], cutter: Cutter, beside: Region) -> bool:
    swept = rim_ways.swept([points.way_of(cut) for cut in cuts], cutter.diameter_mm / 2)
    return area.is_empty(area.common(swept, beside))


def _cut_fields(
    bench: Bench, cutter: Cutter, cuts: list[points.PointCut], z_top: float, z_floor: float
) -> dict[str, object]:
    """Return what a table of points round a circle is cut with, as fields of its step."""
    cut = milling(bench, cutter, full_width=False)
    heights = [bench.settle("z", z) for z in heights_down(z_top, z_floor, cut.depth_mm, 0.0)]
    return {
        "method": "table",
        "removes": True,
        "tool": tool_plan(cutter),
        "direction": "conventional",
        "moves": points.as_moves(cuts, heights, max(z_top, bench.envelope.high[2])),
        "points": points.as_pairs(bench, cuts),
        "z_shown": tuple(bench.shown("z", z) for z in heights),
        **feed_fields(cut),
    }


def filed_step(bench: Bench, boss: RoundBoss, cutter: Cutter, z_top: float, z_floor: float) -> Step:
    """Return the step that makes a boss by points alone, its ridges for a file, where no head can turn it."""
    size = (boss.diameter.lower_mm + boss.diameter.upper_mm) / 2
    round_ = Round(boss.id, boss.id, bench.laid.flat(boss.at), size / 2, BOSS_ROUGH_MM)
    made = round_step(bench, round_, cutter, z_top, z_floor)
    words = f"between the ridges it is Ø {shown_diameter(bench, size)}: file down to that, trying a ring or the mate"
    return replace(made, title=f"{boss.id} round by points", words=(*made.words, words))


def ring_step(bench: Bench, boss: RoundBoss, head: BoringHead, z_top: float, z_floor: float, first: float) -> Step:
    """Return the step that turns a boss to size; ``first`` is the radius of the highest ridge there."""
    centre, size = bench.laid.flat(boss.at), boss.diameter
    x, y = bench.settle("x", centre[0]), bench.settle("y", centre[1])
    low = bench.settle("z", z_floor + FOOT_MM)
    target = (size.lower_mm + size.upper_mm) / 2
    settings = head_settings(2 * first, target, head)
    cut = boring(bench, head, 2 * first)
    rings = tuple(
        Ring((x, y), d / 2, settings[0] / 2 + 0.05, z_top, low, "in", shown_diameter(bench, d)) for d in settings
    )
    return step(
        "bore",
        f"turn {boss.id} round",
        (boss.id,),
        method="boring_head",
        removes=True,
        tool=head_tool(head),
        direction="",
        rings=tuple(meant(ring, target, head) if ring.radius_inner * 2 == settings[-1] else ring for ring in rings),
        z_shown=(bench.shown("z", low),),
        where=where_words(bench, (x, y)),
        words=(*_warnings(head), *_settings_words(bench, head, settings)),
        leftover=(
            Leftover(
                "by_hand",
                (boss.id, *_floors_at(bench, z_floor)),
                FOOT_MM,
                f"a step of {with_unit(FOOT_MM, bench.part.unit)} stays round the foot of the boss; leave it",
            ),
        ),
        **feed_fields(cut),
    )


def _floors_at(bench: Bench, z_floor: float) -> list[str]:
    """Return the levels at a height: the step round a boss's foot has to stay within their limits, not the boss's."""
    levels = (f for f in bench.part.features if isinstance(f, Level) and f.face == bench.up)
    return [level.id for level in levels if abs(bench.z(level.height.nominal_mm) - z_floor) < FOOT_MM]


def head_settings(first_mm: float, target_mm: float, head: BoringHead) -> list[float]:
    """Return the diameters to set in turn, from above the ridges down to the size, the last one twice."""
    start = math.ceil(first_mm * 10 - 1e-6) / 10
    settings = [start]
    while settings[-1] - 0.6 > target_mm + 0.3:
        settings.append(settings[-1] - 0.6)
    settings += [target_mm + rest for rest in (0.3, 0.1) if settings[-1] - (target_mm + rest) > 0.05]
    division = division_mm(head)
    rounded = [round(round(d / division) * division, 6) for d in settings]
    final = round(round(target_mm / division) * division, 6)
    return [*dict.fromkeys(d for d in rounded if d > final), final, final]


def why_not(bench: Bench, boss: RoundBoss) -> list[Finding]:
    """Return what forbids turning the boss with the shop's boring head; nothing if it may be done."""
    head, machine = bench.shop.boring_head, bench.machine
    reasons = []
    if head is None:
        reasons.append("the shop file has no boring head")
    else:
        sweep = boss.diameter.nominal_mm / 2 + head.bar_mm
        if not machine.reverse:
            reasons.append(f"the spindle of {machine.name} has no reverse")
        if not head.shank_locked:
            reasons.append("its screwed shank is not locked and comes undone when the spindle runs backwards")
        if boss.diameter.nominal_mm > head.max_boss_mm:
            reasons.append(f"it turns bosses up to {plain(head.max_boss_mm, 1)} mm only")
        wall = area.distance(others(bench, boss), bench.laid.flat(boss.at))
        if wall < sweep + 1:
            reasons.append(f"its bar sweeps out to radius {plain(sweep, 1)} and a wall stands at {plain(wall, 1)}")
    return [
        caution(
            "boss-not-turned",
            f"{boss.id} cannot be turned with the boring head: {reason}",
            boss.place,
            feature=boss.id,
            because="the boss is made by points and a file instead, which holds about 0.2 mm",
            try_="use a rotary table or a lathe, or open the tolerance",
        )
        for reason in reasons
    ]


def others(bench: Bench, boss: RoundBoss) -> area.Region:
    """Return what stands higher than the foot of this boss, less the boss itself."""
    foot = foot_of(bench, boss)
    half = boss.diameter.nominal_mm / 2 + BOSS_ROUGH_MM + 1e-3
    x, y = bench.laid.flat(boss.at)
    return area.without(standing(bench, foot), area.rectangle((x - half, y - half), (x + half, y + half)))


def foot_of(bench: Bench, boss: RoundBoss) -> float:
    """Return the height of the finished floor round a boss, setup Z; the highest where there are several."""
    ring = _ring_round(bench, boss)
    for floor in _floors(bench):
        if area.is_empty(area.common(standing(bench, floor), ring)):
            return floor
    return bench.z(boss.top.nominal_mm)


def _ring_round(bench: Bench, boss: RoundBoss) -> area.Region:
    """Return a millimetre round the square about a boss."""
    x, y = bench.laid.flat(boss.at)
    half = boss.diameter.nominal_mm / 2 + BOSS_ROUGH_MM
    return area.without(
        area.rectangle((x - half - 1, y - half - 1), (x + half + 1, y + half + 1)),
        area.rectangle((x - half, y - half), (x + half, y + half)),
    )


def _floors(bench: Bench) -> list[float]:
    levels = (f for f in bench.part.features if isinstance(f, Level) and f.face == bench.up)
    return sorted(bench.z(level.height.nominal_mm) for level in levels)


def on_two_floors(bench: Bench, boss: RoundBoss, foot: float) -> list[Finding]:
    """Return a caution where part of the floor round a boss lies lower than its foot: it is made down to the foot only.

    Metal that stands below the foot for good turns this into an error (see ``make.prove``).
    """
    x0, y0 = bench.envelope.low[:2]
    x1, y1 = bench.envelope.high[:2]
    ring = area.common(_ring_round(bench, boss), area.rectangle((x0, y0), (x1, y1)))
    lower = [f for f in _floors(bench) if f < foot - 1e-6 and not area.is_empty(area.without(ring, standing(bench, f)))]
    if not lower:
        return []
    low, high = (bench.scales["z"].plain(z).lstrip("+") for z in (lower[0], foot))
    return [
        caution(
            "boss-on-two-floors",
            f"the floor round {boss.id} lies at Z {low} on one side and at Z {high} on another",
            boss.place,
            feature=boss.id,
            found=f"floors at Z {low} and Z {high} in setup {bench.number}",
            allowed="one floor right round a boss",
            because="its corners are taken off down to the higher floor only",
            try_="give the boss a level of its own all round, a little wider than the cutter, at the lower height",
        )
    ]


def ridge_radius(boss: RoundBoss, cutter: Cutter) -> float:
    """Return the radius of the highest ridge that the corner points leave."""
    base, radius = boss.diameter.nominal_mm / 2 + BOSS_ROUGH_MM, cutter.diameter_mm / 2
    return base + points.round_ridge(base, radius, 90 / _corner_count(base, radius))


def mill_for(bench: Bench, boss: RoundBoss, depth_mm: float) -> Cutter:
    """Return the largest end mill that goes round a boss without touching what stands beside it; else one to buy."""
    beside, asked = others(bench, boss), MillNeed(area.nothing(), area.nothing(), depth_mm)
    mills = [cutter for cutter in largest_first(bench) if reaches_down(cutter, depth_mm)]
    for cutter in mills:
        if _stays_clear(_boss_corners(bench, boss, cutter.diameter_mm / 2), cutter, beside):
            return cutter
    if not mills:
        return pick_mill(bench, asked)
    room = area.distance(beside, bench.laid.flat(boss.at)) - boss.diameter.nominal_mm / 2 - BOSS_ROUGH_MM
    return pick_mill(bench, replace(asked, diameter_mm=min(room, mills[-1].diameter_mm)))


def _boss_corners(bench: Bench, boss: RoundBoss, radius: float) -> list[points.PointCut]:
    """Return the cuts that take the corners off the square about a boss, ready for the boring head."""
    edge = boss.diameter.nominal_mm / 2 + BOSS_ROUGH_MM
    count = _corner_count(edge, radius)
    return _corner_cuts(bench, bench.laid.flat(boss.at), edge, radius, [90 * i / count for i in range(1, count)])


def _corner_count(edge_radius: float, radius: float) -> int:
    return points.steps_for(edge_radius, radius, 90, _CORNER_RIDGE_MM)


def _corner_cuts(
    bench: Bench, centre: Point2, edge_radius: float, radius: float, turns: list[float], skin: float = 0.0
) -> list[points.PointCut]:
    """Return the cuts at each corner; ``turns`` are degrees from where the square touches the circle.

    ``skin`` is by how much the square is larger than the circle all round.
    """
    path = edge_radius + radius
    cuts = []
    for group, side_x, side_y, feed in _CORNERS:
        for turn in map(math.radians, turns):
            short, long = path * math.sin(turn), path * math.cos(turn)
            dx, dy = (short, long) if feed == 0 else (long, short)
            stop = (centre[0] + side_x * dx, centre[1] + side_y * dy)
            stop = stop if turn else _never_nearer(bench, stop, centre, 1 - feed)
            start = centre[feed] + (side_x if feed == 0 else side_y) * (path + 2 * skin)
            side = side_x if feed == 0 else side_y
            edge = points.on_circle(centre, path, feed, side) if turn else points.right_to(centre[feed])
            cuts.append(points.settle(bench, points.PointCut(stop, feed, start, group), edge))
    return cuts


def _never_nearer(bench: Bench, at: Point2, centre: Point2, step: int) -> Point2:
    """Return the place where the square touches the circle, rounded away from it along the axis that is stepped."""
    away = bench.scales["xy"[step]].settle_away(at[step], centre[step])
    return (away, at[1]) if step == 0 else (at[0], away)


def shown_diameter(bench: Bench, diameter_mm: float) -> str:
    """Return a diameter as the head's settings print it, in the unit of the readout."""
    unit = 1.0 if bench.scales["x"].axis.unit == "mm" else 25.4
    return fixed(diameter_mm / unit, 2 if unit == 1.0 else 3)


def _settings_words(bench: Bench, head: BoringHead, settings: list[float]) -> tuple[str, ...]:
    texts = [shown_diameter(bench, d) for d in settings[:-1]]
    dial = "the dial reads diameter" if head.dial_reads == "diameter" else "the dial reads radius: move half of it"
    return (f"set Ø {', '.join(texts)}, the last one twice; {dial}; sliding IN makes the boss smaller",)


def _warnings(head: BoringHead) -> tuple[str, ...]:
    return (
        "edge facing INWARD, spindle BACKWARDS",
        f"not over {head.max_rpm} rpm: the head is out of balance",
        "before power: lower it to the depth and turn the spindle one full turn by hand",
        "touch the ridges with the edge, spindle turned by hand: that is the head's first reading; after the first "
        "full ring measure, and correct the settings by the difference",
    )


def meant(ring: Ring, diameter_mm: float, head: BoringHead) -> Ring:
    """Return a ring with the diameter that it should make, which the head's dial cannot be set to exactly."""
    return replace(ring, exact_mm=diameter_mm, division_mm=division_mm(head))


def division_mm(head: BoringHead) -> float:
    """Return what a division of a head's dial moves, on the diameter."""
    return head.division_mm * (1 if head.dial_reads == "diameter" else 2)


def head_tool(head: BoringHead) -> ToolPlan:
    """Return a boring head as the cutter of a step: its bar, which must find room."""
    profile = ((0.0, 0.0), (head.bar_mm / 2, 0.0), (head.bar_mm / 2, head.reach_mm))
    return ToolPlan(
        "boring head", head.label, True, head.bar_mm, 180.0, 0.0, head.reach_mm, head.bar_mm, head.reach_mm, profile
    )
