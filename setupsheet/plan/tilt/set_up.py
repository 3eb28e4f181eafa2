"""One setup at an angle from start to end, as the setup's record: the door of this folder."""

from __future__ import annotations

import math
from dataclasses import replace

from setupsheet.finding import Finding
from setupsheet.length import fixed
from setupsheet.part.face import Face
from setupsheet.part.part import Part, SetupAsked
from setupsheet.part.shop import Shop
from setupsheet.plan import cautions
from setupsheet.plan.bench import Bench
from setupsheet.plan.checks.case import Clamped
from setupsheet.plan.draft import Draft
from setupsheet.plan.milling import area
from setupsheet.plan.places import coordinate
from setupsheet.plan.record import AngleSetting, EdgeMark, Readout, Setup, Step
from setupsheet.plan.setup.approach import side_words, sides_of
from setupsheet.plan.setup.clamping import Done, Order, dial_sums, machine_for
from setupsheet.plan.setup.marks import mark_faces, mark_words
from setupsheet.plan.setup.quill import with_head
from setupsheet.plan.setup.sequence import last_step
from setupsheet.plan.setup.zero import default_face
from setupsheet.plan.shown import Scale, offset_for
from setupsheet.plan.sizes import length
from setupsheet.plan.tilt.faces import face_drafts
from setupsheet.plan.tilt.hold import Stand, hold_of, stand_of
from setupsheet.plan.tilt.level import level_slopes, turn_deg
from setupsheet.plan.tilt.lie import Lie, lie_of
from setupsheet.plan.tilt.section import outline
from setupsheet.plan.tilt.setting import How, how_set, prove_rise, set_words
from setupsheet.plan.tilt.turns import turn_between
from setupsheet.plan.tilt.zero import Mark, marks, reach_faults, zero_point, zeros
from setupsheet.solid.laid import lay
from setupsheet.solid.slopes import Slope
from setupsheet.solid.tilted import Tilted

_REACH_MM = 40.0
"""How far the cutter's centre leaves the stock at most; the readings of dials must stay positive there."""

_PROVE_MM = {"mm": (100.0, 50.0, 40.0, 30.0, 20.0), "inch": (101.6, 50.8, 38.1, 25.4)}
"""Ways over which an indicator proves the angle, the longest that fits: whole numbers to set."""

_ENDS_MM = 3.0
"""How far the indicator stays from the ends of the face. Common practice, no source."""


def plan_tilted(part: Part, shop: Shop, order: Order) -> Done:
    """Plan one setup at an angle."""
    lie, found, findings = _lie(part, order)
    bench = _bench(part, shop, order, lie)
    how = how_set(lie.tilted, shop, "inch" if bench.scales["x"].axis.unit == "inch" else "mm")
    below = min((mark.at[1] - mark.pin_mm / 2 for mark in found.values() if mark.pin_mm), default=lie.top)
    stand, faults = stand_of(lie, shop, how, below)
    findings += faults + reach_faults(lie, found, stand.front)
    bench = replace(bench, jaw_top=stand.top)
    drafts = face_drafts(bench, lie, found["z"])
    steps, head = with_head(bench, _numbered([*drafts, last_step(bench, drafts)]))
    setup = _setup(bench, order, (lie, found, how, stand), steps, head)
    takes = tuple(draft.takes for draft in drafts)
    removed = (*order.removed, *(shape for volume in takes for shape in volume))
    clamped = Clamped(setup, order.asked, bench.machine, lie.tilted.upright, order.removed, takes)
    return Done(clamped, removed, tuple(findings))


def _lie(part: Part, order: Order) -> tuple[Lie, dict[str, Mark], list[Finding]]:
    """Return how the part lies with its zero set, and what is touched for X and Z."""
    asked = order.asked
    turn, _ = turn_deg(part, asked)
    wanted = {id_ for job in order.jobs for id_ in job.ids}
    level = tuple(slope for slope in level_slopes(part, asked, turn) if slope.feature.id in wanted)
    made = frozenset(id_ for id_, plan in order.holes.items() if plan.making is not None and plan.making < order.index)
    first = _at(part, order, Tilted(lay(asked.up, asked.back, (0.0, 0.0, 0.0)), turn), level)
    found, findings = marks(first, made)
    tilted, faults = zero_point(first, found, _y_zero(part, asked))
    lie = _at(part, order, tilted, level)
    moved = {axis: replace(mark, at=_moved(first.tilted, tilted, mark)) for axis, mark in found.items()}
    return lie, moved, findings + faults


def _at(part: Part, order: Order, tilted: Tilted, level: tuple[Slope, ...]) -> Lie:
    return lie_of(part, order.asked, tilted, order.removed, (order.finished, level))


def _moved(before: Tilted, after: Tilted, mark: Mark) -> tuple[float, float]:
    x, _, z = after.to_setup(before.to_part((mark.at[0], 0.0, mark.at[1])))
    return x, z


def _y_zero(part: Part, asked: SetupAsked) -> float:
    """Return the part coordinate at which Y is zero."""
    upright = lay(asked.up, asked.back, (0.0, 0.0, 0.0))
    wanted = asked.zero.get("y")
    value = coordinate(part, wanted.at, upright.axes[1]) if wanted else None
    return part.box.at(default_face(upright, 1)) if value is None else value


def _bench(part: Part, shop: Shop, order: Order, lie: Lie) -> Bench:
    machine = machine_for(shop, order.asked)
    ends = {"x": lie.x, "y": lie.y, "z": (lie.low, lie.top)}
    scales = {
        name: Scale(axis := machine.axes[name], offset_for(axis, low - _REACH_MM, high + _REACH_MM))
        for name, (low, high) in ends.items()
    }
    return Bench(
        part,
        shop,
        machine,
        shop.vises[0] if shop.vises else None,
        lie.tilted.upright,
        order.asked,
        scales,
        order.index + 1,
        lie.low,
        lie.x,
        order.finished,
        order.opened,
    )


def _numbered(drafts: list[Draft]) -> tuple[Step, ...]:
    return tuple(replace(draft.step, number=number) for number, draft in enumerate(drafts, 1))


def _setup(
    bench: Bench,
    order: Order,
    lies: tuple[Lie, dict[str, Mark], How, Stand],
    steps: tuple[Step, ...],
    head: tuple[str, ...],
) -> Setup:
    lie, found, how, stand = lies
    upright, part = lie.tilted.upright, bench.part
    fixed_at = "back" if stand.plate or stand.back_fixed else "front"
    found_at = zeros(bench, order.removed, lie, found)
    bench = replace(bench, approach=sides_of(found_at))
    label, words = mark_words(upright, order.marked or mark_faces(upright))
    return Setup(
        number=order.index + 1,
        name=order.asked.name,
        machine=bench.machine.name,
        up=upright.up.value,
        fixed_jaw=(upright.back if fixed_at == "back" else upright.back.opposite).value,
        turn=turn_between(part, order.before, order.asked, fixed_at),
        witness=None,
        mark=words,
        hold=hold_of(lie, stand, bench.shop, how),
        zero=found_at,
        sums=(*_sums(lie), *dial_sums(bench)),
        part_to_setup=lie.tilted.matrix,
        counts={name: bench.scales[name].axis.counts for name in "xyz"},
        readout={name: _readout(scale, how.step_deg) for name, scale in bench.scales.items()},
        volume_before_mm3=0.0,
        volume_after_mm3=0.0,
        before_cutting=(*_before_cutting(bench, lie, how, stand), *head),
        steps=steps,
        rings=(),
        cautions=cautions.for_steps(steps, overhang=False, clamped=stand.plate),
        edges=_edges(bench, lie),
        mark_label=label,
        angle_setting=_setting(lie, found, how),
    )


def _readout(scale: Scale, step_deg: float) -> Readout:
    axis = scale.axis
    step = axis.step_mm if axis.kind == "readout" else 0.0
    division = axis.step_mm if axis.kind == "dial" else 0.0
    return Readout(axis.kind, step, axis.per_turn_mm, division, axis.unit, step_deg, scale.offset_mm)


def _sums(lie: Lie) -> tuple[str, ...]:
    tilt = fixed(abs(lie.tilted.turn_deg), 3)
    return (f"X and Z lie {tilt} degrees to the drawing: take every number from this sheet",)


def _before_cutting(bench: Bench, lie: Lie, how: How, stand: Stand) -> tuple[str, ...]:
    true = "plate" if stand.plate else "fixed jaw"
    lines = [f"Head square to the table, {true} parallel to X by the indicator", *_prove(lie, how)]
    if any(scale.axis.kind == "dial" for scale in bench.scales.values()):
        lines.append(side_words(bench))
    lines.append("Write the zero down: if the display goes dark or a dial slips, find it again the same way")
    return tuple(lines)


def _prove(lie: Lie, how: How) -> tuple[str, ...]:
    """Return how an indicator proves the angle on the face opposite to the one on the bar, where it is finished."""
    face = how.rests_on.opposite
    run = _run_along(lie, face)
    ways = [way for way in _PROVE_MM[how.series] if way <= run - 2 * _ENDS_MM]
    if not ways:
        return ()
    rise = how.size(prove_rise(how.set_deg, ways[0]))
    over = how.size(ways[0]).rstrip("0").rstrip(".")
    return (
        f"Prove the angle: indicator on the {face.value} face; over {over} of X it rises {rise} to the {how.roll}: "
        "move X by the one, raise it by Z by the other, and it reads the same",
    )


def _run_along(lie: Lie, face: Face) -> float:
    """Return how much of X a finished face of the outline runs over; 0 where it is raw or gone."""
    box = lie.part.box
    u, v = lie.tilted.upright.back.in_plane
    other = v if face.axis == u else u
    ends = []
    for value in (box.low[other], box.high[other]):
        at = (box.at(face), value) if face.axis == u else (value, box.at(face))
        ends.append(lie.tilted.flat(at))
    line = area.chord(ends[0], ends[1], area.grown(lie.metal, 1e-4))
    edge = area.chord(ends[0], ends[1], area.grown(lie.metal, -0.01)) if line else None
    if line is None or edge is not None:
        return 0.0
    return abs(line[1][0] - line[0][0])


def _edges(bench: Bench, lie: Lie) -> tuple[EdgeMark, ...]:
    """Return the readings of the ends of the level faces, and of the metal along Y."""
    rows: dict[tuple[str, float], EdgeMark] = {}
    for slope, _ in lie.work:
        for end in slope.line if math.dist(*slope.line) else ():
            _add(rows, bench, "x", lie.tilted.flat(end)[0], f"end of {slope.feature.id}")
    for value, words in zip(lie.y, ("front of the part", "back of the part"), strict=True):
        _add(rows, bench, "y", value, words)
    return tuple(sorted(rows.values(), key=lambda mark: (mark.axis, mark.value)))


def _add(rows: dict[tuple[str, float], EdgeMark], bench: Bench, axis: str, value: float, words: str) -> None:
    settled = bench.settle(axis, value)
    rows[(axis, round(settled, 6))] = EdgeMark(axis, settled, bench.shown(axis, settled), words)


def _setting(lie: Lie, found: dict[str, Mark], how: How) -> AngleSetting:
    level = tuple(dict.fromkeys(slope.feature.id for slope, _ in lie.work))
    pin = next((mark for mark in found.values() if mark.pin_mm), None)
    return AngleSetting(
        level=level,
        raised=how.raised,
        tilt_deg=how.tilt_deg,
        device=how.device,
        owned=how.owned,
        rests_on=how.rests_on.value,
        roll=how.roll,
        set_deg=how.set_deg,
        complement=how.complement,
        bar_mm=how.bar_mm,
        stack_mm=how.stack_mm,
        blocks_mm=how.blocks_mm,
        step_deg=how.step_deg,
        section=outline(lie.metal),
        pin=(*pin.at, pin.pin_mm) if pin else None,
        words=set_words(how, level),
        shown={
            "tilt": f"{fixed(how.tilt_deg, 3).rstrip('0').rstrip('.')}°",
            "angle": f"{fixed(how.set_deg, 3)}°",
            "pin": length(pin.pin_mm, lie.part.unit) if pin else "",
            "stack": how.size(how.stack_mm) if how.bar_mm else "",
            "bar": how.size(how.bar_mm).rstrip("0").rstrip(".") if how.bar_mm else "",
        },
    )
