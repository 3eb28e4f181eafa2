"""The flat faces that slanted edges and bevels leave: an axis along which they run, and a line square to it."""

from __future__ import annotations

from dataclasses import dataclass, replace

from setupsheet.part.face import Box, Face
from setupsheet.part.feature import EdgeChamfer, EdgeCut, Feature
from setupsheet.plane import Point2


@dataclass(frozen=True, slots=True)
class Slope:
    """A slanted face of a feature: it runs along part axis ``axis``, over ``line`` (the other two axes, alphabetical).

    ``outward`` is the unit vector out of the metal. ``feature`` is the feature with this face alone.
    """

    feature: Feature
    axis: int
    line: tuple[Point2, Point2]
    outward: Point2


def slopes(feature: Feature, box: Box) -> tuple[Slope, ...]:
    """Return the slanted faces of a feature; ``box`` is the finished envelope."""
    if isinstance(feature, EdgeCut) and feature.side is None:
        return (Slope(feature, feature.face.axis, feature.line, feature.towards),)
    if isinstance(feature, EdgeChamfer):
        return tuple(bevel(feature, side, box) for side in feature.sides)
    return ()


def bevel(chamfer: EdgeChamfer, side: Face, box: Box) -> Slope:
    """Return the bevel between a chamfer's face and one of its sides."""
    leg = chamfer.size.nominal_mm
    ends = {chamfer.face: box.at(chamfer.face), side: box.at(side)}
    one = {**ends, side: ends[side] - side.sign * leg}
    other = {**ends, chamfer.face: ends[chamfer.face] - chamfer.face.sign * leg}
    first, second = sorted((chamfer.face, side), key=lambda face: face.axis)
    line = ((one[first], one[second]), (other[first], other[second]))
    half = 0.5**0.5
    axis = 3 - side.axis - chamfer.face.axis
    return Slope(replace(chamfer, sides=(side,)), axis, line, (first.sign * half, second.sign * half))
