"""Round walls about a rotary table's axis: the cutter stands still at a radius and the table turns the work.

All walls here have the table's axis as their centre, which is X 0 Y 0. The spindle stands on X, Y locked at 0: its
reading of X is the radius of the cutter's centre. The work is turned against the cutter: round what stands inside the
table goes clockwise, seen from above, along a wall outside the cutter anticlockwise.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Any

from setupsheet.length import fixed
from setupsheet.part.shop import Cutter, RotaryTable
from setupsheet.plan import angles
from setupsheet.plan.bench import Bench
from setupsheet.plan.cutting import FASTEST_TURN_S, Cut, milling
from setupsheet.plan.draft import step, tool_plan
from setupsheet.plan.milling import area
from setupsheet.plan.milling.area import Region
from setupsheet.plan.milling.entries import Entry, entry_for
from setupsheet.plan.milling.milling import LIFT_MM, WALL_MM, AreaWork, feed_fields, pass_heights
from setupsheet.plan.milling.passes import Pass
from setupsheet.plan.record import ArcMove, Step
from setupsheet.plane import Point2, polar

AXIS: Point2 = (0.0, 0.0)
"""Where a rotary table's axis lies in the setup plane."""

CLEAR_MM = 0.5
"""How far from metal a cutter goes down. Common practice, no source."""

_NEAR_MM = 1e-4
_WHOLE = angles.WHOLE_DEG


@dataclass(frozen=True, slots=True)
class Wall:
    """A round wall that stands inside the cutter's way, from an angle over a sweep (degrees, anticlockwise)."""

    radius_mm: float
    from_deg: float = 0.0
    sweep_deg: float = _WHOLE


def is_on_axis(bench: Bench, centre: Point2) -> bool:
    """Tell whether a round of this centre (setup plane) can be cut by turning the table."""
    return bench.rotary is not None and math.dist(centre, AXIS) < _NEAR_MM


def outside_step(bench: Bench, work: AreaWork, wall: Wall, cutter: Cutter, metal: Region) -> Step:
    """Return the step that mills ``work.target`` away from round a wall; ``metal`` is all that is there now."""
    table = _table(bench)
    radius = cutter.diameter_mm / 2
    cut = milling(bench, cutter, full_width=True)
    heights = [bench.settle("z", z) for z in pass_heights(work, cut.depth_mm)]
    true = (wall.from_deg, wall.from_deg + wall.sweep_deg)
    ends = angles.within(table, *true)
    last = bench.scales["x"].settle_away(wall.radius_mm + radius, 0.0)
    radii = _inwards(bench, last, area.farthest(work.target, AXIS) + radius, cut.width_mm)
    run_in = _clear_start(bench, metal, radii[0], ends[0], radius)
    arcs: list[ArcMove] = []
    for path in radii:
        arcs += [_arc(bench, work, (path, z, run_in), ends, "rough", (path, *true)) for z in heights]
        run_in = path
    arcs.append(_arc(bench, work, (last, heights[-1], run_in), ends, "last", (wall.radius_mm + radius, *true)))
    whole = wall.sweep_deg >= _WHOLE - 1e-9
    after = "a little past the whole turn" if whole else f"X back off before it goes back to {arcs[0].shown['from']}"
    words = (
        f"down clear of the work, feed X in to its reading, lock it, turn the table{_handwheel(table, ends)}; {after}",
        "all passes down at one X before the next; the last X at full depth only",
    )
    return _step(bench, work, cutter, replace(cut, feed_shown=_feed(table, cut, wall.radius_mm)), arcs, words)


def inside_steps(bench: Bench, work: AreaWork, wall_mm: float, cutter: Cutter, metal: Region) -> list[Step]:
    """Return the steps that clear a round opening of radius ``wall_mm``, from its middle outwards."""
    table = _table(bench)
    radius = cutter.diameter_mm / 2
    cut = milling(bench, cutter, full_width=True)
    heights = [bench.settle("z", z) for z in pass_heights(work, cut.depth_mm)]
    last = bench.scales["x"].settle_away(wall_mm - radius, wall_mm)
    entry = _entry(bench, work, cutter, metal)
    wound = entry.kind == "ramp"
    width = min(cut.width_mm, radius) if wound else cut.width_mm  # no core may stay in the middle
    radii = _outwards(bench, max(last - WALL_MM, 0.0), width)
    ends = (_WHOLE, 0.0)
    arcs: list[ArcMove] = []
    for z in heights:
        run_in = radii[0] if wound else 0.0
        for path in radii:
            made = _arc(bench, work, (path, z, run_in), ends, "rough")
            arcs.append(replace(made, entry=entry.kind) if path == radii[0] else made)
            run_in = path
    arcs.append(_arc(bench, work, (last, heights[-1], run_in), ends, "last", (wall_mm - radius, *ends)))
    first = bench.shown("x", radii[0] if wound else 0.0)
    words = (
        *entry.words,
        f"at each depth from X {first} out to each reading in turn, X locked: a whole turn of the table"
        f"{_handwheel(table, ends)} at each; the last X at full depth only",
    )
    done = _step(bench, work, cutter, replace(cut, feed_shown=_feed(table, cut, wall_mm)), arcs, words)
    return [entry.drilling, done] if entry.drilling else [done]


def groove_step(bench: Bench, work: AreaWork, walls: tuple[float, float], cutter: Cutter) -> Step:
    """Return the step that cuts a ring between two radii: out of the solid first, then each wall at full depth."""
    table = _table(bench)
    radius = cutter.diameter_mm / 2
    cut = milling(bench, cutter, full_width=True)
    heights = [bench.settle("z", z) for z in pass_heights(work, cut.depth_mm)]
    inner = bench.scales["x"].settle_away(walls[0] + radius, 0.0)
    outer = max(bench.scales["x"].settle_away(walls[1] - radius, walls[1]), inner)
    radii = _between(bench, inner, outer, cut.width_mm)
    entry = _ring_entry(cutter)
    arcs: list[ArcMove] = []
    for z in heights:
        run_in = radii[0]
        for path in radii:
            made = _arc(bench, work, (path, z, run_in), (0.0, _WHOLE), "rough")
            arcs.append(replace(made, entry=entry.kind) if path == radii[0] else made)
            run_in = path
    if outer > inner:
        true = ((walls[1] - radius, _WHOLE, 0.0), (walls[0] + radius, 0.0, _WHOLE))
        arcs.append(_arc(bench, work, (outer, heights[-1], run_in), true[0][1:], "last", true[0]))
        arcs.append(_arc(bench, work, (inner, heights[-1], outer), true[1][1:], "last", true[1]))
    words = (*entry.words, f"X locked, a whole turn of the table at each reading{_handwheel(table, (0.0, _WHOLE))}")
    if outer > inner:
        words = (*words, "the middle down to full depth first, then the outside wall, then the inside wall")
    return _step(bench, work, cutter, replace(cut, feed_shown=_feed(table, cut, walls[1])), arcs, words)


def _table(bench: Bench) -> RotaryTable:
    assert bench.rotary is not None
    return bench.rotary


def _inwards(bench: Bench, last: float, farthest: float, width: float) -> list[float]:
    """Return the rough radii, largest first; ``farthest``: of a cutter that just touches the metal.

    Each takes no more than ``width``; the last one leaves the allowance.
    """
    rough = bench.settle("x", last + WALL_MM)
    count = max(1, math.ceil((farthest - rough) / width - 1e-9))
    return [bench.settle("x", rough + width * i) for i in reversed(range(count))]


def _outwards(bench: Bench, rough: float, width: float) -> list[float]:
    """Return the rough radii of an opening from its middle: each takes no more than ``width``."""
    count = max(1, math.ceil(rough / width - 1e-9))
    step_mm = bench.scales["x"].step_mm
    return [math.floor(rough * (i + 1) / count / step_mm + 1e-6) * step_mm for i in range(count)]


def _between(bench: Bench, inner: float, outer: float, width: float) -> list[float]:
    """Return the rough radii of a ring from the inside out; one in the middle where there is room for no more."""
    room = outer - inner - 2 * WALL_MM
    if room <= 0:
        return [bench.settle("x", (inner + outer) / 2)]
    count = max(1, math.ceil(room / width - 1e-9))
    return [bench.settle("x", inner + WALL_MM + room * i / count) for i in range(count + 1)]


def _clear_start(bench: Bench, metal: Region, path: float, angle: float, radius: float) -> float:
    """Return the radius at which a cutter goes down clear of metal before it is fed in to its first circle."""
    start = path
    most = area.farthest(metal, AXIS) + radius + CLEAR_MM
    while start < most and area.distance(metal, polar(AXIS, start, angle)) < radius + CLEAR_MM:
        start += CLEAR_MM
    return bench.settle("x", start)


def _entry(bench: Bench, work: AreaWork, cutter: Cutter, metal: Region) -> Entry:
    """Return how the cutter gets down in the middle of an opening."""
    radius = cutter.diameter_mm / 2
    if area.distance(metal, AXIS) >= radius - 1e-6:
        return Entry("outside", ("lower it in the hole that is there",))
    entry = entry_for(bench, work, cutter, [Pass((AXIS, (radius, 0.0)), outside=False)])
    return _wound_down(cutter) if entry.kind == "ramp" else entry


def _ring_entry(cutter: Cutter) -> Entry:
    from_top = "lower it slowly, X locked, and lift to clear the chips"
    return _wound_down(cutter) if cutter.flutes > 3 else Entry("plunge", (from_top,))


def _wound_down(cutter: Cutter) -> Entry:
    words = (
        f"its {cutter.flutes} flutes do not cut to the centre: wind it down a little at a time while the table turns"
    )
    return Entry("ramp", (words,))


def _arc(
    bench: Bench,
    work: AreaWork,
    at: tuple[float, float, float],
    ends: tuple[float, float],
    why: str,
    exact: tuple[float, float, float] | None = None,
) -> ArcMove:
    """Return one arc; ``at``: the radius of its path, its height, the radius at which it goes down.

    ``exact``: its radius and ends before they were rounded.
    """
    table, (path, z, run_in) = _table(bench), at
    shown = {
        "radius": bench.shown("x", path),
        "from": angles.shown(table, ends[0]),
        "to": angles.shown(table, ends[1]),
        "turn": "clockwise" if ends[1] > ends[0] else "anticlockwise",
    }
    clear = bench.settle("z", work.z_top) + LIFT_MM
    return ArcMove(AXIS, path, ends[0], ends[1], z, run_in, clear, "outside", why, shown, exact)


def _handwheel(table: RotaryTable, ends: tuple[float, float]) -> str:
    """Return what an arc is in turns of the table's handwheel, in brackets."""
    said = angles.turns_text(table, abs(ends[1] - ends[0]))
    return f" ({said} of its handwheel)" if said else ""


def _feed(table: RotaryTable, cut: Cut, wall_mm: float) -> str:
    """Return the feed as seconds for a turn of the table's handwheel, or minutes for a turn of the table."""
    whole_s = 60 * math.tau * wall_mm / cut.feed_mm_per_min if cut.feed_mm_per_min > 0 else 0.0
    if not table.turns:
        return f"a whole turn of the table in {fixed(max(whole_s / 60, 0.5), 1)} min"
    return f"{fixed(max(whole_s / table.turns, FASTEST_TURN_S), 1)} s a turn of the table's handwheel"


def _step(bench: Bench, work: AreaWork, cutter: Cutter, cut: Cut, arcs: list[ArcMove], words: tuple[str, ...]) -> Step:
    heights = list(dict.fromkeys(arc.z for arc in arcs))
    fields: dict[str, Any] = {**feed_fields(cut), "feed_s_per_turn": 0.0}
    return step(
        work.operation,
        work.title,
        work.features,
        method="rotary_table",
        removes=True,
        tool=tool_plan(cutter),
        direction="conventional",
        arcs=tuple(arcs),
        z_shown=tuple(bench.shown("z", z) for z in heights),
        where=f"Y {bench.shown('y', 0.0)}, locked",
        words=(*work.words, *words),
        **fields,
    )
