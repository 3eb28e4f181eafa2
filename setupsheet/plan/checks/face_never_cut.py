"""A face has allowance on it, and no setup takes it off.

What: the metal over each machined face of the part when all setups are done.
Why at the machine: the part comes out too long, with a sawn end that nobody meant to keep.
What to do: add face or outline to a setup's do:, or say that this face is used as bought.
Source: open vertical-mill textbook (CC BY-SA 4.0), ch. 5 (allowance on each surface).
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.part.face import Face
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "face-never-cut"


def check(case: Case) -> Iterator[Bite]:
    """Yield an error for each face that stays raw all over."""
    for face in Face:
        over = case.part.stock.remove_mm.get(face, 0.0)
        if face in case.part.stock.as_bought or over <= 0:
            continue
        if case.left_on(face) > 1.0 - 1e-9:
            yield At(case).error(
                CODE,
                f"the {face.value} face stays raw: {case.size(over)} is on it, and no setup takes it off",
                found=f"{case.size(over)} over size",
                allowed="every face finished, or as bought",
                because="the part comes out too large, with a raw face",
                try_=f"add face {face.value} or outline to a do:, or write as-bought for it in remove:",
            )
