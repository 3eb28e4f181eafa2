"""Two holes run into each other inside the part.

What: the axes and lengths of all holes drilled from faces that are square to each other.
Why at the machine: the second drill grabs and wanders where it breaks into the first hole, and often snaps.
What to do: drill the larger hole first, plug it with a rod, and ease off where the second breaks through.
Source: open machine-shop tutorials (MIT), troubleshooting (crossing an existing hole); order common practice, no
source.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from setupsheet.part.feature import Hole, Spot
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "holes-cross"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each pair of features that cross, at the drilling of the second."""
    holes = [f for f in case.part.features if isinstance(f, Hole)]
    for one, other in combinations(holes, 2):
        if one.face.axis == other.face.axis:
            continue
        labels = next(((a.label, b.label) for a in one.spots for b in other.spots if _meet(one, a, other, b)), None)
        if labels:
            yield from _bites(case, one, other)


def _meet(one: Hole, a: Spot, other: Hole, b: Spot) -> bool:
    """Tell whether two holes square to each other share room."""
    i, j = one.face.axis, other.face.axis
    third = 3 - i - j
    at_a = dict(zip(one.face.in_plane, a.at, strict=True))
    at_b = dict(zip(other.face.in_plane, b.at, strict=True))
    ra, rb = one.diameter.nominal_mm / 2, other.diameter.nominal_mm / 2
    if abs(at_a[third] - at_b[third]) >= ra + rb - 1e-6:
        return False
    return _within(at_b[i], a, rb) and _within(at_a[j], b, ra)


def _within(along: float, spot: Spot, radius: float) -> bool:
    low, high = sorted((spot.mouth_mm, spot.exit_mm))
    return low - radius < along < high + radius


def _bites(case: Case, one: Hole, other: Hole) -> Iterator[Bite]:
    """Yield the caution where the second of the two is drilled."""
    drilled = [(held, step, hole) for held, step, _, hole in case.drilled("drill") if hole.id in (one.id, other.id)]
    ids = list(dict.fromkeys(hole.id for _, _, hole in drilled))
    if len(ids) < 2:
        return
    held, step, second = next(row for row in drilled if row[2].id == ids[1])
    first = one if second.id == other.id else other
    wrong = second.diameter.nominal_mm > first.diameter.nominal_mm + 1e-6
    order = f"drill {second.id}, the larger one, first" if wrong else f"plug {first.id} with a rod"
    yield At(case, held, step, second.id).caution(
        CODE,
        f"{second.id} breaks into {first.id}",
        found=f"{second.id} after {first.id}",
        allowed="the larger first",
        because="the drill grabs and wanders where it breaks into another hole",
        try_=f"{order}, and ease off where it breaks through",
    )
