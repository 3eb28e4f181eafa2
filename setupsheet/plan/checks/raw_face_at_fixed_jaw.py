"""A raw face lies at the fixed jaw while the finished one lies at the moving jaw.

What: the two faces in the jaws at that moment, in every setup.
Why at the machine: the fixed jaw gives squareness, the moving one follows; the work is square to a sawn face.
What to do: turn the part so that the finished face bears on the fixed jaw.
Source: open vertical-mill textbook (CC BY-SA 4.0), ch. 5; course notes on squaring a block in a vise.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.part.face import Face
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case, Clamped

CODE = "raw-face-at-fixed-jaw"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each setup that is held the wrong way round."""
    for held in case.clamped:
        if not held.jaws:
            continue
        fixed = Face(held.setup.fixed_jaw)
        if _is_raw(case, held, fixed) and not _is_raw(case, held, fixed.opposite):
            yield At(case, held).caution(
                CODE,
                f"the raw {fixed.value} is at the fixed jaw, the finished {fixed.opposite.value} at the moving jaw",
                found=f"raw {fixed.value}",
                allowed=f"finished {fixed.opposite.value}",
                because="the fixed jaw gives squareness: the work comes out square to a raw face",
                try_=f"turn the part so that its {fixed.opposite.value} face is at the fixed jaw",
            )


def _is_raw(case: Case, held: Clamped, face: Face) -> bool:
    """Tell whether a face is all raw when a setup begins."""
    if face in case.part.stock.as_bought:
        return False
    return case.left_on(face, held.gone_first) > 1.0 - 1e-9
