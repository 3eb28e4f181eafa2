"""Parallels: which pair lies under the part, and where, so that no drill comes out on them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from setupsheet.finding import Finding, caution
from setupsheet.length import Unit
from setupsheet.part.part import Part, SetupAsked
from setupsheet.part.shop import Parallel, Shop, Vise
from setupsheet.plan.sizes import length
from setupsheet.plane import Point2

PACKING_MM = 12.0
"""Thickness of packing whose size nobody gave; nothing is decided by it."""

CLEAR_MM = 1.0
"""Least gap between a drill that comes out below and a parallel. Common practice, no source."""

BESIDE_MM = 0.1
"""A gap that nobody sets a parallel to: nearer, the cutter meets it. Common practice, no source."""

Round = tuple[float, float, float]
"""A place where a cutter comes out below: x, y, radius (setup frame)."""

APART = 0.25
"""How far the middles of two parallels lie apart at least, as a share of the width: nearer, the part rocks.

Common practice, no source.
"""

PIECES_WIDE_MM = {Unit.MM: (10.0, 6.0, 4.0), Unit.INCH: (9.525, 6.35, 4.7625)}
"""How wide a piece of packing across the vise may be, the steadiest first. Common practice, no source."""

PIECES_IN = 0.35
"""How far in from its end the middle of a piece may lie, as a share of the part's length: further in, the part tips.

Common practice, no source.
"""

_SAME_MM = 0.05
_STEP_MM = {Unit.MM: 0.5, Unit.INCH: 0.508}
"""What parallels are moved in by: half a millimetre, 0.020 in."""


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


def alike(shop: Shop, parallel: Parallel) -> tuple[Parallel, ...]:
    """Return the shop's other parallels of the same height, the thickest first: they hold steadiest."""
    same = [p for p in shop.parallels if p != parallel and abs(p.height_mm - parallel.height_mm) < _SAME_MM]
    return tuple(sorted(same, key=lambda p: (-p.thickness_mm, p.length_mm)))


@dataclass(frozen=True, slots=True)
class Bed:
    """Where parallels may lie: along the jaws, between the jaws, and where cutters come out below."""

    jaws_x: tuple[float, float]
    jaws_y: tuple[float, float]
    through: tuple[Round, ...]
    unit: Unit = Unit.MM


def laid_clear(choices: Sequence[Parallel], bed: Bed) -> tuple[Parallel, tuple[float, float]]:
    """Return the first pair that finds room clear of every cutter, and the lower Y of its front and back one.

    Each lies against its jaw, or as little further in as it needs. Where none of them finds room, the first pair lies
    as clear as it can be, and a check says what it meets.
    """
    for parallel in choices:
        pairs = _both_clear(parallel, bed)
        if pairs:
            return parallel, min(pairs, key=lambda at: (round(at[0] - at[1], 6), at[0]))
    fronts, backs = _places(choices[0], bed)
    back = bed.jaws_y[1] - choices[0].thickness_mm
    front = next((y for y in fronts if back - y >= _least_apart(choices[0], bed)), bed.jaws_y[0])
    return choices[0], (front, next((y for y in backs if y - front >= _least_apart(choices[0], bed)), back))


def meets(parallel: Parallel, under: tuple[float, float], bed: Bed) -> bool:
    """Tell whether a cutter meets one of two parallels where they lie: less than clear alone is no reason to move."""
    return not all(_is_clear(parallel, bed, low, BESIDE_MM) for low in under)


@dataclass(frozen=True, slots=True)
class Pieces:
    """Two equal pieces of packing across the vise, from jaw to jaw: where each begins along X, and how wide it is."""

    left: float
    right: float
    wide_mm: float


def pieces_clear(bed: Bed, ends: tuple[float, float]) -> Pieces | None:
    """Return two pieces of packing as near the part's ends as they lie clear, the widest that do; None if none.

    ``ends``: where the part begins and ends along the jaws.
    """
    low, high = max(ends[0], bed.jaws_x[0]), min(ends[1], bed.jaws_x[1])
    step = _STEP_MM[bed.unit]
    for wide in PIECES_WIDE_MM[bed.unit]:
        moved = [i * step for i in range(1 + max(0, int((high - low - 2 * wide) / step)))]
        left = next((low + by for by in moved if _piece_clear(low + by, wide, bed)), None)
        right = next((high - wide - by for by in moved if _piece_clear(high - wide - by, wide, bed)), None)
        most = PIECES_IN * (ends[1] - ends[0]) - wide / 2
        if left is not None and right is not None and max(left - ends[0], ends[1] - right - wide) <= most:
            return Pieces(left, right, wide)
    return None


def _piece_clear(low: float, wide: float, bed: Bed) -> bool:
    return _clear((low, low + wide), bed.jaws_y, bed.through)


def _least_apart(parallel: Parallel, bed: Bed) -> float:
    return max(parallel.thickness_mm, APART * (bed.jaws_y[1] - bed.jaws_y[0]))


def _both_clear(parallel: Parallel, bed: Bed) -> list[tuple[float, float]]:
    """Return the places of a pair that are clear and far enough apart for the part to lie steady."""
    against = (bed.jaws_y[0], bed.jaws_y[1] - parallel.thickness_mm)
    if all(_is_clear(parallel, bed, low) for low in against):
        return [against]
    (fronts, backs), least = _places(parallel, bed), _least_apart(parallel, bed)
    return [(f, b) for f in fronts for b in backs if (f, b) == against or b - f >= least]


def _places(parallel: Parallel, bed: Bed) -> tuple[list[float], list[float]]:
    """Return where the front and the back parallel lie clear, the place against the jaw first."""
    thick, width = parallel.thickness_mm, bed.jaws_y[1] - bed.jaws_y[0]
    step = _STEP_MM[bed.unit]
    moved = [i * step for i in range(1 + max(0, int((width - 2 * thick) / step)))]
    front, back = bed.jaws_y[0], bed.jaws_y[1] - thick
    fronts = [front + by for by in moved if _is_clear(parallel, bed, front + by)]
    return fronts, [back - by for by in moved if _is_clear(parallel, bed, back - by)]


def _is_clear(parallel: Parallel, bed: Bed, low: float, gap: float = CLEAR_MM) -> bool:
    """Tell whether a parallel whose front side lies at this Y stays so far from all that comes out below."""
    middle, half = (bed.jaws_x[0] + bed.jaws_x[1]) / 2, parallel.length_mm / 2
    return _clear((middle - half, middle + half), (low, low + parallel.thickness_mm), bed.through, gap)


def _clear(x_span: Point2, y_span: Point2, through: tuple[Round, ...], gap: float = CLEAR_MM) -> bool:
    """Tell whether a box, from low to high in X and in Y, stays so far from every round."""
    for x, y, radius in through:
        away_x = max(x_span[0] - x, 0.0, x - x_span[1])
        away_y = max(y_span[0] - y, 0.0, y - y_span[1])
        if math.hypot(away_x, away_y) < radius + gap:
            return False
    return True
