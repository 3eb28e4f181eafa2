"""A size is to be measured with a gauge that the shop does not have.

What: everything that the plan measures, with the gauge that can reach and is fine enough.
Why at the machine: the size is cut to a guess, and nobody knows whether the part is good.
What to do: borrow or buy the gauge before the part is in the vise, or open the tolerance.
Source: open machine-shop tutorials (MIT), measuring; limits of gauges common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case
from setupsheet.plan.measuring import THEN
from setupsheet.plan.record import Measure

CODE = "no-gauge"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each feature with a size that the shop's gauges cannot measure."""
    owned = {gauge.label for gauge in case.shop.gauges}
    told: set[str] = set()
    for row in case.plan.measure if owned else ():
        if _is_owned(row.gauge, owned) or row.gauge == "screw or plug gauge" or row.feature in told:
            continue
        told.add(row.feature)
        yield _bite(case, row)


def _is_owned(gauge: str, owned: set[str]) -> bool:
    """Tell whether the shop has a gauge, or both of two that are used one after the other."""
    return all(name.removesuffix(" over it") in owned for name in gauge.split(THEN))


def _bite(case: Case, row: Measure) -> Bite:
    after = row.after
    held = next((h for h in case.clamped if after and h.setup.number == after.setup), None)
    step = next((s for s in held.setup.steps if after and s.number == after.step), None) if held else None
    return At(case, held, step, row.feature).caution(
        CODE,
        f"{row.what} {row.shown}: no gauge of the shop spans it and is fine enough",
        found=row.shown,
        allowed="a gauge that spans the size and is fine enough",
        because="the size is cut to a guess, and nobody knows whether the part is good",
        try_=f"borrow one before the part is in the vise{_which(row)}",
    )


def _which(row: Measure) -> str:
    """Return the pins or plugs to borrow, by size; a caliper or micrometer is chosen by the size alone."""
    return f": {row.gauge}" if row.gauge.startswith("plug") else ""
