"""A bore is deep for its boring bar.

What: the depth of every bored hole and ring against the bar's diameter and its reach.
Why at the machine: the bar springs and chatters: the bore comes out bell-mouthed, or the head touches before it is
deep enough.
What to do: use a thicker bar, light passes repeated at one setting, or ream it.
Source: open vertical-mill textbook (CC BY-SA 4.0), ch. 15 (overhang and rigidity); four diameters common practice, no
source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks import limits
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case
from setupsheet.plan.record import Step

CODE = "boring-bar-too-long"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each boring step that is too deep for the shop's bar."""
    head = case.shop.boring_head
    for held, step in case.steps():
        if head is None or step.tool is None or step.tool.kind != "boring head":
            continue
        deep, most = _depth(step), limits.factor("most bar over its diameter") * head.bar_mm
        allowed = min([limit for limit in (most, head.reach_mm) if limit > 0])
        if deep > allowed + 0.6:
            yield At(case, held, step, next(iter(step.features), "")).caution(
                CODE,
                f"{case.size(deep)} deep; the bar, {case.size(head.bar_mm)} thick, reaches {case.size(head.reach_mm)}",
                found=case.size(deep),
                allowed=f"up to {case.size(allowed)}",
                because="the bar springs, and the bore comes out tapered or not deep enough",
                try_="a thicker or longer bar; light passes, the last two at one setting",
            )


def _depth(step: Step) -> float:
    """Return how deep a boring step goes."""
    places = [at.z_from - at.z_to for at in step.positions]
    return max([0.0, *places, *(ring.z_from - ring.z_to for ring in step.rings)])
