"""The few cautions that belong on a page: chosen by the work that is on it, in the order of the table."""

from __future__ import annotations

from collections.abc import Iterable

from setupsheet.plan.record import Step
from setupsheet.tables import loader


def for_everybody() -> tuple[str, ...]:
    """Return the cautions of the front page."""
    return _texts({"always"})


def for_steps(steps: Iterable[Step], *, overhang: bool, clamped: bool = False) -> tuple[str, ...]:
    """Return the cautions for the work of one setup; ``clamped``: to the table, not in jaws."""
    when = {"overhang"} if overhang else set()
    for step in steps:
        when |= {step.method, step.operation}
        if step.operation in ("face", "mill"):
            when |= {"mill", "mill at clamps" if clamped else "mill in jaws"}
        if step.operation in ("pilot", "core drill"):
            when.add("drill")
    return _texts(when)


def _texts(when: set[str]) -> tuple[str, ...]:
    return tuple(row["text"] for row in loader.rows("cautions") if row["when"] in when)
