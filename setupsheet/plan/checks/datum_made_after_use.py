"""A hole's place counts from a datum that is finished in a later setup.

What: each toleranced position with its datums: the setup that makes the hole against those that finish the datums.
Why at the machine: the hole is placed from a raw edge, and its distance from the datum comes out by chance.
What to do: finish the datum in the same setup or an earlier one.
Source: open vertical-mill textbook (CC BY-SA 4.0), ch. 5 (bought bar is out by 0.25 to 0.4 mm).
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.part.feature import Hole
from setupsheet.plan.checks import positions
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "datum-made-after-use"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each hole and datum in the wrong order."""
    for hole in case.part.features:
        made = positions.placed_in(case, hole) if isinstance(hole, Hole) and hole.position else None
        if made is None or not isinstance(hole, Hole):
            continue
        for datum in positions.datums_of(case, hole):
            later = positions.finished_in(case, datum)
            if later is not None and later > made[0].setup.number:
                yield At(case, *made, hole.id).caution(
                    CODE,
                    f"{hole.id} counts from datum {datum.letter}, which is finished in setup {later}",
                    found=f"setup {made[0].setup.number} before setup {later}",
                    allowed=f"datum {datum.letter} finished first, or in the same setup",
                    because="its distance from the datum comes out by chance",
                    try_=f"make {hole.id} in setup {later}, or finish datum {datum.letter} before it",
                )
