"""One setup from start to end: hold, zero, steps, what to check first, all as the setup's record."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Any

from setupsheet.finding import Finding, error
from setupsheet.part.face import Face
from setupsheet.part.feature import BoltCircle, Hole, Level, Spot
from setupsheet.part.part import Part, SetupAsked
from setupsheet.part.shop import Axis, Machine, Shop
from setupsheet.plan import cautions
from setupsheet.plan.bench import Bench, Removed, metal_at
from setupsheet.plan.checks.case import Clamped
from setupsheet.plan.draft import Draft
from setupsheet.plan.holes.holes import HolePlan, hole_drafts
from setupsheet.plan.holes.rings import ring_functions
from setupsheet.plan.holes.table_angles import table_angles
from setupsheet.plan.jobs import Job
from setupsheet.plan.milling import work
from setupsheet.plan.record import Hold, Readout, RingFunction, Setup, Step, TableAngles, Witness
from setupsheet.plan.scribe import scribe_drafts
from setupsheet.plan.scribed import LINES, is_scribed, scribed_zeros
from setupsheet.plan.setup.approach import side_words, sides_of, with_approach
from setupsheet.plan.setup.clamps import with_clamps
from setupsheet.plan.setup.hold import Grip, ends_out, grip, hold_plan
from setupsheet.plan.setup.marks import MarkFaces, corner_mark, edge_marks, mark_faces
from setupsheet.plan.setup.parallels import Round
from setupsheet.plan.setup.quill import with_head
from setupsheet.plan.setup.rotary_hold import no_table, rotary_hold
from setupsheet.plan.setup.rotary_zero import rotary_of
from setupsheet.plan.setup.sequence import in_sequence, last_step, square_to
from setupsheet.plan.setup.witness import PIN_LESS_MM
from setupsheet.plan.setup.zero import find_zero, laid_for
from setupsheet.plan.shown import Scale, offset_for
from setupsheet.plan.tilt.turns import turn_between
from setupsheet.plane import Point2
from setupsheet.solid import frame
from setupsheet.solid.laid import Laid

_ALONG_MM = 2.0
"""How close together the places along a cutter's way are that are looked at from below."""

_REACH_MM = 40.0
"""How far the cutter's centre leaves the stock at most; the readings of dials must stay positive there."""


@dataclass(frozen=True, slots=True)
class Order:
    """What one setup is to do: its place in the row, its jobs, the plans of all holes, the metal gone so far."""

    index: int
    asked: SetupAsked
    before: SetupAsked | None
    jobs: list[Job]
    holes: dict[str, HolePlan]
    removed: Removed
    finished: Removed
    opened: frozenset[str]
    witness: tuple[Hole, Spot] | None
    marked: MarkFaces | None
    """The corner that the first setup marks; None in the first setup."""


@dataclass(frozen=True, slots=True)
class Done:
    """A planned setup (its volumes still 0) and the metal that is gone after it."""

    clamped: Clamped
    removed: Removed
    findings: tuple[Finding, ...]


def plan_setup(part: Part, shop: Shop, order: Order) -> Done:
    """Plan one setup."""
    laid, findings = laid_for(part, order.asked)
    held, faults = grip(part, shop, laid, order.asked, order.removed)
    findings += faults
    bench = _bench(part, shop, order, laid, held)
    zeros, faults = find_zero(bench, order.removed, shop.edge_finder_mm)
    bench = replace(bench, approach=sides_of(zeros))
    drafts, more = _drafts(bench, order)
    findings += [*faults, *more]
    numbered = in_sequence(bench, order.removed, [*drafts, last_step(bench, drafts, square_to(bench, held))])
    steps, head = with_head(bench, with_approach(bench, numbered))
    witness, faults = _witness(bench, order)
    hold, more = _hold(bench, held, drafts, (order.removed, steps))
    findings += [*faults, *more]
    mark = corner_mark(bench, held, order.marked or mark_faces(laid))
    setup = Setup(
        number=order.index + 1,
        name=order.asked.name,
        machine=bench.machine.name,
        up=bench.up.value,
        turn=turn_between(part, order.before, order.asked, held.vise.fixed if held.vise else "none"),
        witness=witness,
        mark=mark.words,
        hold=hold,
        zero=scribed_zeros(bench, zeros),
        volume_before_mm3=0.0,
        volume_after_mm3=0.0,
        before_cutting=(*_before_cutting(bench, order, held), *head),
        steps=steps,
        **_circles(bench, steps),
        cautions=cautions.for_steps(steps, overhang=bool(ends_out(held, order.asked)), clamped=hold.in_ != "vise"),
        edges=edge_marks(bench, held),
        mark_at=mark.at,
        mark_label=mark.label,
        **_frame_fields(bench, held),
    )
    takes = tuple(draft.takes for draft in drafts)
    removed = (*order.removed, *(shape for volume in takes for shape in volume))
    return Done(Clamped(setup, order.asked, bench.machine, laid, order.removed, takes), removed, tuple(findings))


def _frame_fields(bench: Bench, held: Grip) -> dict[str, Any]:
    """Return how the part lies and how the machine counts, as fields of the setup."""
    laid = bench.laid
    matrix = frame.part_to_setup(laid.up, laid.back, laid.zero)
    return {
        "fixed_jaw": (laid.back if held.vise is None or held.vise.fixed == "back" else laid.back.opposite).value,
        "sums": (*frame.sums(matrix, bench.part.unit.value, _drawing_words(bench.part)), *dial_sums(bench)),
        "part_to_setup": matrix,
        "counts": _counts(bench),
        "readout": {name: _readout(scale, _angle_step(bench, name)) for name, scale in bench.scales.items()},
    }


def machine_for(shop: Shop, asked: SetupAsked) -> Machine:
    """Return the machine that a setup names, else the first one."""
    return next((m for m in shop.machines if m.name == asked.machine), shop.machines[0])


def _bench(part: Part, shop: Shop, order: Order, laid: Laid, held: Grip) -> Bench:
    machine = machine_for(shop, order.asked)
    stock = laid.box(part.stock.box)
    scales = {
        name: _scale(machine.axes[name], stock.low[i] - _REACH_MM, stock.high[i] + _REACH_MM)
        for i, name in enumerate("xyz")
    }
    jaw_top = held.jaw_top if held.vise else stock.low[2] - 1e6
    return Bench(
        part,
        shop,
        machine,
        held.vise,
        laid,
        order.asked,
        scales,
        order.index + 1,
        jaw_top,
        held.jaws_x,
        order.finished,
        order.opened,
        rotary_of(shop, order.asked),
    )


def _scale(axis: Axis, low_mm: float, high_mm: float) -> Scale:
    return Scale(axis, offset_for(axis, low_mm, high_mm))


def _counts(bench: Bench) -> dict[str, int]:
    """Return which way each axis counts, and the rotary table (``angle``) where one holds the part."""
    counts = {name: bench.scales[name].axis.counts for name in "xyz"}
    return counts if bench.rotary is None else {**counts, "angle": bench.rotary.counts}


def _angle_step(bench: Bench, axis: str) -> float:
    """Return the angle step that an axis' readings have to do with: X and Y of what turns on a rotary table."""
    return bench.rotary.step_deg if bench.rotary is not None and axis != "z" else 0.0


def _readout(scale: Scale, angle_step_deg: float) -> Readout:
    axis = scale.axis
    step = axis.step_mm if axis.kind == "readout" else 0.0
    division = axis.step_mm if axis.kind == "dial" else 0.0
    return Readout(axis.kind, step, axis.per_turn_mm, division, axis.unit, angle_step_deg, scale.offset_mm)


def _drafts(bench: Bench, order: Order) -> tuple[list[Draft], list[Finding]]:
    """Make the steps of every job in turn, each seeing the metal that the earlier ones left."""
    drafts: list[Draft] = []
    findings: list[Finding] = []
    features = [bench.part.feature(job.ids[0]) for job in order.jobs if job.kind == "feature"]
    level = next((feature for feature in features if isinstance(feature, Level)), None)
    makers: dict[str, Callable[[Removed, Job], work.Drafts]] = {
        "face": lambda now, _: work.face_drafts(bench, now),
        "outline": lambda now, job: work.outline_drafts(bench, now, job.sides),
        "holes": lambda now, job: hole_drafts(bench, now, order.index, [order.holes[id_] for id_ in job.ids]),
        "feature": lambda now, job: work.feature_drafts(bench, now, bench.part.feature(job.ids[0])),
    }
    for job in order.jobs:
        now = (*order.removed, *(shape for draft in drafts for shape in draft.takes))
        if level is not None and level.id in job.ids:
            drafts += scribe_drafts(bench, now, features)
        made, faults = makers[job.kind](now, job)
        drafts += made
        findings += faults
    return drafts, findings


def _top_after(bench: Bench, drafts: list[Draft], top_now: float) -> float:
    faced = any(draft.step.operation == "face" for draft in drafts)
    return bench.envelope.high[2] if faced else top_now


def _with_jaw_top(bench: Bench, hold: Hold) -> Hold:
    """Add the reading at the top of the jaws: below it only drills may go."""
    if hold.in_ != "vise":
        return hold
    reading = bench.shown("z", bench.settle("z", hold.jaw_top_z))
    return replace(hold, shown={**hold.shown, "jaw_top": f"Z {reading}"})


def dial_sums(bench: Bench) -> tuple[str, ...]:
    """Return how dials show a place: what one turn is, and what they read at zero."""
    dials = {name: scale for name, scale in bench.scales.items() if scale.axis.kind == "dial"}
    if not dials:
        return ()
    turn = next(iter(dials.values()))
    zeros = ", ".join(f"{name.upper()} {scale.text(0.0)}" for name, scale in dials.items())
    one = turn.plain(turn.axis.per_turn_mm).lstrip("+")
    return (f"dials: turns + rest, one turn is {one}; zero reads {zeros}",)


def _hold(
    bench: Bench, held: Grip, drafts: list[Draft], work_: tuple[Removed, tuple[Step, ...]]
) -> tuple[Hold, list[Finding]]:
    """Return the hold; ``work_``: the metal that is gone before, and the steps."""
    removed, steps = work_
    if bench.rotary is not None:
        return rotary_hold(bench, bench.rotary, held, removed, steps)
    top = _top_after(bench, drafts, held.box.high[2])
    hold = hold_plan(bench.part, held, bench.asked, top, _coming_out(bench, steps))
    if hold.in_ == "clamps":
        hold = with_clamps(bench, removed, held, hold, steps)
    return _with_jaw_top(bench, hold), no_table(bench.shop, bench.asked)


def _coming_out(bench: Bench, steps: tuple[Step, ...]) -> tuple[Round, ...]:
    """Return where cutters come out below the part in this setup."""
    bottom = bench.stock.low[2] if bench.up.opposite in bench.part.stock.as_bought else bench.envelope.low[2]
    found: dict[Round, None] = {}
    for step in steps:
        if step.tool is None:
            continue
        radius = step.tool.diameter_mm / 2
        by_hand = step.method in ("quill", "by_hand")  # a tap goes down by hand
        found |= {(at.x, at.y, radius): None for at in step.positions if by_hand and at.z_to < bottom}
        found |= {(*at, radius): None for move in step.moves if move.z < bottom for at in _along(move.path)}
    return tuple(found)


def _along(path: tuple[Point2, ...]) -> Iterator[Point2]:
    """Yield places along a way, close enough that no parallel hides between them."""
    yield path[0]
    for (ax, ay), (bx, by) in pairwise(path):
        count = max(1, math.ceil(math.dist((ax, ay), (bx, by)) / _ALONG_MM))
        yield from ((ax + (bx - ax) * i / count, ay + (by - ay) * i / count) for i in range(1, count + 1))


def _drawing_words(part: Part) -> tuple[str, str, str]:
    letter = next((d.letter for d in part.datums if d.face is Face.BOTTOM), "")
    return "drawing x", "drawing y", f"height above {letter}" if letter else "height above the bottom"


def _witness(bench: Bench, order: Order) -> tuple[Witness | None, list[Finding]]:
    """Return the hole that proves the turn-over, or an error where it cannot be seen from above."""
    if order.witness is None:
        return None, []
    hole, spot = order.witness
    x, y = bench.laid.flat(spot.at)
    if metal_at(bench, order.removed, (x, y)):
        return None, [
            error(
                "witness-not-open",
                f"{spot.label} is not open from above in setup {bench.number}: it cannot show a wrong turn-over",
                bench.asked.place,
                feature=hole.id,
                try_="name a hole that an earlier setup drills right through",
            )
        ]
    x, y = bench.settle("x", x), bench.settle("y", y)
    pin = hole.diameter.lower_mm - PIN_LESS_MM
    shown = {"x": bench.shown("x", x), "y": bench.shown("y", y), "pin": bench.scales["x"].plain(pin).lstrip("+")}
    sentence = (
        f"Drive to X {shown['x']} Y {shown['y']}: a pin or drill shank of {shown['pin']} in the chuck goes into "
        f"{spot.label} by hand. If it does not, the part is the wrong way round or zero is wrong: stop"
    )
    return Witness(hole.id, spot.label, x, y, pin, shown, sentence), []


def _before_cutting(bench: Bench, order: Order, held: Grip) -> tuple[str, ...]:
    if is_scribed(bench):
        return LINES
    lines = ["Head square to the table, fixed jaw parallel to X by the indicator"] if held.vise else []
    if order.witness is None and _is_raw_all_round(bench, held):
        low, high = bench.envelope.low, bench.envelope.high
        ends = [
            f"X {bench.shown('x', bench.settle('x', x))} Y {bench.shown('y', bench.settle('y', y))}"
            for x, y in ((low[0], low[1]), (high[0], high[1]))
        ]
        lines.append(f"Drive to {ends[0]} and to {ends[1]}: raw metal must stand outside both corners")
    if order.witness is None and _is_turned(order) and _has_holes(order):
        lines.append("No hole made so far tells its two ways round apart: go by the corner mark")
    if any(scale.axis.kind == "dial" for scale in bench.scales.values()):
        lines.append(side_words(bench))
    lines.append("Write the zero down: if the display goes dark or a dial slips, find it again the same way")
    return tuple(lines)


def _has_holes(order: Order) -> bool:
    """Tell whether an earlier setup made any hole that could have told."""
    return any(plan.making is not None and plan.making < order.index for plan in order.holes.values())


def _is_turned(order: Order) -> bool:
    """Tell whether the part lies otherwise than in the setup before."""
    before = order.before
    return before is not None and (before.up, before.back) != (order.asked.up, order.asked.back)


def _is_raw_all_round(bench: Bench, held: Grip) -> bool:
    """Tell whether metal stands outside the finished part on all four sides."""
    return all(
        held.box.low[i] < bench.envelope.low[i] - 0.1 and held.box.high[i] > bench.envelope.high[i] + 0.1
        for i in (0, 1)
    )


def _circles(bench: Bench, steps: tuple[Step, ...]) -> dict[str, Any]:
    """Return the circles of holes in other ways than by X and Y, as fields of the setup."""
    return {"rings": _rings(bench, steps), "by_angle": _by_angle(bench, steps)}


def _by_angle(bench: Bench, steps: tuple[Step, ...]) -> tuple[TableAngles, ...]:
    """Return the circles of holes that may be drilled by turning the table that holds the part."""
    used = {p.feature for made in steps for p in made.positions if made.removes}
    holes = [f for f in bench.part.features if isinstance(f, Hole) and f.id in used]
    return tuple(found for hole in holes if (found := table_angles(bench, hole)) is not None)


def _rings(bench: Bench, steps: tuple[Step, ...]) -> tuple[RingFunction, ...]:
    used = {p.feature for made in steps for p in made.positions}
    circles = [f for f in bench.part.features if isinstance(f, Hole) and isinstance(f.pattern, BoltCircle)]
    return tuple(ring for hole in circles if hole.id in used for ring in ring_functions(bench, hole))
