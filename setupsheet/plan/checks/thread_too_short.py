"""A thread has too little length for what its material bears.

What: the full thread of each tapped hole against the least that holds a screw in that material.
Why at the machine: the screw strips the thread when it is tightened, often at the last turn of assembly.
What to do: make the thread deeper or the boss higher, or take a smaller screw or a threaded insert.
Source: the table of thread practice (full thread in diameters by material), each row with its own source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.part.feature import Hole
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case
from setupsheet.tables import tapping

CODE = "thread-too-short"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each tapped feature with too little thread, where it is tapped."""
    told: set[str] = set()
    for held, step, at, hole in case.drilled("tap"):
        if hole.id in told or hole.thread is None:
            continue
        least = tapping.least_full_thread_mm(hole.thread, case.part.material_group)
        length = _length(hole, at.label)
        if length < least - 0.05:
            told.add(hole.id)
            yield At(case, held, step, hole.id).caution(
                CODE,
                f"{hole.callout} has {case.size(length)} of thread",
                found=case.size(length),
                allowed=f"at least {case.size(least)} in {case.part.material}",
                because="the screw strips the thread when it is tightened",
                try_="tighten with care; better a deeper thread, a smaller screw or an insert",
            )


def _length(hole: Hole, label: str) -> float:
    """Return the full thread at a place: as written, or from mouth to exit."""
    if hole.depth_mm is not None:
        return hole.depth_mm
    spot = next(s for s in hole.spots if s.label == label)
    return abs(spot.mouth_mm - spot.exit_mm)
