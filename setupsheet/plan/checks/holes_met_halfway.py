"""Two holes are drilled towards each other from opposite sides and meet inside the part.

What: pairs of blind holes in opposite faces on one line whose depths add up to the thickness between them.
Why at the machine: each comes out where its own setup has zero, so there is a step where they meet, and a shaft or
reamer that goes through both binds.
What to do: drill and bore right through from one side, and only widen the other end afterwards.
Source: common practice, no source (a bore met halfway inherits the errors of both setups).
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations

from setupsheet.part.feature import Hole, Spot
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "holes-met-halfway"
_NEAR_MM = 0.01


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each pair of holes that meet."""
    blind = [f for f in case.part.features if isinstance(f, Hole) and not f.through]
    for one, other in combinations(blind, 2):
        if one.face is other.face.opposite and any(_meet(a, b) for a in one.spots for b in other.spots):
            yield At(case, None, None, other.id).caution(
                CODE,
                f"{one.id} and {other.id} meet inside the part, each made from its own side",
                found=f"{one.face.value} and {other.face.value}",
                allowed="one hole right through, made from one side",
                because="the errors of two setups stand as a step where the holes meet",
                try_="make it one hole through:, and widen the other end with a counterbore",
            )


def _meet(a: Spot, b: Spot) -> bool:
    if math.dist(a.at, b.at) > _NEAR_MM:
        return False
    first, second = (tuple(sorted((spot.mouth_mm, spot.exit_mm))) for spot in (a, b))
    return first[0] <= second[1] + 1e-6 and second[0] <= first[1] + 1e-6
