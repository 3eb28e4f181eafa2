"""A mill runs into a jaw.

What: every move of a cutter lower than the jaws' tops, against the jaws as seen from above.
Why at the machine: the cutter breaks, the jaw is scarred, the part is thrown.
What to do: grip less, let that end hang out past the jaws, or cut that side in another setup.
Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks import swept
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case
from setupsheet.plan.record import Body

CODE = "jaw-in-cutters-way"


def check(case: Case) -> Iterator[Bite]:
    """Yield an error for each step and jaw that meet."""
    for held, step in case.steps():
        if step.tool is None:
            continue
        for jaw in held.jaws:
            radius = step.tool.diameter_mm / 2 - 1e-6
            hits = [m for m in step.moves if m.z < jaw.high[2] - 1e-6 and swept.move_to_box(m, jaw) < radius]
            if hits:
                yield _bite(At(case, held, step, next(iter(step.features), "")), jaw, min(m.z for m in hits))


def _bite(at: At, jaw: Body, z: float) -> Bite:
    label = at.step.tool.label if at.step and at.step.tool else "the cutter"
    return at.error(
        CODE,
        f"the {label} runs {at.case.size(jaw.high[2] - z)} deep into the {jaw.name}",
        found=at.case.size(jaw.high[2] - z),
        allowed="nothing but air lower than the jaws' tops",
        because="the cutter breaks and the part is thrown",
        try_="grip less, let that end hang out past the jaws (overhang:), or cut it in another setup",
    )
