"""A hole is deeper than the drill's flutes are long.

What: from the metal's surface down to the tip, against the flute length (jobber length where the shop file gives
none).
Why at the machine: once the flutes are below the surface the chips stay in the hole, the drill jams and breaks.
What to do: use a long drill after a short one, or drill from both sides.
Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks import reach
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "drill-too-short"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each drilling step that buries the flutes."""
    for held, step in case.steps():
        if step.tool is None or step.tool.kind != "drill" or not step.positions:
            continue
        flutes = reach.flutes(case, step.tool)
        at = max(step.positions, key=lambda place: place.z_from - place.z_to)
        deep = at.z_from - at.z_to
        if 0 < flutes < deep - 1e-6:
            yield At(case, held, step, at.feature).caution(
                CODE,
                f"{at.label} is {case.size(deep)} deep, and the {step.tool.label} has {case.size(flutes)} of flutes",
                found=case.size(deep),
                allowed=f"up to {case.size(flutes)}",
                because="the chips stay in the hole, the drill jams and breaks",
                try_="go on with a long drill of the same size, out often to clear the chips",
            )
