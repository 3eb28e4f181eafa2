"""The hole that is driven to before the first cut is open too when the part lies the wrong way round.

What: the witness hole of each later setup, and what stands at its place if the part is turned end for end in the
vise.
Why at the machine: the pin goes in, the part is the wrong way round all the same, and the first cut ruins it.
What to do: name another hole with check-first:, one that has no twin on the other side; go by the corner mark.
Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks import swept
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case, Clamped
from setupsheet.plane import Point2

CODE = "witness-proves-nothing"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each witness hole that has a twin."""
    for held in case.clamped:
        witness = held.setup.witness
        if witness is None:
            continue
        twin = _turned(case, held, (witness.x, witness.y))
        around = [twin, *swept.ring(twin, witness.pin_mm / 2 - 0.05, 8)]
        if not any(case.metal(held, held.gone_first, place) for place in around) and _inside(case, held, twin):
            yield At(case, held, None, witness.feature).caution(
                CODE,
                f"{witness.label} is open also with the part end for end: the pin proves nothing",
                found=witness.label,
                allowed="a hole without a twin",
                because="the pin goes in, and the first cut ruins the part all the same",
                try_="go by the corner mark; better, name another hole with check-first:",
            )


def _turned(case: Case, held: Clamped, at: Point2) -> Point2:
    """Return where a place of the part comes to lie if the part is turned half round and zeroed as said."""
    box, found = held.laid.box(case.part.box), [0.0, 0.0]
    for index in (0, 1):
        method = next((z.method for z in held.setup.zero if z.axis == "xy"[index]), "")
        middle = 0.0 if method == "indicate" else (box.low[index] + box.high[index]) / 2
        found[index] = 2 * middle - at[index]
    return found[0], found[1]


def _inside(case: Case, held: Clamped, at: Point2) -> bool:
    """Tell whether a place lies over the part; beside it every pin goes down, and everybody sees that."""
    box = held.laid.box(case.part.box)
    return all(box.low[i] < at[i] < box.high[i] for i in (0, 1))
