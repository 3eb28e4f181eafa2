"""A machined face has too little on it to clean up.

What: what comes off each face against the least for a sawn and for a rolled surface.
Why at the machine: the cut leaves patches of the old skin or saw marks, and the size is already reached.
What to do: saw the blank larger, or use the face as it is bought.
Source: open vertical-mill textbook (CC BY-SA 4.0), ch. 5 (0.8 to 3.2 mm a surface); rolled skin common practice, no
source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.part.face import Face
from setupsheet.plan.checks import limits
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "allowance-too-small"
_SAWN = {"sawn block": (0, 1, 2), "plate": (0, 1), "block": (), "flat bar": (), "square bar": ()}
"""The axes along which each form of stock is sawn; the ends of a bar are added by its longest side."""


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each machined face with too little on it."""
    stock = case.part.stock
    size = stock.box.size
    for face in Face:
        over = stock.remove_mm.get(face, 0.0)
        if face in stock.as_bought or over <= 0:
            continue
        end_of_bar = stock.form in ("flat bar", "square bar") and size[face.axis] == max(size)
        sawn = end_of_bar or face.axis in _SAWN.get(stock.form, ())
        kind = "sawn" if sawn else "rolled"
        least = limits.mm(f"least on a {kind} face")
        if over < least - 1e-6:
            yield At(case).caution(
                CODE,
                f"{case.size(over)} on the {face.value} face, which is {kind}",
                found=case.size(over),
                allowed=f"at least {case.size(least)}",
                because="patches of the old skin stay when the size is reached",
                try_="saw the blank larger, or write as-bought for that face",
            )
