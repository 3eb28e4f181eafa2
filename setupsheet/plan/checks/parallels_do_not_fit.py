"""Two parallels do not fit side by side between the jaws.

What: the width between the jaws against twice the thickness of the parallels.
Why at the machine: they lie on top of each other or one is left out, and the part is not level.
What to do: use one parallel in the middle, thinner ones, or turn the part by a quarter.
Source: open vertical-mill textbook (CC BY-SA 4.0), ch. 5 (both parallels must be held fast).
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "parallels-do-not-fit"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each setup whose two parallels overlap."""
    for held in case.clamped:
        rest = held.asked.hold.rest if held.asked.hold else None
        pair = sorted((b for b in held.parallels if b.name.startswith("parallel")), key=lambda body: body.low[1])
        if len(pair) < 2 or (rest and rest.on == "packing"):
            continue
        between, thick = pair[1].high[1] - pair[0].low[1], pair[0].high[1] - pair[0].low[1]
        if between < 2 * thick - 1e-6:
            yield At(case, held).caution(
                CODE,
                f"{case.size(between)} between the jaws: two parallels {case.size(thick)} thick do not fit",
                found=case.size(between),
                allowed=f"at least {case.size(2 * thick)}",
                because="with one of them on its side or left out the part is not level",
                try_="use one parallel in the middle, or thinner ones",
            )
