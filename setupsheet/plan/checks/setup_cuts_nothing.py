"""A setup cuts nothing.

What: the steps of each setup besides breaking its edges.
Why at the machine: the part is clamped, zeroed and taken out again for nothing, or the work meant for it is missing.
What to do: leave the setup out, or look at what its do: names: it may be cut already.
Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "setup-cuts-nothing"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each setup without work."""
    for held in case.clamped:
        if not any(step.features or step.removes for step in held.setup.steps):
            yield At(case, held).caution(
                CODE,
                f"nothing is cut in setup {held.setup.name!r}",
                found=", ".join(held.asked.do) or "no do:",
                allowed="work that is not done yet",
                because="the part is clamped and zeroed for nothing, or the work meant for it is missing",
                try_="leave this setup out, or look whether an earlier one does its work already",
            )
