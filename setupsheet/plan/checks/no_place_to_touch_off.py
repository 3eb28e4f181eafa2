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
from setupsheet.plan.record import Step
from setupsheet.plan.setup.sequence import NO_TOUCH

CODE = "no-place-to-touch-off"


def _stays(step: Step) -> bool:
    """Tell whether a step goes on where the table is locked, right through: its depth needs no Z."""
    return any(words.startswith(NO_TOUCH) for words in step.words)


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each new cutter without a touch-off."""
    for held in case.clamped:
        before = ""
        for step in held.setup.steps:
            label = step.tool.label if step.tool else ""
            if label and label != before and step.removes and step.touch_off is None and not _stays(step):
                yield At(case, held, step, next(iter(step.features), "")).caution(
                    CODE,
                    f"no flat surface is left on which the {label} can find Z",
                    found="no place 1.5 mm clear of edges and holes",
                    allowed="a flat place that nothing in this setup cuts",
                    because="Z is lost with every change of cutter, and a guess plunges too deep",
                    try_="set Z on a block of known height that stands on the parallels or the jaw",
                )
            before = label or before
