"""The plan of a part: setups in order, each with its work, what to measure and what to lay out.

``make_plan`` is the one door to this stage. It asks the solid stage for the body after each setup, because
pictures and volumes are of metal that is really there.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

import setupsheet
from setupsheet.finding import Finding, Severity, error
from setupsheet.part.face import Face
from setupsheet.part.feature import EdgeCut, Hole, Spot
from setupsheet.part.part import Part, SetupAsked
from setupsheet.part.shop import Shop
from setupsheet.plan import cautions
from setupsheet.plan.blank import mass_text, stock_plan
from setupsheet.plan.doubts import doubts
from setupsheet.plan.features import feature_plans
from setupsheet.plan.fit_bands import fit_bands
from setupsheet.plan.fits import fit_plans
from setupsheet.plan.holes.holes import HolePlan, plan_holes, verdict_words, with_hole_ends
from setupsheet.plan.jobs import Job, allot
from setupsheet.plan.lay_out import tool_lines
from setupsheet.plan.measuring import measures
from setupsheet.plan.objections import gathered
from setupsheet.plan.pages import case_of, with_checks
from setupsheet.plan.record import Ask, MadeIn, Measure, Plan, Setup, SolidPlan, as_json
from setupsheet.plan.replay.replay import MeshData, replay
from setupsheet.plan.setup.clamping import Done, Order, plan_setup
from setupsheet.plan.setup.marks import mark_faces
from setupsheet.plan.setup.propose import proposed, reasons
from setupsheet.plan.setup.sequence import MEASURE
from setupsheet.plan.setup.witness import pick_witness
from setupsheet.plan.sizes import length
from setupsheet.plan.tilt.set_up import plan_tilted
from setupsheet.solid.body import Body, stock_less, volume_mm3
from setupsheet.solid.laid import lay
from setupsheet.solid.solids import Solids
from setupsheet.solid.thinned import is_thinned, without_repeats
from setupsheet.solid.volume import Primitive, Volume
from setupsheet.solid.volumes import finished_volumes

_AT_THE_MOUTH = frozenset({"spot", "chamfer", "countersink", "deburr"})
"""Work that leaves a hole's own size as it was."""

_PROOF_ADVICE = "look at the step named; name the work in another order with do:, or hold the part another way"


@dataclass(frozen=True, slots=True)
class Planned:
    """The plan, the body before the first setup and after each one, and everything found on the way.

    ``pictured`` are the same bodies for pictures: with very many holes, without the repeated ones.
    """

    plan: Plan
    bodies: tuple[Body, ...]
    pictured: tuple[Body, ...]
    findings: tuple[Finding, ...]


def make_plan(part: Part, shop: Shop, solids: Solids) -> Planned:
    """Plan the work on a part with what a shop has; ``solids`` are those of the finished part."""
    setups, findings = proposed(part, shop)
    jobs, faults = allot(part, setups)
    findings += faults
    listed = [{id_ for job in row for id_ in job.ids} for row in jobs]
    holes, faults = plan_holes(part, shop, setups, listed)
    findings += faults
    done = _setups(part, shop, setups, with_hole_ends(jobs, holes), holes)
    taken = _taken(done)
    bodies = [stock_less(part, volumes) for volumes in taken]
    pictured = [stock_less(part, without_repeats(part, v)) for v in taken] if is_thinned(part) else bodies
    faults_of = [(i + 1, f) for i, row in enumerate(done) for f in row.findings if not _mended(f, done[i + 1 :])]
    findings += [finding for _, finding in faults_of]
    findings += [finding for body in bodies for finding in body.findings]
    planned = tuple(_with_volumes(row.clamped.setup, *bodies[i : i + 2]) for i, row in enumerate(done))
    plan = _plan(part, shop, solid_plan(part, solids), (setups, planned, holes))
    case = case_of(part, shop, plan, tuple(row.clamped for row in done))
    plan, faults = with_checks(case, faults_of)
    return Planned(plan, tuple(bodies), tuple(pictured), (*findings, *faults))


def prove(planned: Planned, solids: Solids) -> Planned:
    """Cut the plan again from its own numbers; what does not come out is an error that stops the papers."""
    least, most = (MeshData(*mesh) for mesh in (solids.least_mesh, solids.most_mesh))
    verdict = replay(as_json(planned.plan), least, most)
    faults = [("replay-gouge", str(piece["words"]), piece["features"]) for piece in verdict.gouge]
    faults += [("replay-left", str(piece["words"]), piece["features"]) for piece in verdict.left]
    faults += [("replay-objects", words, ()) for words in gathered(verdict.objections)]
    findings = [error(code, words, feature=", ".join(names), try_=_PROOF_ADVICE) for code, words, names in faults]
    known = tuple(_reason(finding) if verdict.left else finding for finding in planned.findings)
    plan = replace(planned.plan, replay=verdict)
    if not verdict.left and not verdict.not_proved:
        plan, known = _without_idle(plan, known)
    return replace(planned, plan=plan, findings=(*known, *findings))


def _without_idle(plan: Plan, findings: tuple[Finding, ...]) -> tuple[Plan, tuple[Finding, ...]]:
    """Take back that a side stays uncut where the proof finds no metal there: another step of the plan took it."""
    idle = tuple(finding.message for finding in findings if finding.code == "side-hidden-by-jaws")
    setups = tuple(
        replace(setup, cautions=tuple(words for words in setup.cautions if not words.startswith(idle)))
        for setup in plan.setups
    )
    kept = tuple(finding for finding in findings if finding.code != "side-hidden-by-jaws")
    return replace(plan, setups=setups) if idle else plan, kept


_LEAVES_METAL = ("side-hidden-by-jaws", "boss-on-two-floors")
"""Cautions about metal that may stay; where the replay finds metal they are the reason, and say what to do."""


def _reason(finding: Finding) -> Finding:
    """Return a caution about metal that may stay as the error that it is, now that metal is known to stand."""
    return replace(finding, severity=Severity.ERROR) if finding.code in _LEAVES_METAL else finding


def solid_plan(part: Part, solids: Solids) -> SolidPlan:
    """Return the facts of the finished solid as the plan carries them; its meshes come with the files."""
    mass = solids.volume_mm3 * part.density_kg_m3 * 1e-9
    low, high = solids.box_mm
    sizes = " x ".join(length(b - a, part.unit) for a, b in zip(low, high, strict=True))
    return SolidPlan(solids.volume_mm3, solids.box_mm, 0.0, (), mass, mass_text(mass, part.unit), sizes)


def _setups(
    part: Part, shop: Shop, setups: tuple[SetupAsked, ...], jobs: list[list[Job]], holes: dict[str, HolePlan]
) -> list[Done]:
    finished: tuple[Primitive, ...] = tuple(s for volume in finished_volumes(part).values() for s in volume)
    witnesses = [_witness(part, asked, i, holes) for i, asked in enumerate(setups)]
    done: list[Done] = []
    first = lay(setups[0].up, setups[0].back, (0.0, 0.0, 0.0))
    for index, asked in enumerate(setups):
        removed = done[-1].removed if done else ()
        before, marked = (setups[index - 1], mark_faces(first)) if index else (None, None)
        opened = _looked_for(setups[index + 1 :], witnesses[index + 1 :])
        order = Order(index, asked, before, jobs[index], holes, removed, finished, opened, witnesses[index], marked)
        done.append((plan_tilted if asked.tilt else plan_setup)(part, shop, order))
    return done


def _mended(finding: Finding, later: list[Done]) -> bool:
    """Tell whether a side that the jaws hide in one setup is cut in a later one."""
    if finding.code != "side-hidden-by-jaws":
        return False
    steps = [step for row in later for step in row.clamped.setup.steps]
    return any(finding.feature in step.features or step.title.startswith(f"{finding.feature} side") for step in steps)


def _looked_for(later: tuple[SetupAsked, ...], witnesses: list[tuple[Hole, Spot] | None]) -> frozenset[str]:
    """Return the holes that later setups indicate or drive to: they must be open right through."""
    named = {zero.found.split()[-1] for asked in later for zero in asked.zero.values() if "indicate" in zero.found}
    return frozenset(named | {pair[0].id for pair in witnesses if pair})


def _witness(part: Part, asked: SetupAsked, index: int, holes: dict[str, HolePlan]) -> tuple[Hole, Spot] | None:
    """Return the hole that shows a wrong turn-over in a setup (index): the one asked for, else one without a twin."""
    made = [h.hole for h in holes.values() if h.making is not None and h.making < index]
    centred = asked.hold.centred if asked.hold else ""
    return pick_witness(part, asked, [hole for hole in made if hole.id != centred])


def _taken(done: list[Done]) -> list[Mapping[str, Volume]]:
    """Return what is gone before the first setup and after each."""
    rows: list[Mapping[str, Volume]] = [{}]
    gone = 0
    for row in done:
        rows.append({**rows[-1], row.clamped.setup.name: row.removed[gone:]})
        gone = len(row.removed)
    return rows


def _with_volumes(setup: Setup, before: Body, after: Body) -> Setup:
    return replace(setup, volume_before_mm3=volume_mm3(before), volume_after_mm3=volume_mm3(after))


def _plan(
    part: Part,
    shop: Shop,
    solid: SolidPlan,
    work: tuple[tuple[SetupAsked, ...], tuple[Setup, ...], dict[str, HolePlan]],
) -> Plan:
    asked, setups, holes = work
    made = {**made_in(setups), **faces_made_in(part, setups)}
    measured = measures(part, shop, {**made, **made_in(setups, but=_AT_THE_MOUTH)})
    unproved = tuple(s.not_proved for setup in setups for s in setup.steps if s.not_proved)
    return Plan(
        format=1,
        part=part.name,
        number=part.number,
        revision=part.revision,
        unit=part.unit.value,
        spec_sha256=part.sha256,
        shop_sha256=shop.sha256,
        program_version=setupsheet.__version__,
        defaults_applied=tuple({"path": d.path, "value": d.value, "reason": d.reason} for d in part.defaults),
        material=part.material,
        stock=stock_plan(part, asked),
        solid=solid,
        features=feature_plans(part, made),
        setups=tuple(_with_checks(setup, measured) for setup in setups),
        order_reasons=reasons(part, asked),
        measure=measured,
        tools=tool_lines(part, shop, setups),
        watch=(*_watched(part, holes, setups), *unproved),
        cautions=cautions.for_everybody(),
        not_proved=unproved,
        findings=(),
        revisions=tuple(as_json(row) for row in part.revisions),
        notes=part.notes,
        fits=fit_bands(holes.values(), part),
        mates=fit_plans(part),
        quantity=part.quantity,
    )


def _watched(part: Part, holes: dict[str, HolePlan], setups: tuple[Setup, ...]) -> list[str]:
    """Return what the cutters do not reach, and what nobody saw in print."""
    chains = [(plan.hole, plan.chain.steps) for plan in holes.values()]
    missed = [words for plan in holes.values() if (words := verdict_words(plan))]
    return [*missed, *doubts(part, chains, setups)]


def _with_checks(setup: Setup, measured: tuple[Measure, ...]) -> Setup:
    """Return a setup whose steps ask for the sizes that they finish."""
    asked: dict[int, list[Ask]] = {}
    for row in measured:
        if row.after is not None and row.after.setup == setup.number:
            asked.setdefault(row.after.step, []).append(Ask(row.what, row.shown))
    steps = [replace(step, checks=(*step.checks, *asked.get(step.number, ()))) for step in setup.steps]
    if not any(step.checks for step in steps):
        steps = [replace(step, words=tuple(w for w in step.words if w != MEASURE)) for step in steps]
    return replace(setup, steps=tuple(steps))


def faces_made_in(part: Part, setups: tuple[Setup, ...]) -> dict[str, tuple[MadeIn, ...]]:
    """Return the setups and steps that cut each face of the envelope, under '<face> face'."""
    own = {f.id: f.side for f in part.features if isinstance(f, EdgeCut) and f.side}
    made: dict[str, list[MadeIn]] = {}
    for setup in setups:
        for step in setup.steps:
            faces = [own[id_].value for id_ in step.features if id_ in own]
            faces += [setup.up] if step.operation == "face" else []
            faces += [face.value for face in Face if step.title.startswith(f"{face.value} side")]
            for face in faces:
                made.setdefault(f"{face} face", []).append(MadeIn(setup.number, step.number))
    return {name: tuple(rows) for name, rows in made.items()}


def made_in(setups: tuple[Setup, ...], but: frozenset[str] = frozenset()) -> dict[str, tuple[MadeIn, ...]]:
    """Return the setups and steps that work on each feature, in order; operations in ``but`` do not count."""
    made: dict[str, list[MadeIn]] = {}
    for setup in setups:
        for step in setup.steps:
            for id_ in step.features if step.operation not in but else ():
                made.setdefault(id_, []).append(MadeIn(setup.number, step.number))
    return {id_: tuple(rows) for id_, rows in made.items()}
