"""A datum face is cut away by the part's own features.

What: the finished part over the whole plane of each datum face.
Why at the machine: nobody can measure or set up from a face that is no longer there.
What to do: name another face as the datum, or leave a part of this one standing.
Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks import limits
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "datum-removed"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each datum face of which next to nothing is left."""
    for datum in case.part.datums:
        if datum.face is None:
            continue
        share = case.share_of(datum.face)
        if share < limits.factor("least share of a datum face"):
            yield At(case).caution(
                CODE,
                f"datum {datum.letter}, the {datum.face.value} face, is cut away: {share * 100:.0f} % of it is left",
                found=f"{share * 100:.0f} %",
                allowed=f"at least {limits.factor('least share of a datum face') * 100:.0f} %",
                because="nobody can measure or set up from a face that is no longer there",
                try_="name another face as the datum",
            )
