"""A mill runs into what the part rests on.

What: every move of a cutter lower than the rest, against parallels, vise bed and table as seen from above.
Why at the machine: the cutter is ruined on a hard parallel, and the part jumps.
What to do: move the parallels apart, take them out once the part is tight, or stop over the rest and finish from the
other side.
Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks import swept
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "parallel-in-cutters-way"


def check(case: Case) -> Iterator[Bite]:
    """Yield an error for each step and body under the part that meet."""
    for held, step in case.steps():
        if step.tool is None:
            continue
        for body in held.setup.hold.bodies:
            if body in held.jaws:
                continue
            radius = step.tool.diameter_mm / 2 - 1e-6
            hits = [m for m in step.moves if m.z < body.high[2] - 1e-6 and swept.move_to_box(m, body) < radius]
            if hits:
                deep = case.size(body.high[2] - min(m.z for m in hits))
                yield At(case, held, step, next(iter(step.features), "")).error(
                    CODE,
                    f"the {step.tool.label} runs {deep} deep into the {body.name}",
                    found=deep,
                    allowed=f"above the {body.name}, or clear of it",
                    because="the cutter is ruined and the part jumps",
                    try_="move the parallels clear of the opening, or use narrower ones",
                )
