"""An end mill has to hang out of its holder by more than four times its diameter.

What: what stands beside the lowest pass within the holder's radius, which the holder has to stay above.
Why at the machine: a long thin cutter bends away from the wall and chatters; the wall comes out sloping.
What to do: use a thicker cutter, go in from another side, or take light passes and the last one twice.
Source: common practice, no source (overhang up to four diameters).
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks import limits, swept
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "cutter-hangs-out"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each milling step with a long cutter."""
    most, radius = limits.factor("most overhang over diameter"), limits.mm("collet holder diameter") / 2
    for held, step in case.steps():
        if step.tool is None or not swept.may_exceed(case, held, step, most * step.tool.diameter_mm - 2.0):
            continue
        out = swept.highest_under_holder(case, held, step, radius) + limits.mm("clear over the work")
        if out > most * step.tool.diameter_mm + 0.5:
            yield At(case, held, step, next(iter(step.features), "")).caution(
                CODE,
                f"the {step.tool.label} hangs out {case.size(out)}, {out / step.tool.diameter_mm:.1f} diameters",
                found=f"{out / step.tool.diameter_mm:.1f} diameters",
                allowed=f"up to {most:g}",
                because="it bends away from the wall, which comes out sloping",
                try_="no farther out than that, half the depth a pass, and the last pass twice",
            )
