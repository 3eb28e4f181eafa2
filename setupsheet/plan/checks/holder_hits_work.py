"""The collet holder comes down on the work or on a jaw before the end mill is at its depth.

What: the highest metal and jaw within the holder's radius along the lowest pass, against how far the mill reaches out
of it.
Why at the machine: the spinning holder rubs or strikes the work; the part is pushed out of the vise.
What to do: hold the cutter farther out, use a longer one, or go there from another side.
Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks import limits, reach, swept
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "holder-hits-work"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each milling step whose holder would touch."""
    for held, step in case.steps():
        out = reach.out_of_holder(step.tool) if (step.moves or step.arcs) and step.tool else 0.0
        if out <= 0 or step.tool is None or not swept.may_exceed(case, held, step, out):
            continue
        tall = swept.highest_under_holder(case, held, step, limits.mm("collet holder diameter") / 2)
        if tall > out + 1e-6:
            yield At(case, held, step, next(iter(step.features), "")).caution(
                CODE,
                f"{case.size(tall)} stand over the floor beside the {step.tool.label}, which reaches {case.size(out)}",
                found=case.size(tall),
                allowed=f"up to {case.size(out)}",
                because="the spinning holder strikes the work and pushes it out of the vise",
                try_="use a longer cutter, or go in from another side",
            )
