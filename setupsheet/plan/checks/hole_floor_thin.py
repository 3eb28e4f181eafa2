"""The point of a blind hole leaves too little floor, or comes through.

What: the finished metal under the tip of every drill of a blind hole.
Why at the machine: the point bulges the other side or breaks through it, into whatever is there.
What to do: drill less deep, finish with a flat-bottomed cutter, or let the hole go right through.
Source: published worked example of drill points (0.30 D under the full diameter); floor 1 mm common practice, no
source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks import limits
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case, Clamped
from setupsheet.plan.record import Position

CODE = "hole-floor-thin"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each blind feature with a thin floor."""
    told: set[str] = set()
    least = limits.mm("least floor under a hole")
    for held, step, at, hole in case.drilled("drill"):
        if hole.through or hole.id in told:
            continue
        floor = _floor(case, held, at)
        if floor < least - 1e-6:
            told.add(hole.id)
            words = (
                f"leaves a floor of {case.size(floor)}"
                if floor > 0
                else "comes out again, into an opening or through the far side"
            )
            yield At(case, held, step, hole.id).caution(
                CODE,
                f"the drill's point at {at.label} {words}",
                found=case.size(max(floor, 0.0)),
                allowed=f"at least {case.size(least)}",
                because="the point bulges the far side or breaks through it",
                try_="drill less deep, finish with a flat cutter, or let the hole go through",
            )


def _floor(case: Case, held: Clamped, at: Position) -> float:
    """Return how much finished metal stands under the tip; 0 or less where it is through."""
    for low, high in case.finished(held, (at.x, at.y)):
        if low < at.z_to - 1e-9 and high > at.z_to - 0.5:
            return at.z_to - low
    return 0.0
