"""A countersink or counterbore runs into a wall beside its hole.

What: the whole body of each mouth cutter, not only the mouth it makes, against metal that stands beside the hole
then.
Why at the machine: the wide part of the cutter gouges the wall before the mouth is deep enough.
What to do: use a smaller countersink or counterbore, or make the mouth before that wall is left standing.
Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks import swept
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case, Clamped
from setupsheet.plan.record import Position, Step

CODE = "mouth-cutter-hits-wall"


def check(case: Case) -> Iterator[Bite]:
    """Yield an error for each feature whose mouth cutter meets a wall."""
    told: set[str] = set()
    for held, step, at, hole in case.drilled("countersink", "chamfer", "counterbore", "spotface"):
        if hole.id in told or step.tool is None:
            continue
        spot = next(s for s in hole.spots if s.label == at.label)
        mouth = max(held.laid.along(2, spot.mouth_mm), held.laid.along(2, spot.exit_mm))
        if _meets(case, (held, step), at, mouth):
            told.add(hole.id)
            yield At(case, held, step, hole.id).error(
                CODE,
                f"the {step.tool.label} at {at.label} runs into a wall beside the hole",
                found="a wall within the cutter's radius",
                allowed=f"{case.size(step.tool.diameter_mm / 2)} clear all round",
                because="the wide part of the cutter gouges the wall",
                try_="use a smaller one, or make the mouth before that wall stands alone",
            )


def _meets(case: Case, where: tuple[Clamped, Step], at: Position, mouth: float) -> bool:
    """Tell whether metal stands higher than the mouth where the cutter's body comes down."""
    held, step = where
    assert step.tool is not None
    for radius, height in step.tool.profile:
        z = max(at.z_to + height, mouth)
        for place in swept.ring((at.x, at.y), radius - 0.05, 12) if radius > 0.1 else ():
            spans = case.metal(held, held.gone_at(step), place)
            if spans and spans[-1][1] > z + 0.1:
                return True
    return False
