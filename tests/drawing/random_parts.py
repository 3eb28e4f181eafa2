"""Random sound parts for the drawing stage: a plate of cells, one feature a cell, and features of the outline.

A seed gives always the same part; the generator is ours (a small congruence), so no library changes it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from setupsheet.length import Unit
from setupsheet.part.face import Face
from setupsheet.part.feature import (
    BoltCircle,
    CornerRadius,
    Counterbore,
    Countersink,
    EdgeChamfer,
    EdgeCut,
    Feature,
    Hole,
    Level,
    Mark,
    Pocket,
    RingGroove,
    RoundBoss,
    RoundedEnd,
    Slot,
    Spot,
)
from setupsheet.part.part import Datum, Part
from setupsheet.part.shape import BoxShape, SlotShape
from setupsheet.plane import Point2, polar
from tests.drawing import parts

CELL_MM = 34.0


class Dice:
    """A source of small whole numbers that depends on the seed alone."""

    def __init__(self, seed: int) -> None:
        """Start at a seed."""
        self._state = seed * 2654435761 % 2**32

    def roll(self, sides: int) -> int:
        """Return a number from 0 to sides - 1 (Numerical Recipes' congruence)."""
        self._state = (self._state * 1664525 + 1013904223) % 2**32
        return (self._state >> 8) * sides >> 24


def random_part(seed: int) -> Part:
    """Return a sound part; its profile, unit, projection and features depend on the seed."""
    dice = Dice(seed)
    if dice.roll(4) == 0:
        return _lever(dice)
    nx, ny, height = 2 + dice.roll(3), 1 + dice.roll(3), 12.0 + dice.roll(3) * 4
    size = (nx * CELL_MM + 12.0, ny * CELL_MM + 12.0, height)
    features: list[Feature] = []
    boss = dice.roll(3) == 0
    top = height - 4.0 if boss else height
    for k in range(nx * ny):
        centre = (6.0 + CELL_MM * (k % nx + 0.5), 6.0 + CELL_MM * (k // nx + 0.5))
        if k == 0 and boss:
            features += _boss(centre, height, top)
        else:
            features.append(CELLS[dice.roll(len(CELLS))](f"f{k}", centre, top, dice))
    features += _outline(size[0], size[1], top, dice)
    standard, unit = ("iso", Unit.MM) if dice.roll(2) else ("asme", Unit.INCH if dice.roll(2) else Unit.MM)
    whole = parts.part(tuple(features), size, standard, "first" if dice.roll(2) else "third", unit)
    fits = [f.id for f in features if isinstance(f, Hole) and f.making == "fit"]
    return replace(whole, datums=(*whole.datums, Datum("B", None, fits[0]))) if fits else whole


def _boss(centre: Point2, height: float, top: float) -> list[Feature]:
    size = parts.size(20.0, "20 -0.05/-0.15", "limits", -0.15, -0.05)
    return [
        RoundBoss("boss", parts.HERE, Face.TOP, centre, size, parts.size(height)),
        Level("floor", parts.HERE, Face.TOP, None, parts.size(top)),
    ]


def _odd(dice: Dice, at: Point2) -> Point2:
    """Move a place a little, in tenths, so that coordinates are rarely equal."""
    return round(at[0] + (dice.roll(41) - 20) / 10, 1), round(at[1] + (dice.roll(41) - 20) / 10, 1)


def _drilled(id_: str, at: Point2, top: float, dice: Dice) -> Feature:
    return parts.plain_hole(id_, _odd(dice, at), 4.0 + dice.roll(9), top)


def _reamed(id_: str, at: Point2, top: float, _dice: Dice) -> Feature:
    return Hole(id_, parts.HERE, Face.TOP, "fit", parts.fit_size(12.0, 0.018), "12 H7", (Spot(id_, at, top, 0.0),))


def _tapped(id_: str, at: Point2, top: float, dice: Dice) -> Feature:
    return parts.tapped(id_, _odd(dice, at), top, 4.0 + dice.roll(2) if dice.roll(2) else None)


def _bored(id_: str, at: Point2, top: float, dice: Dice) -> Feature:
    bore = Counterbore(parts.size(10.0), 3.0 + dice.roll(2), "for M5")
    return replace(parts.plain_hole(id_, _odd(dice, at), 5.5, top), counterbore=bore)


def _sunk(id_: str, at: Point2, top: float, dice: Dice) -> Feature:
    return replace(
        parts.plain_hole(id_, _odd(dice, at), 4.5, top), countersink=Countersink(parts.size(9.0), 90.0, "for M4")
    )


def _ring(id_: str, at: Point2, top: float, dice: Dice) -> Feature:
    count, start = 3 + dice.roll(4), 5.0 * dice.roll(10)
    spots = tuple(Spot(f"{id_[1:]}.{k + 1}", polar(at, 11.0, start + k * 360 / count), top, 0.0) for k in range(count))
    diameter = parts.size(4.0, "4", "clearance")
    return Hole(id_, parts.HERE, Face.TOP, "clearance", diameter, "4", spots, BoltCircle(at, 22.0, count, start))


def _pocket(id_: str, at: Point2, top: float, dice: Dice) -> Feature:
    wide, high = 8.0 + dice.roll(4), 6.0 + dice.roll(5)
    shape = BoxShape((at[0] - wide, at[1] - high), (at[0] + wide, at[1] + high), 3.0)
    if dice.roll(2):
        return Pocket(id_, parts.HERE, Face.TOP, shape, top, None, 0.0)
    return Pocket(id_, parts.HERE, Face.TOP, shape, top, parts.size(top - 4.0 - dice.roll(2)), 0.0)


def _slot(id_: str, at: Point2, top: float, dice: Dice) -> Feature:
    half = 4.0 + dice.roll(4)
    shape = SlotShape((at[0] - half, at[1]), (at[0] + half, at[1]), 6.0)
    floor = parts.size(top - 5.0) if dice.roll(2) else None
    return Slot(id_, parts.HERE, Face.TOP, shape, parts.size(6.0), top, floor, 0.0)


def _groove(id_: str, at: Point2, top: float, _dice: Dice) -> Feature:
    return RingGroove(id_, parts.HERE, Face.TOP, at, parts.size(14.0), parts.size(18.0), top, parts.size(top - 1.8))


def _mark(id_: str, at: Point2, _top: float, _dice: Dice) -> Feature:
    return Mark(id_, parts.HERE, Face.TOP, at, "stamp number here")


CELLS: tuple[Callable[[str, Point2, float, Dice], Feature], ...] = (
    _drilled,
    _reamed,
    _tapped,
    _bored,
    _sunk,
    _ring,
    _pocket,
    _slot,
    _groove,
    _mark,
)


def _outline(x: float, y: float, top: float, dice: Dice) -> list[Feature]:
    """Return a slanted corner, a corner radius, a bevel, a relief below, side holes: some of them."""
    found: list[Feature] = []
    if dice.roll(3) == 0:
        slope = (0.5**0.5, 0.5**0.5)
        found.append(EdgeCut("slant", parts.HERE, Face.TOP, ((x - 5.0, y), (x, y - 5.0)), slope, None, None))
    if dice.roll(3) == 0:
        found.append(
            CornerRadius("corner", parts.HERE, Face.TOP, (x - 5.0, 5.0), parts.size(5.0), (1, -1), "front right")
        )
    if dice.roll(3) == 0:
        found.append(EdgeChamfer("bevel", parts.HERE, Face.BOTTOM, (Face.LEFT,), parts.size(1.0)))
    if dice.roll(3) == 0:
        area = BoxShape((10.0, 0.0), (10.0 + 8.0 + dice.roll(20), y))
        found.append(Level("relief", parts.HERE, Face.BOTTOM, area, parts.size(1.5)))
    if dice.roll(4) == 0:
        spot = Spot("side", (x / 2 + 1.0, top / 2 + 1.0), 0.0, 5.0)
        found.append(
            Hole("side", parts.HERE, Face.FRONT, "plain", parts.size(3.0), "3", (spot,), through=False, depth_mm=5.0)
        )
    return found


def _lever(dice: Dice) -> Part:
    width, length = 20.0 + 2 * dice.roll(6), 60.0 + 5 * dice.roll(6)
    middle = (length - width / 2, width / 2)
    features: tuple[Feature, ...] = (
        RoundedEnd("end", parts.HERE, Face.TOP, middle, parts.size(width / 2), Face.RIGHT),
        parts.plain_hole("P1", middle, 6.0 + dice.roll(3), 8.0),
        parts.tapped("T1", (10.0, 8.0 + dice.roll(3)), 8.0),
    )
    return parts.part(features, (length, width, 8.0))
