"""A hole is chamfered after it was reamed or tapped.

What: the order of chamfer and countersink against reamer and tap at each hole, over all setups.
Why at the machine: the chamfer pushes a burr into the finished bore or thread: the pin binds, the screw picks up.
What to do: chamfer first where both ends can be reached; else run the reamer or tap through once more by hand.
Source: tapping notes of a tool maker and the open vertical-mill textbook (CC BY-SA 4.0), ch. 14 (countersink first).
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "chamfered-after-reaming"
_FINISHED_BY = {"ream": "reamed", "tap": "tapped"}


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each feature chamfered too late, at that step."""
    finished: dict[str, str] = {}
    told: set[str] = set()
    for held, step, _, hole in case.drilled("ream", "tap", "chamfer", "countersink"):
        if step.operation in _FINISHED_BY:
            finished[hole.id] = _FINISHED_BY[step.operation]
        elif hole.id in finished and hole.id not in told:
            told.add(hole.id)
            tool = "reamer" if finished[hole.id] == "reamed" else "tap"
            yield At(case, held, step, hole.id).caution(
                CODE,
                f"{hole.id} was {finished[hole.id]} before this chamfer",
                found=f"{step.operation} after it was {finished[hole.id]}",
                allowed="chamfer first",
                because="the burr of the chamfer makes the finished bore or thread tight",
                try_=f"run the {tool} through once more by hand",
            )
