"""A tap reaches the bottom of a blind hole before the thread is deep enough.

What: the drilled depth below the full thread against the lead of the tap that is used.
Why at the machine: the tap stops hard on the bottom and snaps, or the last threads are not full.
What to do: drill deeper, or finish with a bottoming tap.
Source: hand cutting of metric threads, club magazine (two threads deeper); leads of taps from memory (ISO 8830).
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.part.feature import Hole
from setupsheet.part.size import Thread
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case
from setupsheet.tables import tapping

CODE = "tap-hits-bottom"
_LEADS = {"taper": "taper", "second": "second", "plug": "second", "bottoming": "bottoming", "spiral flute": "bottoming"}


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each blind tapped feature whose drilled depth leaves the tap too little room."""
    told: set[str] = set()
    for held, step, at, hole in case.drilled("tap"):
        if hole.through or hole.id in told or hole.thread is None or hole.depth_mm is None or step.tool is None:
            continue
        cutter = case.cutter(step.tool.label)
        lead = _lead(hole.thread, cutter.tap_kind if cutter else "")
        room = _drilled(case, hole, at.label) - hole.depth_mm
        if room < lead - 1e-3:
            told.add(hole.id)
            yield At(case, held, step, hole.id).caution(
                CODE,
                f"{case.size(room)} under the thread of {hole.id}; the lead of its tap takes {case.size(lead)}",
                found=case.size(room),
                allowed=f"at least {case.size(lead)}",
                because="the tap stops hard on the bottom and snaps, or the last threads are not full",
                try_=f"count the turns and stop short; drill {case.size(hole.depth_mm + lead)}, or get a bottoming tap",
            )


def _lead(thread: Thread, kind: str) -> float:
    return tapping.lead_mm(thread, _LEADS.get(kind, "second"))


def _drilled(case: Case, hole: Hole, label: str) -> float:
    """Return how deep the full diameter of the tap drill goes below the finished mouth."""
    for held, _, at, drilled in case.drilled("drill"):
        if drilled.id == hole.id and at.label == label:
            spot = next(s for s in hole.spots if s.label == label)
            return held.laid.along(2, spot.mouth_mm) - at.z_full
    return hole.drill_depth_mm or 0.0
