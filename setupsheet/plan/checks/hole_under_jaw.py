"""A finished thread or fit opens in a side that the jaws press on.

What: tapped and fitted holes that an earlier setup made, against the jaws' height and length in a later one.
Why at the machine: the jaw bruises the mouth and presses chips into the thread.
What to do: put soft packing or card between, make the hole later, or turn the part so that the jaws bear elsewhere.
Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.part.feature import Hole
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case, Clamped

CODE = "hole-under-jaw"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each such hole and setup."""
    holes = [f for f in case.part.features if isinstance(f, Hole) and f.making in ("tap", "fit")]
    for hole in holes:
        made = case.made_at(hole.id)
        for held in case.clamped:
            later = made is not None and made[0].setup.number < held.setup.number
            if later and held.jaws and hole.face.axis == held.laid.axes[1]:
                labels = [spot.label for spot in hole.spots if _covered(held, hole, spot.at)]
                if labels:
                    yield _bite(At(case, held, None, hole.id), hole, labels)


def _covered(held: Clamped, hole: Hole, at: tuple[float, float]) -> bool:
    """Tell whether a jaw lies over the hole's mouth."""
    point = [0.0, 0.0, 0.0]
    for index, value in zip(hole.face.in_plane, at, strict=True):
        point[index] = value
    x, _, z = held.laid.to_setup((point[0], point[1], point[2]))
    radius, jaw = hole.diameter.nominal_mm / 2, held.jaws[0]
    return held.rest_z - radius < z < jaw.high[2] + radius and jaw.low[0] - radius < x < jaw.high[0] + radius


def _bite(at: At, hole: Hole, labels: list[str]) -> Bite:
    return at.caution(
        CODE,
        f"{', '.join(labels)} ({hole.callout}) lies under a jaw",
        found=", ".join(labels),
        allowed="no finished thread or fit under a jaw",
        because="the jaw bruises its mouth and presses chips into it",
        try_="put card or soft packing between, and blow the hole clean first",
    )
