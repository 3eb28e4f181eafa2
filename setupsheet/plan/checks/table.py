"""The list of checks, and the one door that runs them all."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from setupsheet.finding import Finding
from setupsheet.plan.checks import drill_into_parallel
from setupsheet.plan.checks.case import Case

CHECKS: tuple[Callable[[Case], Iterator[Finding]], ...] = (drill_into_parallel.check,)


def run(case: Case) -> list[Finding]:
    """Return what every check finds, in the order of the list."""
    return [finding for check in CHECKS for finding in check(case)]
