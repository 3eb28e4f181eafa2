"""Parallels: which pair lies under the part, and where, so that no drill comes out on them."""

from __future__ import annotations

import math

from setupsheet.finding import Finding, caution
from setupsheet.part.part import Part, SetupAsked
from setupsheet.part.shop import Parallel, Shop, Vise
from setupsheet.plan.sizes import length

PACKING_MM = 12.0
"""Thickness of packing whose size nobody gave; nothing is decided by it."""

CLEAR_MM = 1.0
"""Least gap between a drill that comes out below and a parallel. Common practice, no source."""

Round = tuple[float, float, float]
"""A place where a cutter comes out below: x, y, radius (setup frame)."""

_SAME_MM = 0.05
_STEP_MM = 1.0


def pick_parallel(
    part: Part, shop: Shop, vise: Vise, asked: SetupAsked, want: float
) -> tuple[Parallel | None, float, list[Finding]]:
    """Pick what lies under the part: what the author says, else the pair that comes nearest to the grip wanted."""
    rest = asked.hold.rest if asked.hold else None
    if rest and rest.height_mm is not None:
        owned = next((p for p in shop.parallels if abs(p.height_mm - rest.height_mm) < _SAME_MM), None)
        packing = Parallel(rest.height_mm, PACKING_MM, vise.jaw_length_mm)
        return owned or packing, vise.jaw_height_mm - rest.height_mm, []
    choices = [(p, vise.jaw_height_mm - p.height_mm) for p in shop.parallels if vise.jaw_height_mm > p.height_mm]
    if not choices:
        return None, min(want, vise.jaw_height_mm), []
    parallel, got = min(choices, key=lambda c: (abs(c[1] - want), -c[1]))
    asked_for = asked.hold.grip_mm if asked.hold else None
    if asked_for is None or abs(got - asked_for) < _SAME_MM:
        return parallel, got, []
    return parallel, got, [_grip_not_reached(part, vise, asked, parallel, [grip for _, grip in choices])]


def _grip_not_reached(part: Part, vise: Vise, asked: SetupAsked, parallel: Parallel, grips: list[float]) -> Finding:
    assert asked.hold is not None
    assert asked.hold.grip_mm is not None
    wanted, high = asked.hold.grip_mm, vise.jaw_height_mm - asked.hold.grip_mm
    got = vise.jaw_height_mm - parallel.height_mm
    wants, needs, owns, gives = (length(v, part.unit) for v in (wanted, high, parallel.height_mm, got))
    return caution(
        "grip-not-reached",
        f"grip {wants} wants parallels {needs} high; the nearest you own are {owns}, which grip {gives}",
        asked.hold.place,
        found=wants,
        allowed=", ".join(length(grip, part.unit) for grip in sorted(grips)),
        try_=f"write grip: {gives}, or add the parallels to the shop file",
    )


def parallels_y(
    parallel: Parallel, jaws_x: tuple[float, float], jaws_y: tuple[float, float], through: tuple[Round, ...]
) -> tuple[float, float]:
    """Return the lower Y of the front and of the back parallel.

    Each lies against its jaw, or as little further in as keeps it clear of every drill that comes out
    below; against the jaw after all where no place up to a third of the width is clear.
    """
    thick, width = parallel.thickness_mm, jaws_y[1] - jaws_y[0]
    middle, half = (jaws_x[0] + jaws_x[1]) / 2, parallel.length_mm / 2
    steps = [i * _STEP_MM for i in range(1 + max(0, int(min(width / 3, width / 2 - thick) / _STEP_MM)))]
    span = (middle - half, middle + half)
    front = next((jaws_y[0] + s for s in steps if _clear(span, jaws_y[0] + s, thick, through)), jaws_y[0])
    back = jaws_y[1] - thick
    return front, next((back - s for s in steps if _clear(span, back - s, thick, through)), back)


def _clear(span: tuple[float, float], low: float, thick: float, through: tuple[Round, ...]) -> bool:
    for x, y, radius in through:
        away_x = max(span[0] - x, 0.0, x - span[1])
        away_y = max(low - y, 0.0, y - low - thick)
        if math.hypot(away_x, away_y) < radius + CLEAR_MM:
            return False
    return True
