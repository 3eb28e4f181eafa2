"""The drill chuck comes down on standing metal or a jaw before the drill is at its depth.

What: the highest metal and jaw within the chuck's radius of each hole, against how far the drill reaches out of the
chuck.
Why at the machine: the chuck rubs on the wall beside the hole, and the hole is pushed over and not deep enough.
What to do: hold the drill farther out, use a long one, or drill before the wall beside it is left standing.
Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks import limits, reach, swept
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case, Clamped
from setupsheet.plan.record import Position, Step

CODE = "chuck-hits-work"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each step with a hole where the chuck would touch."""
    for held, step in case.steps():
        out = reach.out_of_holder(step.tool) if step.method == "quill" and step.tool else 0.0
        if out <= 0:
            continue
        tall, at = max(((_tall(case, held, step, at), at) for at in step.positions), key=lambda pair: pair[0])
        if tall > out + 1e-6:
            yield At(case, held, step, at.feature).caution(
                CODE,
                f"{case.size(tall)} stand over the end of {at.label} beside the drill, which reaches {case.size(out)}",
                found=case.size(tall),
                allowed=f"up to {case.size(out)}",
                because="the chuck rubs on the metal beside the hole before the hole is deep enough",
                try_="hold the drill farther out or use a long one",
            )


def _tall(case: Case, held: Clamped, step: Step, at: Position) -> float:
    """Return how high metal, a jaw or a clamp stands over the tip within the chuck's radius."""
    radius, gone = limits.mm("drill chuck diameter") / 2, held.gone_at(step)
    jaws = [body.high[2] for body in held.raised if swept.to_box((at.x, at.y), body) < radius]
    spans = [case.metal(held, gone, near) for near in swept.ring((at.x, at.y), radius * 0.8, 6)]
    return max([at.z_from, *jaws, *(span[-1][1] for span in spans if span)]) - at.z_to
