"""The cutters of a setup differ by more than the quill, on a machine whose head loses its place when it is moved.

What: the lengths of all cutters of a setup against the quill, where the shop file says that the head does not keep
its place.
Why at the machine: the head has to be raised for the long cutter; when it comes down, X and Y are no longer zero.
What to do: hold the short cutters farther out, do the long drills last, or find zero again after each time the head
moves.
Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks import reach
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case, Clamped

CODE = "zero-lost-with-head"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each setup whose cutters are not all within the quill."""
    for held in case.clamped:
        if held.machine.head_keeps_place or held.machine.quill_mm <= 0:
            continue
        known = _lengths(held)
        if known and max(known.values()) - min(known.values()) > held.machine.quill_mm + 1e-6:
            yield _bite(At(case, held), known)


def _lengths(held: Clamped) -> dict[str, float]:
    """Return how far each cutter of a setup comes out of its holder, where its length is known."""
    tools = {step.tool.label: step.tool for step in held.setup.steps if step.tool}
    lengths = {label: reach.out_of_holder(tool) for label, tool in tools.items()}
    return {label: length for label, length in lengths.items() if length > 0}


def _bite(at: At, known: dict[str, float]) -> Bite:
    longest, shortest = max(known, key=lambda n: (known[n], n)), min(known, key=lambda n: (known[n], n))
    quill = at.held.machine.quill_mm if at.held else 0.0
    apart = at.case.size(known[longest] - known[shortest])
    return at.caution(
        CODE,
        f"{longest} is {apart} longer than {shortest}: the head must be moved, and then zero is lost",
        found=apart,
        allowed=f"up to {at.case.size(quill)}, the quill's travel",
        because="a head on a round column swings when it is raised: holes no longer stand where they should",
        try_="find zero in X and Y again after every move of the head",
    )
