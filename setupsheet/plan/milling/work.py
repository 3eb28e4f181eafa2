"""From a job to milling steps: one maker a kind of feature, all on the same two engines.

milling.py clears areas with straight walls; points.py makes slanted and round edges. What neither gives as
moves is written as a step all the same, with ``not_proved`` saying what the replay does not cut.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from setupsheet.finding import Finding, error
from setupsheet.part.face import Face
from setupsheet.part.feature import EdgeCut, Feature, Level, Mark, RoundBoss
from setupsheet.part.shop import Cutter
from setupsheet.plan.bench import (
    BOSS_ROUGH_MM,
    Bench,
    Removed,
    corner_squares,
    flat_box,
    metal_above,
    opening,
    standing,
    top_over,
)
from setupsheet.plan.draft import Draft, step
from setupsheet.plan.milling import area, boss, turned_work
from setupsheet.plan.milling.area import Region
from setupsheet.plan.milling.entries import entered
from setupsheet.plan.milling.expected import with_expected_depth
from setupsheet.plan.milling.grooves import groove_drafts
from setupsheet.plan.milling.leaves import leave_drafts
from setupsheet.plan.milling.milling import AreaWork, mill_area
from setupsheet.plan.milling.mills import SQUARE_CORNER, MillNeed, pick_mill
from setupsheet.plan.milling.openings import pocket_drafts, slot_drafts
from setupsheet.plan.milling.rims import corner_drafts, edge_chamfer_drafts, end_drafts, slant_drafts
from setupsheet.plan.milling.sides import side_draft
from setupsheet.plan.record import Leftover, Step
from setupsheet.plan.setup.zero import is_measured, measured_words
from setupsheet.solid.volume import Primitive, Prism
from setupsheet.solid.volumes import feature_volume

Drafts = tuple[list[Draft], list[Finding]]
Maker = Callable[[Bench, Removed, Any], Drafts]
"""Each takes the kind of feature whose name is its key in ``MAKERS``."""

MEASURE_AT_MM = 0.25
"""What is left to come off when the thickness is measured and Z is set by it. Common practice, no source."""

CORNER_MM = 0.01
"""More than this beyond what a round cutter leaves in a square corner is a place that it does not get into."""

ABOVE_MM = 1.0
"""How far a removed volume reaches over the stock, so that nothing is left as a skin."""


def face_drafts(bench: Bench, removed: Removed) -> Drafts:
    """Face the side that is up down to the finished envelope."""
    floor = bench.envelope.high[2]
    target = metal_above(bench, removed, floor)
    top = top_over(bench, removed, target)
    if area.is_empty(target) or top - floor < 1e-6:
        return [], []
    letters = [d.letter for d in bench.part.datums if d.face is bench.up]
    name = f"{letters[0]} ({bench.up.value})" if letters else f"the {bench.up.value}"
    cutter = pick_mill(bench, MillNeed(target, area.nothing(), top - floor))
    work = AreaWork("face", f"face {name}", (), target, area.nothing(), top, floor)
    if not is_measured(bench) or top - floor <= MEASURE_AT_MM + 1e-6:
        return [_faced(bench, work, cutter)], []
    clean = floor + MEASURE_AT_MM
    first = replace(work, title=f"clean up {name}", z_floor=clean, words=(measured_words(bench),), floor_counts=False)
    return [
        _faced(bench, first, cutter),
        _faced(bench, replace(work, title=f"{name} to size", z_top=clean), cutter),
    ], []


def _faced(bench: Bench, work: AreaWork, cutter: Cutter) -> Draft:
    takes = _above(bench, area.grown(flat_box(bench.stock), 1.0), work.z_floor)
    return Draft(mill_area(bench, work, cutter), takes, cutter)


def outline_drafts(bench: Bench, removed: Removed, sides: tuple[Face, ...]) -> Drafts:
    """Mill side faces to the envelope, each as deep as the finished part stands there."""
    drafts: list[Draft] = []
    findings: list[Finding] = []
    for side in _round_the_part(bench, sides):
        made, faults = side_draft(bench, (*removed, *(p for d in drafts for p in d.takes)), side)
        drafts += made
        findings += faults
    return drafts, findings


def _round_the_part(bench: Bench, sides: tuple[Face, ...]) -> list[Face]:
    """Order sides as the cutter goes, anticlockwise round the part: front, right, back, left."""
    order = [(1, -1), (0, 1), (1, 1), (0, -1)]
    return sorted(sides, key=lambda side: order.index(bench.laid.where(side)))


def feature_drafts(bench: Bench, removed: Removed, feature: Feature) -> Drafts:
    """Return the steps that make one feature that is no hole."""
    drafts, findings = MAKERS[feature.kind](bench, removed, feature)
    made = [replace(draft, step=with_expected_depth(bench, draft.step, feature)) for draft in drafts]
    return made, [*findings, *_too_narrow(bench, feature, drafts)]


def _too_narrow(bench: Bench, feature: Feature, drafts: list[Draft]) -> list[Finding]:
    """Return an error where more stays than a round cutter leaves in a square corner: it does not get in there."""
    for draft in drafts:
        radius = draft.cutter.diameter_mm / 2 if draft.cutter else 0.0
        corners = [left.bound_mm for left in draft.step.leftover if left.kind == "inside_corner"]
        if draft.cutter and max(corners, default=0.0) > SQUARE_CORNER * radius + CORNER_MM:
            stays, wide = (bench.scales["x"].plain(value).lstrip("+") for value in (max(corners), 2 * radius))
            return [
                error(
                    "gap-without-cutter",
                    f"{feature.id} has a place into which no end mill of the shop goes: {stays} of metal stays there",
                    feature.place,
                    feature=feature.id,
                    found=f"the {draft.cutter.label} stops {stays} before it",
                    allowed=f"gaps at least {wide} wide, and corners that are no sharper than square",
                    because="what the cutter cannot reach would be left standing",
                    try_="widen the gap, leave more standing there, or put a thinner end mill in the shop file",
                )
            ]
    return []


def _level_drafts(bench: Bench, removed: Removed, feature: Level) -> Drafts:
    floor = bench.z(feature.height.nominal_mm)
    corners = (bench.envelope.low[:2], bench.envelope.high[:2])
    whole = area.run_out(opening(bench, feature), corners)
    target = area.common(whole, metal_above(bench, removed, floor))
    if area.is_empty(target):
        return [], []
    stands = standing(bench, floor)
    rounds = area.without(corner_squares(bench, floor), whole)
    keep = area.union([area.squared(stands), rounds])
    top = top_over(bench, removed, target)
    cutter = pick_mill(bench, MillNeed(target, keep, top - floor))
    left = area.without(area.common(target, keep), stands)
    work = AreaWork("mill", feature.id, (feature.id,), area.without(target, keep), keep, top, floor)
    rim = _above(bench, area.without(whole, flat_box(bench.envelope)), floor)
    drafts = []
    if not area.is_empty(left):
        title = feature.id if area.is_empty(work.target) else f"rest of {feature.id}"
        rest = AreaWork("mill", title, (feature.id,), left, stands, top, floor)
        drafts = leave_drafts(bench, feature, rest, cutter.diameter_mm)
    if not area.is_empty(work.target):
        cleared = entered(bench, work, cutter, mill_area(bench, work, cutter))
        made = _with_corners(cleared, bench, work, cutter.diameter_mm / 2)
        drafts.insert(0, Draft(made, (), cutter))
    return [replace(drafts[0], takes=(*feature_volume(feature, bench.part), *rim)), *drafts[1:]], []


def _with_corners(made: Step, bench: Bench, work: AreaWork, radius: float) -> Step:
    """Name what a round cutter leaves in inside corners that the spec wants square."""
    left = area.unreached(work.target, work.keep, radius)
    if area.is_empty(left):
        return made
    bound = radius * (2**0.5 - 1) + 1e-3
    words = f"inside corners keep the cutter's radius, {bench.scales['x'].plain(radius).lstrip('+')}"
    return replace(made, leftover=(Leftover("inside_corner", work.features, bound, words),))


def _boss_drafts(bench: Bench, removed: Removed, feature: RoundBoss) -> Drafts:
    foot, top = boss.foot_of(bench, feature), bench.z(feature.top.nominal_mm)
    drafts: list[Draft] = []
    if top < bench.envelope.high[2] - 1e-6:
        drafts.append(_boss_top(bench, removed, feature, top))
    by_table = turned_work.boss_step(bench, feature, top, foot)
    if by_table is not None:
        return [*drafts, by_table], []
    cutter = boss.mill_for(bench, feature, top - foot)
    why_not, floors = boss.why_not(bench, feature), boss.on_two_floors(bench, feature, foot)
    head = bench.shop.boring_head
    if why_not or head is None:
        drafts.append(Draft(boss.filed_step(bench, feature, cutter, top, foot), (), cutter))
        return drafts, [*why_not, *floors]
    drafts.append(Draft(boss.corner_step(bench, feature, cutter, top, foot), (), cutter))
    drafts.append(Draft(boss.ring_step(bench, feature, head, top, foot, boss.ridge_radius(feature, cutter))))
    return drafts, floors


def _boss_top(bench: Bench, removed: Removed, feature: RoundBoss, top: float) -> Draft:
    reach = feature.diameter.nominal_mm / 2 + BOSS_ROUGH_MM
    x, y = bench.laid.flat(feature.at)
    target = area.rectangle((x - reach, y - reach), (x + reach, y + reach))
    keep = area.without(area.squared(standing(bench, top)), target)
    cutter = pick_mill(bench, MillNeed(target, keep, 0.0))
    before = top_over(bench, removed, flat_box(bench.stock))
    work = AreaWork("mill", f"top of {feature.id}", (feature.id,), target, keep, before, top)
    return Draft(mill_area(bench, work, cutter), feature_volume(feature, bench.part), cutter)


def _edge_cut_drafts(bench: Bench, removed: Removed, feature: EdgeCut) -> Drafts:
    if feature.side is not None:
        return side_draft(bench, removed, feature.side, feature)
    return slant_drafts(bench, removed, feature)


def _nothing(bench: Bench, removed: Removed, feature: Mark) -> Drafts:
    """Pass a mark on as words for the maker: no metal goes."""
    del bench, removed
    return [Draft(step("mark", feature.id, (feature.id,), method="by_hand", words=(feature.note,)))], []


def _above(bench: Bench, region: Region, floor: float) -> tuple[Primitive, ...]:
    """Return everything over a region from a floor up, as volumes in the part frame."""
    top = bench.stock.high[2] + ABOVE_MM
    clipped = area.common(region, area.grown(flat_box(bench.stock), ABOVE_MM))
    prisms = [Prism(2, outer, islands, floor, top) for outer, islands in area.loops_of(clipped)]
    return tuple(bench.laid.primitive_to_part(prism) for prism in prisms)


MAKERS: dict[str, Maker] = {
    "level": _level_drafts,
    "round boss": _boss_drafts,
    "pocket": pocket_drafts,
    "slot": slot_drafts,
    "edge cut": _edge_cut_drafts,
    "corner radius": corner_drafts,
    "rounded end": end_drafts,
    "ring groove": groove_drafts,
    "edge chamfer": edge_chamfer_drafts,
    "mark": _nothing,
}
"""Every kind but ``hole``, which holes.py lays over the setups."""
