"""The part is clamped on its top, and cutters go over every place where a clamp could stand.

What: whether two clamps found places along the rim of the part, 1 mm clear of the ways of all cutters of the setup,
over metal that rests on the table or its packing.
Why at the machine: the cutter runs into a clamp, or the clamp is moved with the part half cut and zero is lost.
What to do: hold it in the vise, or do the work in two clampings with the clamps moved one by one.
Source: common practice, no source (cutter path and radius and 1 mm against the clamps).
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "clamps-have-no-place"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each setup on the table in which no two clamps find a place."""
    for held in case.clamped:
        hold = held.setup.hold
        if hold.in_ == "clamps" and not any(body.name.startswith("clamp ") for body in hold.bodies):
            yield At(case, held).caution(
                CODE,
                "cutters go over the whole rim of the top: no place is left for two clamps",
                found="no two free places",
                allowed="free places on two sides",
                because="the cutter runs into a clamp, or zero is lost when a clamp is moved",
                try_="hold it in the vise; else move one clamp at a time, never two",
            )
