"""A datum side is milled in two setups, half of it in each.

What: each datum face that is not up: the setups in which metal comes off it.
Why at the machine: a small step stays where the two cuts meet, and whoever measures from that side meets it.
What to do: cut the whole side in one setup, or measure and set up from one half of it only.
Source: common practice, no source (features from both sides carry the errors of both setups).
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from setupsheet.part.face import Face
from setupsheet.plan.checks import positions
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "side-cut-in-two-setups"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each datum side that toleranced positions count from and two setups cut."""
    used = {datum.face for hole in positions.located(case) for datum in positions.datums_of(case, hole) if datum.face}
    for datum in case.part.datums:
        if datum.face is None or datum.face not in used:
            continue
        numbers = _cut_in(case, datum.face)
        if len(numbers) > 1:
            held = case.clamped[numbers[-1] - 1]
            yield At(case, held).caution(
                CODE,
                f"datum {datum.letter}, the {datum.face.value} side, is cut in setups {_listed(numbers)}",
                found=f"{len(numbers)} setups",
                allowed="one setup",
                because="a small step stays where the two cuts meet",
                try_=f"measure from the half that setup {numbers[0]} cut",
            )


def _cut_in(case: Case, face: Face) -> list[int]:
    """Return the setups that bring some of a face to size."""
    left = [case.left_on(face, 0), *(case.left_on(face, held.gone_last) for held in case.clamped)]
    return [number for number, (a, b) in enumerate(pairwise(left), 1) if b < a - 1e-9]


def _listed(numbers: list[int]) -> str:
    return " and ".join(map(str, numbers))
