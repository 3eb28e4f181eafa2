"""No end mill of the shop makes a pocket or slot as it is drawn.

What: the corner radius, width and depth of each pocket and slot against the end mills that the shop has.
Why at the machine: a larger cutter leaves more in the corners, a smaller one only makes the radius by going round by
hand.
What to do: draw the radius of a cutter that you have, drill the corners first, or get the cutter.
Source: common practice, no source (offer drilled corner relief).
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.part.feature import Pocket, Slot
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "opening-without-cutter"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each pocket or slot that needs a cutter to be bought."""
    told: set[str] = set()
    for held, step in case.steps():
        features = [f for f in map(case.feature, step.features) if isinstance(f, Pocket | Slot) and f.id not in told]
        if step.tool is None or step.tool.owned or not step.moves or not features:
            continue
        told.add(features[0].id)
        mills = sorted({(c.diameter_mm, c.flute_length_mm) for c in case.shop.cutters if c.kind == "end mill"})
        has = ", ".join(f"{case.size(size)} with flutes of {case.size(flute)}" for size, flute in mills) or "none"
        yield At(case, held, step, features[0].id).caution(
            CODE,
            f"{features[0].id} wants the {step.tool.label} with flutes of {case.size(step.tool.flute_length_mm)}, "
            "and the shop has none such",
            found=f"{case.size(step.tool.diameter_mm)} with flutes of {case.size(step.tool.flute_length_mm)}",
            allowed=has,
            because="another size leaves other corners or another width, a short one rubs",
            try_="get that cutter before you start, or draw the radius of one that you have",
        )
