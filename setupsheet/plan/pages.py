"""The checks before cutting run over a plan, and each caution goes to the page of the setup or step where it bites."""

from __future__ import annotations

from dataclasses import replace

from setupsheet.finding import Finding, Severity
from setupsheet.part.part import Part
from setupsheet.part.shop import Shop
from setupsheet.plan.accept import reason_for
from setupsheet.plan.checks import table
from setupsheet.plan.checks.bite import Bite
from setupsheet.plan.checks.case import Case, Clamped
from setupsheet.plan.checks.near import Near
from setupsheet.plan.record import Plan, Setup
from setupsheet.solid.volumes import finished_volumes


def case_of(part: Part, shop: Shop, plan: Plan, clamped: tuple[Clamped, ...]) -> Case:
    """Return what the checks look at."""
    finished = tuple(shape for volume in finished_volumes(part).values() for shape in volume)
    last = clamped[-1] if clamped else None
    shapes = (*last.gone_before, *(shape for volume in last.takes for shape in volume)) if last else ()
    return Case(part, shop, plan, clamped, Near(part.stock.box, shapes), Near(part.box, finished))


def with_checks(case: Case, others: list[tuple[int, Finding]]) -> tuple[Plan, list[Finding]]:
    """Run every check; return the plan with cautions on its pages, and the findings.

    ``others`` are findings of the planning itself with the number of their setup: they go on its page too.
    """
    bites = table.run(case)
    printed = [*(Bite(finding, number, None, finding.message, finding.message) for number, finding in others), *bites]
    return _on_pages(case.part, case.plan, printed), [bite.finding for bite in bites]


def _on_pages(part: Part, plan: Plan, bites: list[Bite]) -> Plan:
    """Return the plan with each caution where it bites: at a step, on a setup, or among what to watch."""
    told = [bite for bite in bites if bite.finding.severity is Severity.CAUTION]
    setups = tuple(_on_setup(part, setup, [b for b in told if b.setup == setup.number]) for setup in plan.setups)
    watch = tuple(_words(part, bite) for bite in told if bite.setup is None)
    return replace(plan, setups=setups, watch=(*plan.watch, *watch))


def _on_setup(part: Part, setup: Setup, bites: list[Bite]) -> Setup:
    whole = tuple(_words(part, bite) for bite in bites if bite.step is None)
    steps = tuple(
        replace(step, cautions=(*step.cautions, *(_words(part, b) for b in bites if b.step == step.number)))
        for step in setup.steps
    )
    return replace(setup, steps=steps, cautions=(*whole, *setup.cautions))


def _words(part: Part, bite: Bite) -> str:
    """Return what the page says: the caution, or that the author accepts it and why."""
    reason = reason_for(part, bite.finding)
    return f"{bite.fault} (accepted: {reason})" if reason else bite.words
