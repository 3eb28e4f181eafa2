"""The part is turned over, and another face comes to the fixed jaw.

What: two setups one after the other with opposite faces up: which face lies at the fixed jaw in each.
Why at the machine: the two sides are squared to different faces, and what those differ by shows between them.
What to do: keep the same face at the fixed jaw; where that cannot be, measure the other one against it first.
Source: common practice, no source (same face at the fixed jaw, same end at the stop).
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "other-face-at-fixed-jaw"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each such pair of setups in the vise."""
    for before, held in pairwise(case.clamped):
        over = before.laid.up is held.laid.up.opposite and before.in_vise and held.in_vise
        was, is_ = before.setup.fixed_jaw, held.setup.fixed_jaw
        if over and was != is_:
            yield At(case, held).caution(
                CODE,
                f"the {is_} face is at the fixed jaw now, the {was} face was before",
                found=is_,
                allowed=was,
                because="the two sides are squared to different faces, and their difference shows",
                try_=f"measure that {was} and {is_} are parallel first; better, keep the {was} face at the fixed jaw",
            )
