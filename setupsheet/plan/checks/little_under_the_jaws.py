"""The jaws bear on too little of the part's side.

What: the part's sides at the height of the jaws as they are at that moment, looked at along the jaws' length.
Why at the machine: the part turns in the jaws on the little that they touch, and is marked there.
What to do: turn the part so that whole sides lie against the jaws, or fill the gap with packing.
Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks import limits
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case, Clamped
from setupsheet.plan.record import Body

CODE = "little-under-the-jaws"
_ALONG = 24


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each jaw that touches too small a share of the side before it."""
    for held in case.clamped:
        for jaw in held.jaws:
            share = _share(case, held, jaw)
            if share < limits.factor("least share under a jaw"):
                yield _bite(At(case, held), jaw, share)


def _share(case: Case, held: Clamped, jaw: Body) -> float:
    """Return which share of the metal before a jaw touches it."""
    front = jaw.low[1] <= min(other.low[1] for other in held.jaws)
    plane = jaw.high[1] if front else jaw.low[1]
    stock = held.laid.box(case.part.stock.box)
    low, high = max(jaw.low[0], stock.low[0]), min(jaw.high[0], stock.high[0])
    touching = seen = 0
    for i in range(_ALONG):
        x = low + (high - low) * (i + 0.5) / _ALONG
        for share in (0.2, 0.5, 0.8):
            z = held.rest_z + share * held.setup.hold.grip_mm
            spans = case.metal(held, held.gone_first, (x, z), axis=1)
            if spans:
                seen += 1
                touching += abs((spans[0][0] if front else spans[-1][1]) - plane) < 0.05
    return touching / seen if seen else 0.0


def _bite(at: At, jaw: Body, share: float) -> Bite:
    least = limits.factor("least share under a jaw")
    return at.caution(
        CODE,
        f"the {jaw.name} bears on {share * 100:.0f} % of the side before it",
        found=f"{share * 100:.0f} %",
        allowed=f"at least {least * 100:.0f} %",
        because="the part turns about the little that the jaw touches",
        try_="turn the part so that a whole side lies against the jaw, or put packing into the gap",
    )
