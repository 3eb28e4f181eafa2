"""A hole is drilled so near an edge, wall or other hole that its side may break out.

What: the metal all round each hole at the moment when it is drilled: it must stand for 1 mm at least.
Why at the machine: the drill pushes the thin side out, runs off towards it, and the edge bulges or tears.
What to do: drill it before that wall or hole is cut; else feed gently, drill under size and bore or ream it.
Source: machining course notes on the order of cuts (holes at edges first); 1 mm common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks import limits, walls
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "hole-breaks-out-at-edge"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each step, once a feature, with the thinnest-walled of its holes."""
    told: set[tuple[int, int, str]] = set()
    for held, step, at, hole in case.drilled("drill", "core drill"):
        key = (held.setup.number, step.number, hole.id)
        if key not in told and walls.thin_when_drilled(case, held, step, at):
            told.add(key)
            least = case.size(limits.mm("least wall at a hole"))
            yield At(case, held, step, hole.id).caution(
                CODE,
                f"less than {least} of metal stands beside {at.label} when it is drilled",
                found=f"under {least}",
                allowed=f"at least {least}",
                because="the drill pushes the thin side out and runs off towards it",
                try_="feed gently; or drill it before that wall or hole is cut",
            )
