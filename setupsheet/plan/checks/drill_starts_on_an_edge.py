"""The first cutter of a hole starts half on metal and half beside it, or on two heights.

What: the surface under each hole's circle at the moment when its first cutter comes down.
Why at the machine: the point slides off to the low side; the hole is out of place and the drill bends or breaks.
What to do: drill before the step is cut, clear the step first, or start with an end mill of the hole's size.
Source: common practice, no source (drill after stepping down when the step is the mouth, before it when half lies
outside).
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks import limits, swept
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "drill-starts-on-an-edge"
_SHARE = 0.8
"""The surface is looked at on a circle of this share of the hole."""


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each feature with a hole that starts so."""
    started: set[tuple[str, str]] = set()
    told: set[str] = set()
    for held, step, at, hole in case.drilled("spot", "pilot", "drill"):
        if (hole.id, at.label) in started or hole.id in told:
            continue
        started.add((hole.id, at.label))
        places = swept.ring((at.x, at.y), hole.diameter.nominal_mm / 2 * _SHARE, 8)
        spans = [case.metal(held, held.gone_at(step), place) for place in places]
        tops = [span[-1][1] for span in spans if span]
        if tops and (len(tops) < len(spans) or max(tops) - min(tops) > limits.mm("uneven start of a hole")):
            told.add(hole.id)
            yield At(case, held, step, hole.id).caution(
                CODE,
                f"{at.label} starts on an edge: the metal under it is not of one height",
                found="a step or an edge under the drill",
                allowed="one flat surface under the whole hole",
                because="the point slides off to the low side, and the hole is out of place",
                try_="drill it before that edge is cut, or start it with an end mill of the hole's size",
            )
