"""After the part is turned over, an axis has no zero of its own in the spec.

What: every setup after the first that places something, with the axes whose zero the spec leaves open.
Why at the machine: the old zero is believed, and everything on this side is off by what the part moved.
What to do: write in zero: what is touched or indicated in this setup.
Source: common practice, no source (never trust the first zero after a turn-over).
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "zero-not-found-again"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each later setup of the spec that leaves the zero of an axis open."""
    for held in case.clamped[1:] if case.part.setups else ():
        placed = any(step.removes and step.tool for step in held.setup.steps)
        hold = held.asked.hold
        named = "xy" if hold is not None and hold.centred else ""
        open_ = [axis for axis in "xyz" if axis not in held.asked.zero and axis not in named]
        if placed and open_:
            names = " and ".join(axis.upper() for axis in open_)
            yield At(case, held).caution(
                CODE,
                f"the spec does not say how {names} is found after the part is turned",
                found=f"no zero: for {names}",
                allowed="x, y and z in zero:",
                because="the old zero is believed, and this side comes out shifted",
                try_="find zero as said under zero, then measure one known size before the first cut",
            )
