"""Holes: the chain of cutters of each, laid over the setups, as steps with their positions.

With a readout one cutter serves all holes; with dials each hole is finished before the table moves on. A
located hole (a fit) is always made in one spindle position with the table locked.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from setupsheet.finding import Finding, caution, error
from setupsheet.length import Unit, plain
from setupsheet.part.face import Face
from setupsheet.part.feature import Hole, Spot
from setupsheet.part.part import Part, SetupAsked
from setupsheet.part.shop import Shop
from setupsheet.plan.bench import Bench, Removed
from setupsheet.plan.chain.chain import pick_chain
from setupsheet.plan.chain.drill import ONE_PLACE
from setupsheet.plan.chain.record import BY_HAND, Chain, ChainStep, HoleNeed
from setupsheet.plan.checks import limits
from setupsheet.plan.cutting import hole_cut
from setupsheet.plan.draft import Draft, region_of, step, tool_plan
from setupsheet.plan.holes import drilling
from setupsheet.plan.holes.travel import one_way, short_travel
from setupsheet.plan.jobs import Job
from setupsheet.plan.milling.milling import feed_fields
from setupsheet.plan.record import Position, Step
from setupsheet.plan.sizes import length
from setupsheet.solid.volume import Primitive

LOCKED = "same spindle position: table locked, nothing moved"
"""What a step says that goes on where the last one stood."""

_LOCKED_WORK = ("drill", "bore", "ream", "chamfer", "countersink")

MOST_LOCKED = 12
"""Most places of a located hole that are finished one by one with every cutter. Common practice, no source."""

MAKING = ("spot", "pilot", "drill", "core drill", "bore", "ream")


@dataclass(frozen=True, slots=True)
class HolePlan:
    """A hole's chain and the setup (index) that each part of it falls into; None where none reaches it."""

    hole: Hole
    chain: Chain
    making: int | None
    ends: dict[str, int | None]
    tapping: int | None


@dataclass(frozen=True, slots=True)
class Item:
    """One cutter of one hole in one setup."""

    hole: Hole
    chained: ChainStep
    located: bool
    order: int
    spots: tuple[Spot, ...]


def plan_holes(
    part: Part, shop: Shop, setups: tuple[SetupAsked, ...], listed: list[set[str]]
) -> tuple[dict[str, HolePlan], list[Finding]]:
    """Decide for every hole which setup does which part of its chain. ``listed``: hole ids of each setup."""
    plans, findings = {}, []
    for hole in part.features:
        if isinstance(hole, Hole):
            plan = _plan_hole(part, shop, setups, listed, hole)
            plans[hole.id] = plan
            findings += [*_unreached(plan), *_bored_blind(part, plan)]
    return plans, findings


def _bored_blind(part: Part, plan: HolePlan) -> list[Finding]:
    """Return an error for a blind hole that the chain bores: its floor would be flat where a drill's point is drawn."""
    hole = plan.hole
    if hole.through or not any(chained.operation == "bore" for chained in plan.chain.steps):
        return []
    width = length(hole.diameter.nominal_mm, part.unit)
    return [
        error(
            "blind-bore",
            f"{hole.id} is blind and too large for the drills and reamers: it is bored, and its floor comes out flat",
            hole.place,
            feature=hole.id,
            found=f"a blind hole {hole.callout}",
            allowed="a round pocket, which has a flat floor",
            because="a blind hole is drawn with the point of its drill, and no drill makes this one",
            try_=f"kind: pocket, area: {{circle: {{at: ..., diameter: {width}}}}}, width: {hole.callout}, depth: ...",
        )
    ]


def _plan_hole(part: Part, shop: Shop, setups: tuple[SetupAsked, ...], listed: list[set[str]], hole: Hole) -> HolePlan:
    able = [i for i, s in enumerate(setups) if hole.id in listed[i] and s.up.axis == hole.face.axis]
    making = next((i for i in able if hole.through or setups[i].up is hole.face), None)
    started = "mouth" if making is None or setups[making].up is hole.face else "exit"
    chain = pick_chain(need_of(part, hole, started), shop)
    ends = {"mouth": _first(setups, making, hole.face), "exit": _first(setups, making, hole.face.opposite)}
    tapping = ends["mouth"] if ends["mouth"] is not None else making
    return HolePlan(hole, chain, making, ends, tapping)


def _first(setups: tuple[SetupAsked, ...], start: int | None, up: Face) -> int | None:
    if start is None:
        return None
    return next((i for i in range(start, len(setups)) if setups[i].up is up), None)


def need_of(part: Part, hole: Hole, started_from: str) -> HoleNeed:
    """Return what a hole must become, for the picker."""
    depth = hole.depth_mm
    if depth is None:
        depth = max(abs(spot.mouth_mm - spot.exit_mm) for spot in hole.spots)
    return HoleNeed(
        hole.making,
        hole.diameter,
        hole.thread,
        hole.through,
        depth,
        hole.drill_depth_mm,
        hole.counterbore,
        hole.countersink,
        hole.chamfers,
        part.material_group,
        located=hole.position is not None or hole.making == "fit",
        mate=hole.mate,
        unit=part.unit,
        started_from=started_from,
    )


def _unreached(plan: HolePlan) -> list[Finding]:
    hole, findings = plan.hole, []
    if plan.making is None:
        findings.append(
            caution(
                "hole-in-no-setup",
                f"{hole.id} is made in no setup",
                hole.place,
                feature=hole.id,
                because="the papers would leave it out",
                try_=f"add a setup with the {hole.face.value} face up, or name {hole.id} in its do:",
            )
        )
    ends = {s.end for s in plan.chain.steps if s.operation not in (*MAKING, *BY_HAND)}
    for end in sorted(ends):
        if plan.making is not None and plan.ends[end] is None:
            findings.append(
                caution(
                    "hole-end-in-no-setup",
                    f"the {end} of {hole.id} faces up in no setup after drilling: its chamfer is hand work",
                    hole.place,
                    feature=hole.id,
                    try_="drill it in an earlier setup, or add one with that side up",
                )
            )
    return findings


def with_hole_ends(jobs: list[list[Job]], plans: dict[str, HolePlan]) -> list[list[Job]]:
    """Return the jobs with the ends and threads of holes added where nobody named them.

    A hole that one setup drills may have its other end chamfered, or its thread cut, in a later one: with the last
    holes there, when the face that the end lies in has been cut.
    """
    return [_with_ends(row, _due(plans, index)) for index, row in enumerate(jobs)]


def _due(plans: dict[str, HolePlan], index: int) -> list[str]:
    return [id_ for id_, plan in plans.items() if _items(plan, index)]


def _with_ends(row: list[Job], due: list[str]) -> list[Job]:
    missing = [id_ for id_ in due if not any(id_ in job.ids for job in row)]
    if not missing:
        return row
    at = next((i for i, job in reversed(list(enumerate(row))) if job.kind == "holes"), None)
    if at is None:
        return [*row, Job("holes", ids=tuple(missing))]
    return [*row[:at], Job("holes", ids=(*row[at].ids, *missing)), *row[at + 1 :]]


def hole_drafts(bench: Bench, removed: Removed, index: int, plans: list[HolePlan]) -> tuple[list[Draft], list[Finding]]:
    """Return the steps that these holes need in setup ``index`` (from 0), in order."""
    items = [item for plan in plans for item in _items(plan, index)]
    dials = bench.machine.axes["x"].kind == "dial"
    groups = _hole_by_hole(bench, items) if dials else _cutter_by_cutter(items)
    drafts: list[Draft] = []
    for group in groups:
        drafts.append(_draft(bench, removed, group))
        removed = (*removed, *drafts[-1].takes)
    return [*drafts, *(draft for plan in plans for draft in _ends_by_hand(bench, plan, index))], []


def _ends_by_hand(bench: Bench, plan: HolePlan, index: int) -> list[Draft]:
    """Return hand work for ends of a hole that face up in no setup after it is drilled."""
    if plan.making != index:
        return []
    drafts = []
    for chained in plan.chain.steps:
        if chained.operation in (*MAKING, *BY_HAND) or plan.ends[chained.end] is not None:
            continue
        size = bench.scales["x"].plain(chained.diameter_mm).lstrip("+")
        words = f"turn the part over in the hand: {chained.cutter.label} in a brace or drill press, to Ø {size}"
        labels = ", ".join(_label_ranges([spot.label for spot in plan.hole.spots]))
        cones = drilling.far_cones(plan.hole, chained)
        made = step(
            chained.operation,
            f"{chained.operation} {labels}, far end",
            (plan.hole.id,),
            method="by_hand",
            words=(words,),
            not_proved=f"{plan.hole.id}: its far end is chamfered by hand",
            region_mm=region_of(bench.part, cones),
        )
        drafts.append(Draft(made, cones))
    return drafts


def _items(plan: HolePlan, index: int) -> list[Item]:
    found = []
    located = plan.hole.making == "fit"
    for order, chained in enumerate(plan.chain.steps):
        if chained.operation in MAKING:
            here = plan.making == index
        elif chained.operation in BY_HAND:
            here = plan.tapping == index
        else:
            here = plan.ends[chained.end] == index
        if here:
            found.append(Item(plan.hole, chained, located, order, plan.hole.spots))
    return found


def _hole_by_hole(bench: Bench, items: list[Item]) -> list[list[Item]]:
    """With dials: every cutter at one place before the table moves on, and the table turns back as seldom as can be."""
    holes = {item.hole.id: item.hole for item in items}
    places = {(id_, spot.label): bench.laid.flat(spot.at) for id_, hole in holes.items() for spot in hole.spots}
    spots = {(id_, spot.label): spot for id_, hole in holes.items() for spot in hole.spots}
    row = one_way(places, bench.approach)
    return [[replace(item, spots=(spots[place],))] for place in row for item in items if item.hole.id == place[0]]


def _cutter_by_cutter(items: list[Item]) -> list[list[Item]]:
    """With a readout: spot all; each drill on all its holes; located holes each in one go; ends; taps last."""
    groups: dict[tuple[object, ...], list[Item]] = {}
    for item in _one_by_one(items):
        operation = item.chained.operation
        label = item.chained.cutter.label
        if operation == "spot":
            key: tuple[object, ...] = (0, label)
        elif item.located:
            key = (2, item.hole.id, item.spots[0].label if len(item.spots) == 1 else "", item.order)
        elif operation in ("pilot", "drill", "core drill", "bore", "ream"):
            key = (1, MAKING.index(operation), item.chained.diameter_mm, label)
        else:
            key = (3, ("counterbore", "spotface", "countersink", "chamfer", *BY_HAND).index(operation), label)
        groups.setdefault(key, []).append(item)
    return [groups[key] for key in sorted(groups, key=_sort_key)]


def _one_by_one(items: list[Item]) -> Iterator[Item]:
    """Yield the items, those of a located hole place by place: nothing may move between drill and reamer."""
    for item in items:
        if item.located and item.chained.operation != "spot" and len(item.spots) <= MOST_LOCKED:
            yield from (replace(item, spots=(spot,)) for spot in item.spots)
        else:
            yield item


def _sort_key(key: tuple[object, ...]) -> tuple[str, ...]:
    return tuple(f"{part:012.4f}" if isinstance(part, int | float) else str(part) for part in key)


def _draft(bench: Bench, removed: Removed, group: list[Item]) -> Draft:
    positions: list[Position] = []
    taken: list[Primitive] = []
    short = []
    for item in group:
        for spot in item.spots:
            bore = drilling.bore_of(bench, item.hole, spot)
            at = drilling.position(bench, removed, bore, item.chained)
            positions.append(at)
            taken += drilling.takes(bench, bore, item.chained, at)
            if item.chained.operation == "drill" and drilling.stops_short(bench, removed, bore):
                short.append(spot.label)
    first = group[0].chained
    made = _hole_step(bench, group, tuple(short_travel(positions)), short)
    return Draft(made, tuple(taken), first.cutter)


def _hole_step(bench: Bench, group: list[Item], positions: tuple[Position, ...], short: list[str]) -> Step:
    chained = group[0].chained
    operation, cutter = chained.operation, chained.cutter
    labels = ", ".join(_label_ranges([p.label for p in positions]))
    words = _words_of(bench, group)
    if short:
        words.append(f"{', '.join(_label_ranges(short))}: stops in metal that a later setup cuts away, which opens it")
    widest = cutter.diameter_mm if operation == "spot" else chained.diameter_mm
    cut = hole_cut(bench, cutter, operation, widest)
    words += _peck_words(bench, chained, positions)
    by_hand = operation in BY_HAND
    return step(
        operation,
        f"{operation} {labels}" if operation != "spot" else f"spot {labels}",
        tuple(dict.fromkeys(item.hole.id for item in group)),
        method="by_hand" if by_hand else "quill",
        removes=not by_hand,
        tool=tool_plan(cutter),
        positions=positions,
        z_shown=tuple(dict.fromkeys(p.shown["z"] for p in positions)),
        where=f"X {positions[0].shown['x']} Y {positions[0].shown['y']}" if len(positions) == 1 else "positions table",
        words=tuple(words),
        leftover=tuple(left for item in group for left in drilling.point_left(item.hole, item.chained)),
        **feed_fields(cut),
    )


def _peck_words(bench: Bench, chained: ChainStep, positions: tuple[Position, ...]) -> list[str]:
    """Return how often a drill is lifted clear of a deep hole; nothing where it need not be."""
    wide = chained.diameter_mm
    deep = max(at.z_from - at.z_full for at in positions)
    if chained.operation not in ("pilot", "drill", "core drill"):
        return []
    if deep <= limits.factor("peck from depth over diameter") * wide + 0.05 * wide:
        return []
    unit = bench.part.unit
    step_mm = 0.5 if unit is Unit.MM else 1.27
    peck = length(max(1.0, round(wide / step_mm)) * step_mm, unit)
    return [f"{deep / wide:.1f} diameters deep: lift it clear every {peck}, brush off the chips, oil"]


def _words_of(bench: Bench, group: list[Item]) -> list[str]:
    """Return what the chains say at these places; where only some of them say it, with their labels."""
    chained = group[0].chained
    said: dict[str, list[str]] = {}
    for item in group:
        for word in item.chained.words:
            said.setdefault(word, []).extend(spot.label for spot in item.spots)
    everywhere = sum(len(item.spots) for item in group)
    words = [
        word if len(labels) == everywhere else f"{', '.join(_label_ranges(labels))}: {word[0].lower()}{word[1:]}"
        for word, labels in said.items()
    ]
    if chained.operation in ("chamfer", "countersink"):
        to, tip = (length(value, bench.part.unit) for value in (chained.diameter_mm, chained.cutter.tip_mm))
        words.insert(0, f"to Ø {to} at the surface: go by that, the Z is for a flat of {tip} at the tip")
    through = all(item.hole.through for item in group)
    if group[0].located and everywhere == 1 and through and chained.operation in _LOCKED_WORK:
        words = [LOCKED, *(said for said in words if said != ONE_PLACE)]
    return words


def _label_ranges(labels: list[str]) -> list[str]:
    """Return labels with runs drawn together: R1, R2, R3 -> R1-R3."""
    runs: list[list[tuple[str, int | None, str]]] = []
    for label in sorted(dict.fromkeys(labels), key=_natural):
        stem, number = _natural(label)
        here = (stem, number if number >= 0 else None, label)
        last = runs[-1][-1] if runs else None
        if last and last[0] == stem and last[1] is not None and number == last[1] + 1:
            runs[-1].append(here)
        else:
            runs.append([here])
    return [run[0][2] if len(run) == 1 else f"{run[0][2]}-{run[-1][2]}" for run in runs]


def _natural(label: str) -> tuple[str, int]:
    stem = label.rstrip("0123456789")
    return stem, int(label[len(stem) :]) if label[len(stem) :] else -1


def verdict_words(plan: HolePlan) -> str:
    """Return what the chain reaches, as one sentence for the list of what to watch; '' if inside."""
    chain = plan.chain
    if chain.verdict == "inside":
        return ""
    result = f"{plain(chain.result_lower_mm, 3)} to {plain(chain.result_upper_mm, 3)} mm"
    return f"{plan.hole.id}: the cutters give {result}: {chain.how_much}; {chain.what_would}"
