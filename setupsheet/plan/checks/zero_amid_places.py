"""Holes lie on both sides of a zero that is set by an edge, and the axis is read by a dial.

What: on dials, the places of a setup on either side of zero; circles of holes and zeros picked up in a bore left out.
Why at the machine: the dial turns through zero and back: a turn is miscounted, or the screw's play gets into a place.
What to do: put zero at the edge that is touched, so that the usual moves go one way from it.
Source: a hobby machinists' forum (tricks of the trade): choose datums so that the usual moves go one way.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.part.feature import BoltCircle, Hole
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case, Clamped

CODE = "zero-amid-places"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each setup and dial whose zero lies among the holes."""
    for held in case.clamped:
        for zero in held.setup.zero:
            axis = zero.axis.lower()
            if axis == "z" or zero.method == "indicate" or held.setup.readout[axis].kind != "dial":
                continue
            beyond = _beyond(case, held, axis)
            if min(beyond) > 0:
                low, high = beyond
                yield At(case, held).caution(
                    CODE,
                    f"{axis.upper()} is zero at {zero.at}, with holes on both sides of it: {low} on one, {high} on the "
                    "other",
                    found=f"zero at {zero.at}",
                    allowed="zero at an edge, all holes on one side of it",
                    because="the dial turns through zero and back: a turn is miscounted, or the play gets in",
                    try_=f"put the zero of {axis.upper()} at the edge that is touched",
                )


def _beyond(case: Case, held: Clamped, axis: str) -> tuple[int, int]:
    """Return how many places lie on the low and on the high side of zero."""
    low: set[str] = set()
    high: set[str] = set()
    for step in held.setup.steps:
        for at in step.positions:
            hole, value = case.feature(at.feature), getattr(at, axis)
            if isinstance(hole, Hole) and not isinstance(hole.pattern, BoltCircle):
                (low if value < 0 else high).add(at.label)
    return len(low), len(high)
