"""The finished part has very little metal between a hole and an edge, wall or other hole.

What: the finished part all round each hole at its drawn size (threads: over the crests) for 1 mm outwards.
Why at the machine: deburring or a screw's pull opens it; a cutter that passes there later tears it out.
What to do: move the hole inwards, make it smaller, or leave more metal there.
Source: machining course notes on the order of cuts (holes at edges); 1 mm common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks import limits, walls
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "wall-beside-hole-thin"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each hole whose wall was thick when it was drilled and is thin in the end."""
    told: set[str] = set()
    for held, step, at, hole in case.drilled("drill", "core drill"):
        if hole.id in told or walls.thin_when_drilled(case, held, step, at):
            continue
        radius = (hole.thread.major_mm if hole.thread else hole.diameter.nominal_mm) / 2
        if walls.thin(lambda p, held=held: case.finished(held, p), at, radius):  # type: ignore[misc]
            told.add(hole.id)
            least = case.size(limits.mm("least wall at a hole"))
            yield At(case, held, step, hole.id).caution(
                CODE,
                f"less than {least} of metal is left beside {at.label} in the finished part",
                found=f"under {least}",
                allowed=f"at least {least}",
                because="a thin wall beside a hole tears when its other side is cut or a screw pulls",
                try_="drill first and cut that wall last, with light cuts; or move the hole inwards",
            )
