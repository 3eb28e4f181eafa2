"""A pocket, slot, groove or level leaves a very thin floor.

What: the finished metal under each milled floor, looked at over its whole area.
Why at the machine: the floor springs away from the cutter, drums, and is pushed through by the last cut.
What to do: support it from below, mill it last with light cuts, or leave more metal.
Source: common practice, no source (2 mm for walls; 1 mm for floors).
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.part.feature import Level, Pocket, RingGroove, Slot
from setupsheet.plan.checks import limits, openings
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "milled-floor-thin"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each such feature, where it is milled."""
    least = limits.mm("least milled floor")
    for feature in case.part.features:
        if not isinstance(feature, Pocket | Slot | RingGroove | Level):
            continue
        floors = openings.floors(case, feature)
        made = case.made_at(feature.id)
        if floors and made and min(floors) < least - 1e-6:
            thin = case.size(min(floors))
            yield At(case, *made, feature.id).caution(
                CODE,
                f"{feature.id} leaves a floor of {thin}",
                found=thin,
                allowed=f"at least {case.size(least)}",
                because="it springs away from the cutter and is pushed through by the last cut",
                try_="put a packing under it, last cuts light",
            )
