"""The jaws press on a thin wall with nothing behind it.

What: lines across the part at the height of the jaws, at the start and the end of the setup: the first metal each
meets.
Why at the machine: the wall bends inwards under the jaw; it is cut true while bent, and stands out of true after.
What to do: fill the hollow with a tight block, grip lower or on another side, or cut the hollow last.
Source: common practice, no source (wall under 2 mm).
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks import limits
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case, Clamped

CODE = "jaws-squeeze-a-wall"
_ALONG = 24
_LEAST_PLACES = 3
"""A wall as short as one or two places along the jaw is held by what stands beside it."""


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each setup whose jaws bear on thin walls."""
    for held in case.clamped:
        walls = [wall for gone in (held.gone_first, held.gone_last) for wall in _walls(case, held, gone)]
        if len(walls) >= _LEAST_PLACES:
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
    """Return every wall thinner than the limit that a jaw presses on."""
    if not held.jaws:
        return []
    stock, jaw, found = held.laid.box(case.part.stock.box), held.jaws[0], []
    low, high = max(stock.low[0], jaw.low[0]), min(stock.high[0], jaw.high[0])
    for i in range(_ALONG):
        x = low + (high - low) * (i + 0.5) / _ALONG
        for share in (0.3, 0.7):
            z = held.rest_z + share * held.setup.hold.grip_mm
            spans = case.metal(held, gone, (x, z), axis=1)
            if len(spans) > 1:
                ends = (spans[0], spans[-1])
                found += [b - a for a, b in ends if b - a < limits.mm("least wall") - 1e-6]
    return found
