"""A face is cut after holes were drilled into it in the same setup.

What: the order of the steps of each setup: a facing step against earlier steps that drill from above.
Why at the machine: depths, chamfers and countersinks are set from a surface that goes away later: they come out too
shallow, the facing cutter knocks on every mouth, and its burrs hang in the finished holes.
What to do: name the face first in do:, holes after it; or write as a note why it has to be so.
Source: open machining course notes (face, profile, then inside features); common practice.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "faced-after-holes"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for the first facing step of each setup that comes after holes."""
    for held in case.clamped:
        drilled: list[str] = []
        for step in held.setup.steps:
            if step.operation == "face" and drilled:
                yield At(case, held, step, drilled[0]).caution(
                    CODE,
                    f"the {held.setup.up} is faced after {drilled[0]} was drilled into it",
                    found=f"{drilled[0]} first",
                    allowed="the face first",
                    because="chamfers and depths counted from the face come out too shallow, burrs hang in the holes",
                    try_="name the face before the holes in do:",
                )
                break
            if step.method == "quill" and step.removes:
                drilled += step.features
