"""Where a straight line square to a face first meets metal, when cuts from other faces stand in its way.

A hole from the right side may start at the end of the part, or at the wall that a level from the top has
left. Cuts are prisms: a flat shape of another face, from a floor outward. All coordinates in mm.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from setupsheet.part.face import Face
from setupsheet.part.shape import BoxShape, CircleShape, PolygonShape, Shape, SlotShape
from setupsheet.plane import Point2, Point3
from setupsheet.spec.shape_edge import edge_distance

_NOISE = 1e-6


@dataclass(frozen=True, slots=True)
class Floor:
    """One milled floor: its height, the area it covers (None: all) and what it leaves standing.

    A window's floor is the face opposite. ``hollow`` is what stands inside of a ring; ``owner`` the
    id of the feature.
    """

    height_mm: float
    area: Shape | None
    leave: tuple[Shape, ...]
    hollow: Shape | None = None
    owner: str = ""

    def covers(self, point: Point2) -> bool:
        """Tell whether the floor lies under a point."""
        if self.area is not None and edge_distance(point, self.area) > 0:
            return False
        if self.hollow is not None and edge_distance(point, self.hollow) < 0:
            return False
        return all(edge_distance(point, shape) > 0 for shape in self.leave)

    def edges(self) -> tuple[Shape, ...]:
        """Return every shape at whose edge this floor may end."""
        return tuple(shape for shape in (self.area, self.hollow, *self.leave) if shape is not None)


Cut = tuple[Face, Floor]
"""A floor and the face that it is cut from."""


def first_metal(face: Face, point: Point2, span: tuple[float, float], cuts: tuple[Cut, ...]) -> float | None:
    """Return where a line inward from ``face`` over ``point`` meets metal that no cut takes away.

    ``span`` runs from the outer to the inner end of what the face's own cuts leave; None if all of it is gone.
    """
    outer, inner = span
    if (outer - inner) * face.sign <= _NOISE:
        return None
    stops = {outer, inner}
    for side, floor in cuts:
        for shape in floor.edges():
            stops.update(_crossings(face, point, side, shape))
    between = (at for at in stops if (outer - at) * face.sign >= 0 <= (at - inner) * face.sign)
    inside = sorted(between, reverse=face.sign > 0)
    for start, end in pairwise(inside):
        if abs(start - end) > _NOISE and not _taken(_at(face, point, (start + end) / 2), cuts):
            return start
    return None


def _at(face: Face, point: Point2, along: float) -> Point3:
    """Return the point in space at a coordinate along the face's axis."""
    place = [0.0, 0.0, 0.0]
    place[face.axis] = along
    place[face.in_plane[0]], place[face.in_plane[1]] = point
    return place[0], place[1], place[2]


def _taken(place: Point3, cuts: tuple[Cut, ...]) -> bool:
    for side, floor in cuts:
        if (place[side.axis] - floor.height_mm) * side.sign > 0:
            first, second = side.in_plane
            if floor.covers((place[first], place[second])):
                return True
    return False


def _crossings(face: Face, point: Point2, side: Face, shape: Shape) -> tuple[float, ...]:
    """Return the coordinates along the face's axis at which a line may cross a shape's edge."""
    index = side.in_plane.index(face.axis)
    fixed = _at(face, point, 0.0)[side.in_plane[1 - index]]
    if isinstance(shape, BoxShape):
        return _box(shape, index, fixed)
    if isinstance(shape, CircleShape):
        return _circle(shape.centre, shape.diameter_mm / 2, index, fixed)
    if isinstance(shape, SlotShape):
        return _slot(shape, index, fixed)
    return _sides(shape, index, fixed)


def _box(box: BoxShape, index: int, fixed: float) -> tuple[float, ...]:
    low, high = box.low[index], box.high[index]
    radius = box.corner_radius_mm
    near = min(fixed - box.low[1 - index], box.high[1 - index] - fixed)
    if near >= radius or near < 0:
        return low, high
    short = radius - math.sqrt(max(radius**2 - (radius - near) ** 2, 0.0))
    return low + short, high - short


def _circle(centre: Point2, radius: float, index: int, fixed: float) -> tuple[float, ...]:
    rest = radius**2 - (fixed - centre[1 - index]) ** 2
    half = math.sqrt(rest) if rest > 0 else 0.0
    return (centre[index] - half, centre[index] + half) if rest > 0 else ()


def _slot(slot: SlotShape, index: int, fixed: float) -> tuple[float, ...]:
    """Return the crossings with both round ends and both straight sides."""
    radius = slot.width_mm / 2
    along = (slot.end[0] - slot.start[0], slot.end[1] - slot.start[1])
    length = math.hypot(*along) or 1.0
    across = (-along[1] / length * radius, along[0] / length * radius)
    corners = tuple(
        (end[0] + sign * across[0], end[1] + sign * across[1])
        for sign, ends in ((1, (slot.start, slot.end)), (-1, (slot.end, slot.start)))
        for end in ends
    )
    round_ends = _circle(slot.start, radius, index, fixed) + _circle(slot.end, radius, index, fixed)
    return _sides(PolygonShape(corners), index, fixed) + round_ends


def _sides(polygon: PolygonShape, index: int, fixed: float) -> tuple[float, ...]:
    """Return the crossings with a polygon's sides; a side that lies on the line has a crossing at both ends."""
    found: list[float] = []
    corners = polygon.corners
    for a, b in zip(corners, corners[1:] + corners[:1], strict=True):
        low, high = a[1 - index], b[1 - index]
        if low == high == fixed:
            found += [a[index], b[index]]
        elif (low > fixed) != (high > fixed):
            found.append(a[index] + (b[index] - a[index]) * (fixed - low) / (high - low))
    return tuple(found)
