"""A drill runs down into a jaw.

What: every drill, reamer or countersink that goes lower than the jaws' tops, against the jaws as seen from above.
Why at the machine: the drill is pushed off sideways and breaks in the hole.
What to do: grip less, or move the part along so that the hole lies past the jaws.
Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks import swept
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "drill-into-jaw"


def check(case: Case) -> Iterator[Bite]:
    """Yield an error for every place where a drill meets a jaw."""
    for held, step in case.steps():
        if step.method != "quill" or step.tool is None:
            continue
        radius = step.tool.diameter_mm / 2
        for at in step.positions:
            for jaw in held.jaws:
                if at.z_to < jaw.high[2] - 1e-6 and swept.to_box((at.x, at.y), jaw) < radius - 1e-6:
                    yield At(case, held, step, at.feature).error(
                        CODE,
                        f"the {step.tool.label} at {at.label} runs into the {jaw.name}",
                        found=f"tip at Z {at.shown['z']}",
                        allowed="clear of the jaws, or above their tops",
                        because="the drill is pushed off sideways and breaks in the hole",
                        try_="grip less, or move the part along so that the hole lies past the jaws",
                    )
