"""A hole is deeper than the quill travels.

What: from a little over the metal down to the tip, for every hole-like step, against the quill's travel.
Why at the machine: the quill stands at its stop with the hole half made; a head that is lowered instead loses its
place.
What to do: lower the knee or head between two strokes if it keeps its place, or drill from both sides.
Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks import limits
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "quill-too-short"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each step with a hole that one stroke does not make."""
    for held, step in case.steps():
        if step.method != "quill" or held.machine.quill_mm <= 0:
            continue
        strokes = [(at.z_from + limits.mm("clear over the work") - at.z_to, at) for at in step.positions]
        stroke, at = max(strokes, key=lambda pair: pair[0])
        if stroke > held.machine.quill_mm + 1e-6:
            found, allowed = case.size(stroke), case.size(held.machine.quill_mm)
            yield At(case, held, step, at.feature).caution(
                CODE,
                f"{at.label} wants a stroke of {found}; the quill travels {allowed}",
                found=found,
                allowed=f"up to {allowed}",
                because="the quill stands at its stop with the hole half made",
                try_="go on in a second stroke with knee or head lowered and locked, or drill from both sides",
            )
