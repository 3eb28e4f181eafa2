"""The part, the vise and the longest cutter do not fit under the spindle.

What: table to the top of the part, and over it the cutter with its holder, against the Z travel that the shop file
gives.
Why at the machine: the cutter cannot be lifted over the work to be changed, or does not go under the spindle at all.
What to do: use a shorter cutter or a collet in the place of the chuck, lower parallels, or clamp to the table.
Source: a machine bought without that sum, told on a model engineers' forum (workshop mistakes); common practice.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks import limits, reach
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case, Clamped
from setupsheet.plan.record import Step

CODE = "height-too-small"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for the tallest stack of each setup that is higher than the machine."""
    for held in case.clamped:
        room = held.machine.travel_mm[2] if held.machine.kind == "mill" else 0.0
        stacks = [(_over_table(case, held) + _cutter(step), step) for step in held.setup.steps if step.tool]
        tall = max(stacks, key=lambda pair: pair[0], default=None)
        if tall is not None and tall[0] > room > 0:
            yield _bite(At(case, held, tall[1]), tall[0], room)


def _over_table(case: Case, held: Clamped) -> float:
    """Return how high the top of the metal stands over the table when the setup begins."""
    hold, vise = held.setup.hold, case.vise(held)
    under = [body.high[2] - body.low[2] for body in held.parallels]
    return hold.grip_mm + hold.proud_before_mm + max(under, default=0.0) + (vise.bed_height_mm if vise else 0.0)


def _cutter(step: Step) -> float:
    """Return what hangs under the spindle: holder and cutter."""
    out = reach.out_of_holder(step.tool) if step.tool else 0.0
    return out + limits.mm("drill chuck long" if step.method == "quill" else "collet holder long")


def _bite(at: At, tall: float, room: float) -> Bite:
    size = at.case.size
    return at.caution(
        CODE,
        f"vise, part and cutter stand {size(tall)} high; there is {size(room)} under the spindle",
        found=size(tall),
        allowed=f"up to {size(room)}",
        because="the cutter cannot be put in over the work, nor lifted clear of it",
        try_="use a shorter cutter or a collet instead of the chuck, or lower parallels",
    )
