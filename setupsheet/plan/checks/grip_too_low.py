"""The jaws hold too little of the part.

What: the height that the jaws grip, against the least that holds at all.
Why at the machine: the first cut lifts the part out of the vise, and the cutter throws it.
What to do: lower parallels, or clamp it to the table.
Source: common practice, no source (least grip 3 mm).
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks import limits
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case, Clamped

CODE = "grip-too-low"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for a low grip, an error where the jaws hold nothing."""
    for held in case.clamped:
        if held.in_vise and held.setup.hold.grip_mm < limits.mm("least grip") - 1e-6:
            yield _bite(case, held)


def _bite(case: Case, held: Clamped) -> Bite:
    grip, least = held.setup.hold.grip_mm, case.size(limits.mm("least grip"))
    at = At(case, held)
    say, words = (
        (at.caution, f"the jaws hold {case.size(grip)} of the part")
        if grip > 0
        else (at.error, "the part lies higher than the jaws: they hold nothing")
    )
    return say(
        CODE,
        words,
        found=case.size(grip),
        allowed=f"at least {least}",
        because="the cutter lifts the part out of the vise",
        try_=f"put it on lower parallels, so that {least} or more is between the jaws",
    )
