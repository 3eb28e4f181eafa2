"""A thread is tapped in a hole that is open on one side: into a bore, a pocket, an edge.

What: the metal round each tapped hole over the crests, at the moment of tapping, on all sides and along the whole
thread.
Why at the machine: the tap cuts on one side only, is pushed over, and snaps in the half-open hole.
What to do: tap before the other opening is cut, or plug it.
Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.part.feature import Hole
from setupsheet.plan.checks import swept
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case, Clamped
from setupsheet.plan.checks.near import Spans
from setupsheet.plan.record import Position, Step

CODE = "tap-breaks-into-opening"
_OVER_MM = 0.05


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each tapped feature with such a hole."""
    told: set[str] = set()
    for held, step, at, hole in case.drilled("tap"):
        if hole.id in told or not hole.thread:
            continue
        if _open_side(case, (held, step), at, hole) > max(hole.thread.pitch_mm, 0.5):
            told.add(hole.id)
            yield At(case, held, step, hole.id).caution(
                CODE,
                f"the thread {hole.callout} at {at.label} is open on one side",
                found="metal missing beside the thread",
                allowed="metal all round the thread",
                because="the tap is pushed over and snaps in the half-open hole",
                try_="plug the opening before you tap; better, tap before it is cut",
            )


def _open_side(case: Case, where: tuple[Clamped, Step], at: Position, hole: Hole) -> float:
    """Return the greatest length of thread that lacks metal on some side but not on all."""
    held, step = where
    assert hole.thread is not None
    spot = next(s for s in hole.spots if s.label == at.label)
    low, high = sorted((held.laid.along(2, spot.mouth_mm), held.laid.along(2, spot.exit_mm)))
    radius = hole.thread.major_mm / 2 + _OVER_MM
    gone = held.gone_at(step)
    columns = [_inside(case.metal(held, gone, p), low, high) for p in swept.ring((at.x, at.y), radius)]
    lengths = [sum(b - a for a, b in column) for column in columns]
    return max(lengths) - min(lengths)


def _inside(spans: Spans, low: float, high: float) -> Spans:
    return tuple((max(a, low), min(b, high)) for a, b in spans if b > low and a < high)
