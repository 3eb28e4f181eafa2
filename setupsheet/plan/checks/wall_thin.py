"""A pocket, slot or groove leaves a very thin wall.

What: lines across the finished part at half the depth of each opening: the metal right beside it.
Why at the machine: the wall bends away from the cutter: it comes out thick at the top, wavy, and may tear.
What to do: finish it with light cuts from top to bottom, with the hollow on its other side filled; leave it to the
end.
Source: machining course notes (thin walls last); 2 mm common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.part.feature import Pocket, RingGroove, Slot
from setupsheet.plan.checks import limits, openings
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "wall-thin"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each opening with a thin wall, where it is milled."""
    least = limits.mm("least wall")
    for feature in case.part.features:
        if not isinstance(feature, Pocket | Slot | RingGroove):
            continue
        walls = openings.walls(case, feature)
        made = case.made_at(feature.id)
        if walls and made and min(walls) < least - 1e-6:
            thin = case.size(min(walls))
            yield At(case, *made, feature.id).caution(
                CODE,
                f"{feature.id} leaves a wall of {thin}",
                found=thin,
                allowed=f"at least {case.size(least)}",
                because="it bends away from the cutter and comes out thick, wavy or torn",
                try_="light cuts along it, a block in the hollow behind it",
            )
