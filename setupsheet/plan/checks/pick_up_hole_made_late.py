"""A hole that later setups find zero from is not made in the first setup that could make it.

What: every indicated hole: the setup that makes it against the earlier ones with the same axis up.
Why at the machine: the work of the earlier setup has no common reference with the rest, only raw edges.
What to do: make it in the first setup that gives a square face for it.
Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.part.feature import Hole
from setupsheet.plan.checks import positions
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case, Clamped
from setupsheet.plan.places import feature_of

CODE = "pick-up-hole-made-late"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each such hole, once."""
    told: set[str] = set()
    for held in case.clamped:
        for zero in held.setup.zero:
            hole = feature_of(case.part, zero.touch) if zero.method == "indicate" else None
            if not isinstance(hole, Hole) or hole.id in told:
                continue
            made = positions.placed_in(case, hole)
            able = next((h for h in case.clamped if _could(h, hole)), None)
            if made and able and able.setup.number < made[0].setup.number:
                told.add(hole.id)
                yield At(case, *made, hole.id).caution(
                    CODE,
                    f"{hole.id} gives zero later, and setup {able.setup.number} could have made it",
                    found=f"made in setup {made[0].setup.number}",
                    allowed=f"setup {able.setup.number}",
                    because=f"what setup {able.setup.number} cuts has only raw edges in common with the rest",
                    try_=f"add {hole.id} to the do: of setup {able.setup.number}",
                )


def _could(held: Clamped, hole: Hole) -> bool:
    """Tell whether a setup that places something can drill a hole."""
    placed = any(step.features and step.removes for step in held.setup.steps)
    return placed and held.laid.up.axis == hole.face.axis and (hole.through or held.laid.up is hole.face)
