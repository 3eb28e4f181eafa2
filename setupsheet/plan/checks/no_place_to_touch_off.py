"""A new cutter finds no surface on which its height can be set.

What: every change of cutter with the surfaces that stand then, clear of edges and holes.
Why at the machine: Z is lost with every cutter on a manual mill; set by guess, the first plunge is too deep.
What to do: touch off on the fixed jaw or on a block of known height, and key in that height.
Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "no-place-to-touch-off"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each new cutter without a touch-off."""
    for held in case.clamped:
        before = ""
        for step in held.setup.steps:
            label = step.tool.label if step.tool else ""
            if label and label != before and step.removes and step.touch_off is None:
                yield At(case, held, step, next(iter(step.features), "")).caution(
                    CODE,
                    f"no flat surface is left on which the {label} can find Z",
                    found="no place 1.5 mm clear of edges and holes",
                    allowed="a flat place that nothing in this setup cuts",
                    because="Z is lost with every change of cutter, and a guess plunges too deep",
                    try_="set Z on a block of known height that stands on the parallels or the jaw",
                )
            before = label or before
