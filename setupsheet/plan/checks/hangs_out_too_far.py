"""More of the part hangs out past the jaws than lies between them.

What: the part's length past either end of the jaws against the length that they hold.
Why at the machine: the free end springs away from the cutter and sings; a heavy cut turns the part in the jaws.
What to do: move the part in, hold it the other way round, or put a jack under the free end.
Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks import limits
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case, Clamped

CODE = "hangs-out-too-far"
_ALONG = 60


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each setup with a long free end."""
    for held in case.clamped:
        if not held.jaws:
            continue
        low, high = _extent(case, held)
        start, end = held.jaws[0].low[0], held.jaws[0].high[0]
        between = min(high, end) - max(low, start)
        out = max(start - low, high - end)
        if out > limits.factor("most out over held") * max(between, 0.0) + 1e-6:
            yield At(case, held).caution(
                CODE,
                f"{case.size(out)} of the part hang out past the jaws, which hold {case.size(max(between, 0.0))}",
                found=case.size(out),
                allowed=f"up to {case.size(max(between, 0.0))}",
                because="the free end springs away from the cutter, and the part turns in the jaws",
                try_="move the part in, or put a jack under its free end",
            )


def _extent(case: Case, held: Clamped) -> tuple[float, float]:
    """Return where the metal begins and ends along the jaws when the setup begins."""
    stock = held.laid.box(case.part.stock.box)
    z = held.rest_z + held.setup.hold.grip_mm / 2
    ends = []
    for i in range(_ALONG):
        y = stock.low[1] + (stock.high[1] - stock.low[1]) * (i + 0.5) / _ALONG
        ends += [end for span in case.metal(held, held.gone_first, (y, z), axis=0) for end in span]
    return (min(ends), max(ends)) if ends else (stock.low[0], stock.high[0])
