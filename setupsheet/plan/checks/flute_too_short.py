"""An end mill cuts deeper than its flutes are long.

What: the wall that stands beside the lowest pass of each step, against the cutter's flute length.
Why at the machine: the smooth shank rubs on the wall, chips cannot get out, and the cutter snaps.
What to do: use a longer cutter, or one with a necked shank; mill the level from the other side.
Source: Modern Metalworking (2018), p. 472 (levels); common practice.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks import swept
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "flute-too-short"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each step whose wall is higher than the flutes of a cutter with an even shank."""
    for held, step in case.steps():
        tool = step.tool
        if (
            tool is None
            or tool.kind != "end mill"
            or not (step.moves or step.arcs)
            or tool.shank_diameter_mm > tool.diameter_mm
        ):
            continue
        if not swept.may_exceed(case, held, step, tool.flute_length_mm):
            continue
        wall = swept.wall_height(case, held, step)
        if wall > tool.flute_length_mm + 0.1:
            yield At(case, held, step, next(iter(step.features), "")).caution(
                CODE,
                f"the wall is {case.size(wall)} high, the flutes of the {tool.label} {case.size(tool.flute_length_mm)}",
                found=case.size(wall),
                allowed=f"up to {case.size(tool.flute_length_mm)}",
                because="the shank rubs on the wall above the flutes, chips pack, and the cutter snaps",
                try_="use a cutter with longer flutes",
            )
