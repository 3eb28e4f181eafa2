"""The finished surface over a point: what a depth is measured from and where a through hole ends.

From a face inward the surface is the lowest floor of any level, pocket, slot or groove over the point;
what a level leaves standing, and every round boss, keeps the face (a boss: its own top). An edge cut on
the side moves the whole face in; where cuts from other faces have taken the metal, it lies further in. All values
are coordinates along the face's axis, mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterable

from setupsheet.part.face import Box, Face
from setupsheet.part.feature import EdgeChamfer, EdgeCut, Feature, Level, Pocket, RingGroove, RoundBoss, Slot
from setupsheet.part.shape import CircleShape, Shape
from setupsheet.plane import Point2, distance
from setupsheet.spec.ray import Cut, Floor, first_metal
from setupsheet.spec.shape_edge import edge_distance

_NOISE = 1e-6
_RIM = tuple((math.cos(math.radians(angle)), math.sin(math.radians(angle))) for angle in range(0, 360, 5))


class Surfaces:
    """The finished surfaces of a part, face by face."""

    def __init__(self, box: Box, features: Iterable[Feature]) -> None:
        self.box = box
        everything = tuple(features)
        self.bosses = {
            face: tuple(f for f in everything if isinstance(f, RoundBoss) and f.face is face) for face in Face
        }
        self.base = {face: _moved_in(face, box, everything) for face in Face}
        self.floors = {face: tuple(self._floors(face, everything)) for face in Face}
        self.cuts: dict[int, tuple[Cut, ...]] = {
            axis: tuple((face, floor) for face in Face if face.axis != axis for floor in self.floors[face])
            for axis in range(3)
        }
        self.bevels = tuple(feature for feature in everything if isinstance(feature, EdgeChamfer))

    def _floors(self, face: Face, features: tuple[Feature, ...]) -> Iterable[Floor]:
        standing = tuple(CircleShape(boss.at, boss.diameter.nominal_mm) for boss in self.bosses[face])
        for feature in features:
            if feature.face is not face:
                continue
            if isinstance(feature, Level):
                leave = tuple(keep.shape for keep in feature.leave) + standing
                yield Floor(feature.height.nominal_mm, feature.area, leave, None, feature.id)
            elif isinstance(feature, Pocket | Slot):
                leave = tuple(keep.shape for keep in feature.leave) if isinstance(feature, Pocket) else ()
                floor = feature.floor.nominal_mm if feature.floor else self.box.at(face.opposite)
                yield Floor(floor, feature.shape, leave + standing, None, feature.id)
            elif isinstance(feature, RingGroove):
                outer, inner = feature.outer.nominal_mm, feature.inner.nominal_mm
                rims = CircleShape(feature.centre, outer), CircleShape(feature.centre, inner)
                yield Floor(feature.floor.nominal_mm, rims[0], (), rims[1], feature.id)

    def at(self, face: Face, point: Point2, without: str = "") -> float:
        """Return the finished surface from a face over one point; ``without`` leaves one feature's floor out.

        Where no metal is left over the point, the face's own floor comes back (see ``metal``).
        """
        own = self._own(face, point, without)
        cuts = self.cuts[face.axis]
        if not cuts:
            return own
        if without:
            cuts = tuple(cut for cut in cuts if cut[1].owner != without)
        found = first_metal(face, point, (own, self._own(face.opposite, point, without)), cuts)
        return own if found is None else found

    def metal(self, face: Face, point: Point2) -> bool:
        """Tell whether a line square to a face over a point meets any metal."""
        span = (self._own(face, point), self._own(face.opposite, point))
        return first_metal(face, point, span, self.cuts[face.axis]) is not None

    def _own(self, face: Face, point: Point2, without: str = "") -> float:
        """Return the surface as far as the cuts from this face alone make it."""
        surface = self.base[face]
        for boss in self.bosses[face]:
            if distance(point, boss.at) < boss.diameter.nominal_mm / 2:
                return _deeper(face, surface, boss.top.nominal_mm)
        for floor in self.floors[face]:
            if (not without or floor.owner != without) and floor.covers(point):
                surface = _deeper(face, surface, floor.height_mm)
        return surface

    def under(self, face: Face, point: Point2, radius: float) -> tuple[float, ...]:
        """Return every height that a disc meets on a face, from the face inward; mostly one."""
        heights = {round(self.at(face, point), 6)}
        crossed = [shape for shape in self._edges(face) if abs(edge_distance(point, shape)) < radius - _NOISE]
        if crossed or self.cuts[face.axis]:
            reach = radius - _NOISE
            for across, up in _RIM:
                for share in (0.5, 1.0):
                    spot = (point[0] + reach * share * across, point[1] + reach * share * up)
                    heights.add(round(self.at(face, spot), 6))
        return tuple(sorted(heights, reverse=face.sign > 0))

    def _edges(self, face: Face) -> Iterable[Shape]:
        for floor in self.floors[face]:
            yield from floor.edges()
        for boss in self.bosses[face]:
            yield CircleShape(boss.at, boss.diameter.nominal_mm)

    def on_bevel(self, face: Face, point: Point2, radius: float) -> bool:
        """Tell whether a disc on a face meets the bevel of an edge chamfer: a slope."""
        for bevel in self.bevels:
            edges = ((bevel.face, side) for side in bevel.sides)
            for one, other in edges:
                side = other if one is face else one if other is face else None
                if side is None or side.axis == face.axis:
                    continue
                index = face.in_plane.index(side.axis)
                inward = (self.box.at(side) - point[index]) * side.sign
                if inward - radius < bevel.size.nominal_mm - _NOISE:
                    return True
        return False


def _moved_in(face: Face, box: Box, features: tuple[Feature, ...]) -> float:
    """Return where a face of the envelope lies once the edge cuts that make it are done."""
    surface = box.at(face)
    for feature in features:
        if isinstance(feature, EdgeCut) and feature.side is face:
            index = feature.face.in_plane.index(face.axis)
            surface = _deeper(face, surface, feature.line[0][index])
    return surface


def _deeper(face: Face, one: float, other: float) -> float:
    """Return the one of two heights that lies further in from a face."""
    return min(one, other) if face.sign > 0 else max(one, other)


def deepest(face: Face, heights: Iterable[float]) -> float:
    """Return the height that lies furthest in from a face."""
    return min(heights) if face.sign > 0 else max(heights)
