"""The bands of every located hole: the limits asked for, what the chosen chain gives, the mate's own limits."""

from __future__ import annotations

import re
from collections.abc import Iterable

from setupsheet.length import Unit, fixed
from setupsheet.plan.holes import HolePlan
from setupsheet.plan.record import FitBand
from setupsheet.plan.sizes import between
from setupsheet.tables.fits import Limits, limits
from setupsheet.tables.unknown import NotInTables

_SHAFT = re.compile(r"(?<![\d.])(\d+(?:\.\d+)?) ?([a-z]{1,2}\d{1,2})\b")
"""A size and a shaft's symbol in the words for a mate: 'bush 12 r6, pressed'."""


def fit_bands(holes: Iterable[HolePlan], unit: Unit) -> tuple[FitBand, ...]:
    """Return the bands of the holes with limits of their own: a fit, or a mate that must go in."""
    return tuple(
        _bands(plan, unit)
        for plan in holes
        if plan.chain.required_lower_mm is not None and (plan.hole.making == "fit" or plan.hole.mate)
    )


def _bands(plan: HolePlan, unit: Unit) -> FitBand:
    hole, chain = plan.hole, plan.chain
    assert chain.required_lower_mm is not None
    assert chain.required_upper_mm is not None
    shaft = mate_limits(hole.mate)
    shown = {
        "required": between(chain.required_lower_mm, chain.required_upper_mm, unit),
        "result": between(chain.result_lower_mm, chain.result_upper_mm, unit),
    }
    if shaft is not None:
        least, most = chain.required_lower_mm - shaft.upper_mm, chain.required_upper_mm - shaft.lower_mm
        shown["mate"] = between(shaft.lower_mm, shaft.upper_mm, unit)
        shown["clearance"] = f"{_signed(least, unit)} to {_signed(most, unit)}"
    return FitBand(
        hole.id,
        hole.callout,
        hole.diameter.nominal_mm,
        chain.required_lower_mm,
        chain.required_upper_mm,
        chain.result_lower_mm,
        chain.result_upper_mm,
        _finishing(plan),
        chain.verdict,
        hole.mate,
        shaft.lower_mm if shaft else None,
        shaft.upper_mm if shaft else None,
        shown,
    )


def _finishing(plan: HolePlan) -> str:
    """Return the label of the cutter that leaves the diameter."""
    sized = [step for step in plan.chain.steps if step.operation in ("drill", "bore", "ream")]
    return sized[-1].cutter.label if sized else ""


def mate_limits(words: str) -> Limits | None:
    """Return the limits that the words for a mate name ('bush 12 r6, pressed'), or None where they name none."""
    found = _SHAFT.search(words)
    if found is None:
        return None
    try:
        return limits(float(found[1]), found[2])
    except NotInTables:
        return None


def _signed(value_mm: float, unit: Unit) -> str:
    text = fixed(value_mm / float(unit.mm), 3 if unit is Unit.MM else 4)
    return text if text.startswith("-") or not float(text) else f"+{text}"
