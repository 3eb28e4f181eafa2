"""Drawn sizes: which of a size's three values is built, and how far cuts run out past the stock."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from setupsheet.part.face import Face
from setupsheet.part.feature import Size
from setupsheet.part.part import Part
from setupsheet.plane import Point2
from setupsheet.solid.volume import Primitive

Which = Literal["nominal", "least", "most"]
"""``least``: as little metal as the limits allow; ``most``: as much."""

CLEAR_MM = 1.0
"""A cut that opens somewhere goes this much past the surface, so that no skin is left."""

_TOUCH = 1e-6
"""mm; surfaces nearer than this are one."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """What a feature's volume depends on besides the feature.

    ``others`` gives the shapes that all features but the named one remove; None where nobody asks.
    """

    part: Part
    which: Which = "nominal"
    others: Callable[[str], tuple[Primitive, ...]] | None = None

    def opening(self, size: Size) -> float:
        """Return a size that grows when metal goes: a hole's diameter, a slot's width (mm)."""
        return {"nominal": size.nominal_mm, "least": size.upper_mm, "most": size.lower_mm}[self.which]

    def standing(self, size: Size) -> float:
        """Return a size that grows when metal is added: a boss, the inside of a groove (mm)."""
        return {"nominal": size.nominal_mm, "least": size.lower_mm, "most": size.upper_mm}[self.which]

    def past_stock(self, face: Face) -> float:
        """Return a coordinate clear of stock and part on this face's side."""
        both = (self.part.stock.box.at(face), self.part.box.at(face))
        return (max(both) if face.sign > 0 else min(both)) + face.sign * CLEAR_MM

    def rectangle(self, axis: int) -> tuple[Point2, Point2]:
        """Return the low and high corner of a rectangle, square to an axis, clear of the stock."""
        first, second = (face_pair for i, face_pair in enumerate(_PAIRS) if i != axis)
        low = (self.past_stock(first[0]), self.past_stock(second[0]))
        return low, (self.past_stock(first[1]), self.past_stock(second[1]))

    def is_outside(self, face: Face, coordinate: float) -> bool:
        """Tell whether a coordinate lies at this face of the finished part or beyond."""
        return (coordinate - self.part.box.at(face)) * face.sign >= -_TOUCH


_PAIRS = ((Face.LEFT, Face.RIGHT), (Face.FRONT, Face.BACK), (Face.BOTTOM, Face.TOP))
