"""A later setup finds zero from a raw edge, and places features from it.

What: what the edge finder touches in each setup after the first, where holes or walls are placed along that axis.
Why at the machine: the raw edge is out by some tenths, so the two sides of the part do not meet.
What to do: finish that edge in an earlier setup, or indicate a bore that was made there. A raw lip over a finished
side is measured from that side, so that it is as good as finished.
Source: open vertical-mill textbook (CC BY-SA 4.0), ch. 5 (bought bar is out by 0.25 to 0.4 mm).
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.part.feature import CornerRadius, EdgeCut, Hole, Level, Pocket, RingGroove, RoundBoss, RoundedEnd, Slot
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case, Clamped

CODE = "zero-from-raw-edge"
_PLACED = (Hole, Pocket, Slot, RingGroove, RoundBoss, CornerRadius, RoundedEnd, EdgeCut)


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each such setup."""
    for held in case.clamped[1:]:
        if not _places_something(case, held):
            continue
        touched = [zero for zero in held.setup.zero if zero.method == "edge finder"]
        raw = [zero for zero in touched if zero.touch.startswith("raw") and not zero.touch.startswith("raw lip")]
        if raw:
            axes, edges = (" and ".join(words) for words in zip(*((z.axis.upper(), z.touch) for z in raw), strict=True))
            yield At(case, held).caution(
                CODE,
                f"{axes} found from the {edges}, and features are placed from there",
                found=edges,
                allowed="a finished edge, or a bore made before",
                because="a raw edge is out by tenths, and the two sides of the part do not meet",
                try_="measure from a finished face to that edge first; better, find zero from a bore or finished edge",
            )


def _places_something(case: Case, held: Clamped) -> bool:
    """Tell whether a setup makes a feature whose place along X and Y counts."""
    found = [case.feature(id_) for step in held.setup.steps for id_ in step.features]
    return any(isinstance(f, _PLACED) or (isinstance(f, Level) and f.area is not None) for f in found)
