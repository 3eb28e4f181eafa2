"""Toleranced positions: which setup makes a hole, which finishes its datums, and what lies between the two (mm)."""

from __future__ import annotations

from setupsheet.part.feature import Hole
from setupsheet.part.part import Datum
from setupsheet.plan.checks import limits
from setupsheet.plan.checks.case import Case, Clamped
from setupsheet.plan.places import feature_of
from setupsheet.plan.record import Step

_PLACING = ("drill", "bore", "ream")


def located(case: Case) -> list[Hole]:
    """Return the holes with a toleranced position."""
    return [f for f in case.part.features if isinstance(f, Hole) and f.position is not None]


def placed_in(case: Case, hole: Hole) -> tuple[Clamped, Step] | None:
    """Return the setup and the step that give a hole its place: the last of drilling, boring, reaming."""
    rows = [(held, step) for held, step in case.steps() if hole.id in step.features and step.operation in _PLACING]
    return rows[-1] if rows else None


def datums_of(case: Case, hole: Hole) -> tuple[Datum, ...]:
    """Return the datums that a hole's position counts from."""
    letters = hole.position.datums.split() if hole.position else []
    return tuple(d for d in case.part.datums if d.letter in letters)


def finished_in(case: Case, datum: Datum) -> int | None:
    """Return the setup that finishes a datum; 0 as bought, None where none does."""
    if datum.face is not None:
        return case.finished_in(datum.face)
    feature = case.feature(datum.feature)
    made = placed_in(case, feature) if isinstance(feature, Hole) else case.made_at(datum.feature)
    return made[0].setup.number if made else None


def process(case: Case, hole: Hole, held: Clamped) -> str:
    """Return how a hole comes to its place: 'marked out and drilled', 'drilled by coordinates' or 'bored'."""
    if held.machine.kind == "drill press":
        return "marked out and drilled"
    bored = any(hole.id in step.features and step.operation == "bore" for step in held.setup.steps)
    del case
    return "bored" if bored else "drilled by coordinates"


def chain(case: Case, hole: Hole, made: tuple[Clamped, Step]) -> list[tuple[str, float]]:
    """Return what adds up between a hole and its datums: a name and an amount (mm) each, the hole's own first."""
    held = made[0]
    links = [("its own drilling", limits.mm(f"zone {process(case, hole, held)}") / 2)]
    for datum in datums_of(case, hole):
        setup = finished_in(case, datum)
        if setup in (None, 0, held.setup.number):
            continue
        links += _zero_again(case, held, datum)
    return list(dict.fromkeys(links))


def _zero_again(case: Case, held: Clamped, datum: Datum) -> list[tuple[str, float]]:
    """Return what finding zero again adds to a place that counts from a datum of another setup."""
    links = []
    for zero in held.setup.zero:
        if zero.axis == "z":
            continue
        if zero.method == "indicate":
            links.append((f"indicating {zero.touch}", limits.mm("indicating a bore")))
        elif datum.face is None or held.laid.axes["xy".index(zero.axis)] == datum.face.axis:
            links.append((f"the edge finder on the {zero.touch}", limits.mm("touching an edge")))
        from_datum = datum.feature and feature_of(case.part, zero.touch) == case.feature(datum.feature)
        if datum.feature and not from_datum:
            links.append((f"where {datum.feature} stands from that edge", limits.mm("bore to edge over two setups")))
    return links
