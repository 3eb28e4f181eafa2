"""A position is asked for that the way of making the hole does not hold.

What: each toleranced zone against what punching, drilling by coordinates or boring gives on this machine.
Why at the machine: the drill starts where the punch mark or its own wander lets it, whatever the readout says.
What to do: bore the hole to its place, or open the zone.
Source: common practice, no source (0.1 mm drilled by coordinates; from a punch mark and bored from memory).
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.part.feature import Hole
from setupsheet.plan.checks import limits, positions
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "position-finer-than-process"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each hole whose zone is finer than its process."""
    for hole in case.part.features:
        made = positions.placed_in(case, hole) if isinstance(hole, Hole) and hole.position else None
        if made is None or not isinstance(hole, Hole) or hole.position is None:
            continue
        how = positions.process(case, hole, made[0])
        least = limits.mm(f"zone {how}")
        if hole.position.zone_mm < least - 1e-6:
            yield At(case, *made, hole.id).caution(
                CODE,
                f"{hole.id} is to lie within {case.size(hole.position.zone_mm)}, and {how} holds {case.size(least)}",
                found=case.size(hole.position.zone_mm),
                allowed=f"at least {case.size(least)}",
                because="a drill starts where its own wander lets it, whatever the readout says",
                try_="bore it to its place and measure, or open the zone",
            )
