"""A face used as bought varies more than the size that it belongs to.

What: the tolerance of each face used as bought against that of the part's length, width or height.
Why at the machine: nothing is cut there, so the size is what the bar happens to be.
What to do: machine the face, buy finer stock, or open the tolerance of that size.
Source: open vertical-mill textbook (CC BY-SA 4.0), ch. 5 (bought bar is out by 0.25 to 0.4 mm).
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "as-bought-too-coarse"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each face used as bought that is coarser than the size allows."""
    for face, varies in case.part.stock.as_bought.items():
        size = case.part.envelope.get(face) or case.part.envelope.get(face.opposite)
        band = (size.upper_mm - size.lower_mm) / 2 if size else 0.0
        if 0 < band < varies - 1e-6:
            yield At(case).caution(
                CODE,
                f"the {face.value} face is used as bought, ±{case.size(varies)}; its size may vary ±{case.size(band)}",
                found=f"±{case.size(varies)}",
                allowed=f"±{case.size(band)}",
                because="nothing is cut there, so the size is what the bar happens to be",
                try_="measure the bar before you start; else machine that face",
            )
