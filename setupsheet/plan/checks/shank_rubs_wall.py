"""The thick shank of an end mill meets the wall that its flutes have cut.

What: the wall beside the lowest pass against the flute length, for cutters whose shank is thicker than they are.
Why at the machine: the shoulder of the shank runs into the top of the wall: it gouges it, and the cutter breaks.
What to do: use a cutter with longer flutes or an even shank.
Source: Modern Metalworking (2018), p. 472 (levels); common practice.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks import swept
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "shank-rubs-wall"


def check(case: Case) -> Iterator[Bite]:
    """Yield an error for each step whose wall is higher than the flutes below a thicker shank."""
    for held, step in case.steps():
        tool = step.tool
        if (
            tool is None
            or tool.kind != "end mill"
            or not (step.moves or step.arcs)
            or tool.shank_diameter_mm <= tool.diameter_mm
        ):
            continue
        if not swept.may_exceed(case, held, step, tool.flute_length_mm):
            continue
        wall = swept.wall_height(case, held, step)
        if wall > tool.flute_length_mm + 1e-3:
            shank, flutes = case.size(tool.shank_diameter_mm), case.size(tool.flute_length_mm)
            yield At(case, held, step, next(iter(step.features), "")).error(
                CODE,
                f"the wall is {case.size(wall)} high; over {flutes} the {tool.label} is {shank} thick",
                found=case.size(wall),
                allowed=f"up to {case.size(tool.flute_length_mm)}",
                because="the shoulder of the shank gouges the top of the wall and breaks the cutter",
                try_="use a cutter with longer flutes or with an even shank",
            )
