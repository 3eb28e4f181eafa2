"""A through drill comes out half in metal and half in an opening.

What: the underside of the metal round each through hole at the moment when it is drilled.
Why at the machine: one lip still cuts when the other is free: the drill grabs, bends and tears the exit.
What to do: drill before the opening is cut, plug it, or ease the feed off well before the breakthrough.
Source: open machine-shop tutorials (MIT), troubleshooting (holes that break into others); common practice.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks import limits, swept
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case, Clamped
from setupsheet.plan.record import Position, Step

CODE = "drill-comes-out-on-an-edge"
_SHARE = 0.9


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each feature with a hole that ends so."""
    told: set[str] = set()
    for held, step, at, hole in case.drilled("drill"):
        if hole.id in told or not hole.through:
            continue
        if _uneven(case, held, step, at) > limits.mm("uneven end of a hole"):
            told.add(hole.id)
            yield At(case, held, step, hole.id).caution(
                CODE,
                f"{at.label} comes out on an edge: half of it is free before the other half",
                found="a step or an opening under the drill's end",
                allowed="one flat surface under the whole hole",
                because="the drill grabs with one lip and tears the exit",
                try_="feed very gently at the end, or drill before that opening is cut",
            )


def _uneven(case: Case, held: Clamped, step: Step, at: Position) -> float:
    """Return how much the end of the metal differs round a hole, where the drill passes it."""
    assert step.tool is not None
    ends = []
    for place in swept.ring((at.x, at.y), step.tool.diameter_mm / 2 * _SHARE, 8):
        spans = case.metal(held, held.gone_at(step), place)
        reached = [low for low, high in spans if high > at.z_full]
        ends.append(max(min(reached), at.z_full) if reached else at.z_from)
    return max(ends) - min(ends)
