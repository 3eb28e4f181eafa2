"""A toleranced position is reached over so many steps that they use up its zone.

What: for each toleranced hole: its own drilling, and, where its datum was made in another setup, finding zero again.
Why at the machine: every step is done with care, and the hole is out of its zone all the same.
What to do: make hole and datum in one setup, indicate the datum itself, or open the zone.
Source: open vertical-mill textbook (CC BY-SA 4.0), ch. 7 (measure from one corner); amounts common practice, no
source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.part.feature import Hole
from setupsheet.plan.checks import positions
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "position-chain-too-long"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each hole whose chain is longer than half its zone; a chain of one has its own check."""
    for hole in case.part.features:
        made = positions.placed_in(case, hole) if isinstance(hole, Hole) and hole.position else None
        if made is None or not isinstance(hole, Hole) or hole.position is None:
            continue
        links = positions.chain(case, hole, made)
        total = sum(amount for _, amount in links)
        if len(links) > 1 and total > hole.position.zone_mm / 2 + 1e-6:
            words = ", ".join(f"{name} {case.size(amount)}" for name, amount in links)
            yield At(case, *made, hole.id).caution(
                CODE,
                f"{hole.id} may be out by {case.size(total)}: {words}",
                found=case.size(total),
                allowed=f"{case.size(hole.position.zone_mm / 2)}, half of its zone",
                because="every step is done with care, and the hole is out of its zone all the same",
                try_="make it in the setup that makes its datum, or find zero from that datum itself",
            )
