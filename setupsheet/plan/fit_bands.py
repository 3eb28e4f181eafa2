"""The bands of every located hole: the limits asked for, what the chosen chain gives, the mate's own limits."""

from __future__ import annotations

from collections.abc import Iterable

from setupsheet.length import Unit, fixed
from setupsheet.part.mate import SHAFT, Mate
from setupsheet.part.part import Part
from setupsheet.plan.holes.holes import HolePlan
from setupsheet.plan.record import FitBand
from setupsheet.plan.sizes import between


def fit_bands(holes: Iterable[HolePlan], part: Part) -> tuple[FitBand, ...]:
    """Return the bands of the holes with limits of their own: a fit, or a mate that must go in; no threads."""
    mates = {mate.feature: mate for mate in part.mates}
    return tuple(
        _bands(plan, mates.get(plan.hole.id), part.unit)
        for plan in holes
        if plan.chain.required_lower_mm is not None
        and (plan.hole.making == "fit" or (plan.hole.mate and not plan.hole.thread))
    )


def _bands(plan: HolePlan, mate: Mate | None, unit: Unit) -> FitBand:
    hole, chain = plan.hole, plan.chain
    assert chain.required_lower_mm is not None
    assert chain.required_upper_mm is not None
    shaft = (mate.lower_mm, mate.upper_mm) if mate and mate.side == SHAFT else (None, None)
    shown = {
        "required": between(chain.required_lower_mm, chain.required_upper_mm, unit),
        "result": between(chain.result_lower_mm, chain.result_upper_mm, unit),
    }
    lower, upper = shaft
    if lower is not None and upper is not None:
        least, most = chain.required_lower_mm - upper, chain.required_upper_mm - lower
        shown["mate"] = between(lower, upper, unit)
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
        lower,
        upper,
        shown,
    )


def _finishing(plan: HolePlan) -> str:
    """Return the label of the cutter that leaves the diameter."""
    sized = [step for step in plan.chain.steps if step.operation in ("drill", "bore", "ream")]
    return sized[-1].cutter.label if sized else ""


def _signed(value_mm: float, unit: Unit) -> str:
    text = fixed(value_mm / float(unit.mm), 3 if unit is Unit.MM else 4)
    return text if text.startswith("-") or not float(text) else f"+{text}"
