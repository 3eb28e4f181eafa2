"""The edge from which zero is found cannot be touched.

What: the metal at the edge that the edge finder is to touch, at that moment: over the jaws, flat and high enough.
Why at the machine: the finder runs along the jaw or under a slope, and zero is wrong by whatever it touched instead.
What to do: find zero from another edge or from a bore, or lift the part higher in the jaws.
Source: open machine-shop tutorials (MIT), edge finding; open vertical-mill textbook (CC BY-SA 4.0), ch. 7.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks import limits
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case, Clamped
from setupsheet.plan.record import AxisZero

CODE = "edge-not-touchable"
_SIGNS = {"your left": -1, "your right": 1, "your side of it": -1, "behind it": 1}
_ALONG = 15


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each zero whose edge shows too little metal."""
    least = limits.mm("least edge to touch")
    for held in case.clamped:
        for zero in held.setup.zero:
            if zero.method != "edge finder" or zero.side not in _SIGNS:
                continue
            high = _touchable(case, held, zero)
            if high < least - 1e-6:
                yield At(case, held).caution(
                    CODE,
                    f"{zero.axis.upper()} is found from the {zero.touch}: {case.size(high)} of it can be touched",
                    found=case.size(high),
                    allowed=f"at least {case.size(least)}",
                    because="the finder touches the jaw or a slope instead, and zero is wrong",
                    try_="find zero from another edge or a bore, or let the part stand higher",
                )


def _touchable(case: Case, held: Clamped, zero: AxisZero) -> float:
    """Return the greatest height of upright metal at an edge that no jaw hides."""
    index, sign = "xy".index(zero.axis), _SIGNS[zero.side]
    edge = zero.reading - sign * zero.tip_diameter_mm / 2
    stock, other = held.laid.box(case.part.stock.box), 1 - index
    under = held.setup.hold.jaw_top_z if index == 1 and held.in_vise else held.rest_z
    found = 0.0
    for i in range(_ALONG):
        along = stock.low[other] + (stock.high[other] - stock.low[other]) * (i + 0.5) / _ALONG
        inside = edge - sign * 0.05
        spans = case.metal(held, held.gone_first, (inside, along) if index == 0 else (along, inside))
        beyond = case.metal(held, held.gone_first, _outside(index, edge + sign * 0.05, along))
        if spans and not beyond:
            found = max(found, spans[-1][1] - max(spans[-1][0], under))
    return found


def _outside(index: int, across: float, along: float) -> tuple[float, float]:
    return (across, along) if index == 0 else (along, across)
