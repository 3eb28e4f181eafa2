"""The jaws press on a thin wall with nothing behind it.

What: lines across the part at the height of the jaws, at the start and the end of the setup: the first metal each
meets.
Why at the machine: the wall bends inwards under the jaw; it is cut true while bent, and stands out of true after.
What to do: fill the hollow with a tight block, grip lower or on another side, or cut the hollow last.
Source: common practice, no source (a wall under 2 mm, over 10 mm and more of its length).
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from setupsheet.plan.checks import limits
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case, Clamped
from setupsheet.plan.checks.near import Spans

CODE = "jaws-squeeze-a-wall"
_ALONG = 48


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each setup whose jaws bear on thin walls."""
    for held in case.clamped:
        walls = [wall for gone in (held.gone_first, held.gone_last) for wall in _walls(case, held, gone)]
        if walls:
            thin = case.size(min(walls))
            yield At(case, held).caution(
                CODE,
                f"a wall of {thin} with a hollow behind it stands between the jaws",
                found=thin,
                allowed=f"at least {case.size(limits.mm('least wall'))}",
                because="the jaw bends it inwards, and it springs back after the cut",
                try_="fill the hollow with a block that fits, or grip lower down",
            )


def _walls(case: Case, held: Clamped, gone: int) -> list[float]:
    """Return the walls thinner than the limit that a jaw presses on, those too short to bend left out."""
    found: list[float] = []
    for jaw in held.jaws:
        stock = held.laid.box(case.part.stock.box)
        low, high = max(stock.low[0], jaw.low[0]), min(stock.high[0], jaw.high[0])
        step = (high - low) / _ALONG
        front = jaw.low[1] <= min(other.low[1] for other in held.jaws)
        for share in (0.3, 0.7):
            z = held.rest_z + share * held.setup.hold.grip_mm
            lines = [case.metal(held, gone, (low + (i + 0.5) * step, z), axis=1) for i in range(_ALONG)]
            thin = [_thin(spans, front=front) for spans in lines]
            for bent, run in groupby(thin, key=bool):
                row = list(run)
                found += row if bent and len(row) * step >= limits.mm("least length of a wall that bends") else []
    return found


def _thin(spans: Spans, *, front: bool) -> float:
    """Return the thickness of the metal at a jaw if it is thin and has a hollow behind it, else 0."""
    if len(spans) < 2:
        return 0.0
    low, high = spans[0] if front else spans[-1]
    return high - low if high - low < limits.mm("least wall") - 1e-6 else 0.0
