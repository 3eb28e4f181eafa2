"""The part stands higher over the jaws than twice what they grip.

What: the finished height of the part over the jaws against the grip: less than a third of it is in the jaws.
Why at the machine: the cut has a long lever on the jaws: the part rocks, chatters and works loose.
What to do: lower parallels, light cuts, or a support against the far side.
Source: common practice, no source (grip at least a third of the height, no more than twice the grip above the jaws).
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks import limits
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "stands-too-proud"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each setup whose part stands too high over the jaws."""
    for held in case.clamped:
        hold = held.setup.hold
        allowed = limits.factor("most proud over grip") * hold.grip_mm
        proud = held.laid.box(case.part.box).size[2] - hold.grip_mm
        if held.in_vise and hold.grip_mm > 0 and proud > allowed + 0.1:
            yield At(case, held).caution(
                CODE,
                f"{case.size(proud)} stand over the jaws, which hold {case.size(hold.grip_mm)}",
                found=case.size(proud),
                allowed=f"up to {case.size(allowed)}, twice the grip",
                because="the part rocks in the jaws, chatters and works loose",
                try_="grip deeper on lower parallels; else light cuts, and towards the fixed jaw",
            )
