"""What is left between the jaws is thin for its width: it bows.

What: the width between the jaws against the thickness that most of the part has when the setup is done.
Why at the machine: the jaws push the middle up; it is cut flat, and springs hollow when the vise opens.
What to do: tighten with an indicator on the middle and stop when it moves; finish with light cuts.
Source: open machine-shop tutorials (MIT), work holding (thin parts spring); ratio 8 : 1 common practice, no source.
"""

from __future__ import annotations

import statistics
from collections.abc import Iterator

from setupsheet.plan.checks import limits
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case, Clamped

CODE = "thin-part-bows"
_GRID = 11


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each setup that leaves the part thin between the jaws."""
    for held in case.clamped:
        if not held.jaws:
            continue
        low, high = sorted((body.low[1] + body.high[1]) / 2 for body in held.jaws)
        wide = high - low - (held.jaws[0].high[1] - held.jaws[0].low[1])
        thick = _thickness(case, held)
        if thick and wide > limits.factor("most width over thickness") * thick:
            yield At(case, held).caution(
                CODE,
                f"{case.size(wide)} between the jaws, {case.size(thick)} thick at the end: it bows",
                found=f"{wide / thick:.0f} : 1",
                allowed=f"up to {limits.factor('most width over thickness'):.0f} : 1",
                because="it is cut flat while it is bent, and springs hollow when the vise opens",
                try_="tighten with an indicator on the middle and stop when it moves; finish with light cuts",
                page=f"{case.size(wide)} wide, {case.size(thick)} thick: it bows; tighten gently",
            )


def _thickness(case: Case, held: Clamped) -> float:
    """Return the thickness at the middle of all places, counted at the end of the setup; 0 without metal."""
    stock = held.laid.box(case.part.stock.box)
    found = []
    for i in range(_GRID):
        for j in range(_GRID):
            x = stock.low[0] + (stock.high[0] - stock.low[0]) * (i + 0.5) / _GRID
            y = stock.low[1] + (stock.high[1] - stock.low[1]) * (j + 0.5) / _GRID
            spans = case.metal(held, held.gone_last, (x, y))
            if spans:
                found.append(sum(high - low for low, high in spans))
    return statistics.median(found) if found else 0.0
