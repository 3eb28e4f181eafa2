"""The drawing counts in one unit and the machine in the other.

What: the unit of the part against that of the machine's axes in each setup.
Why at the machine: a readout that is switched over shows rounded numbers, and figures of two units get mixed on one
bench.
What to do: leave the readout in its own unit, as the setup pages print it, and use the drawing only to look at.
Source: open vertical-mill textbook (CC BY-SA 4.0), ch. 11 (readouts show rounded inches).
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "readout-in-other-unit"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for the first setup on each machine that counts in the other unit."""
    told: set[str] = set()
    for held in case.clamped:
        units = {axis.unit for axis in held.machine.axes.values()}
        other = units - {case.part.unit.value}
        if other and held.machine.name not in told:
            told.add(held.machine.name)
            counts = " and ".join(sorted(other))
            yield At(case, held).caution(
                CODE,
                f"the drawing is in {case.part.unit.value}, {held.machine.name} counts in {counts}",
                found=counts,
                allowed=case.part.unit.value,
                because="figures of two units get mixed, and a readout that is switched over shows rounded ones",
                try_=f"leave the readout in {counts}: every reading on these pages is in it",
            )
