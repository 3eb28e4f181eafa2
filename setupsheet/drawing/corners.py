"""The straight boundaries, centres and radii of a flat shape: what a drawing must give of it."""

from __future__ import annotations

from setupsheet.part.face import Face
from setupsheet.part.part import Part
from setupsheet.part.shape import BoxShape, CircleShape, PolygonShape, Shape, SlotShape
from setupsheet.plane import Point2

Coordinate = tuple[int, float]
"""Which of a face's two axes (0 or 1), and the value along it in mm."""

Bounds = tuple[Point2, Point2]
"""The lower left and the upper right corner of a face of the envelope."""


def coordinates(shape: Shape, face: Bounds) -> tuple[Coordinate, ...]:
    """Return every coordinate that fixes a shape, each once: edges, corners, centres.

    A box that runs out over an edge of its face has no size there: where it ends in the air means nothing.
    """
    found: list[Coordinate] = []
    for point in fixed_points(shape):
        found += [(0, point[0]), (1, point[1])]
    if isinstance(shape, BoxShape):
        found = [(axis, value) for axis, value in found if face[0][axis] <= value <= face[1][axis]]
    return tuple(dict.fromkeys(found))


def bounds_of(part: Part, face: Face) -> Bounds:
    """Return the lower left and the upper right corner of a face of the envelope, in its own two axes."""
    i, j = face.in_plane
    return (part.box.low[i], part.box.low[j]), (part.box.high[i], part.box.high[j])


def is_on(point: Point2, face: Bounds) -> bool:
    """Tell whether a point lies on a face or on its edge."""
    return all(face[0][k] <= point[k] <= face[1][k] for k in (0, 1))


def sharp_corners(shape: Shape) -> tuple[Point2, ...]:
    """Return the corners that a box or a polygon would have without rounding."""
    if isinstance(shape, BoxShape):
        (x0, y0), (x1, y1) = shape.low, shape.high
        return (x0, y0), (x1, y0), (x1, y1), (x0, y1)
    return shape.corners if isinstance(shape, PolygonShape) else ()


def fixed_points(shape: Shape) -> tuple[Point2, ...]:
    """Return the points whose coordinates fix a shape: corners of a box or polygon, centres of rounds."""
    if isinstance(shape, BoxShape):
        return shape.low, shape.high
    if isinstance(shape, CircleShape):
        return (shape.centre,)
    if isinstance(shape, PolygonShape):
        return shape.corners
    return shape.start, shape.end


def round_size(shape: Shape) -> tuple[str, float] | None:
    """Return the name and value of the one round or wide size of a shape, None if it has none."""
    if isinstance(shape, CircleShape):
        return "diameter", shape.diameter_mm
    if isinstance(shape, SlotShape):
        return "width", shape.width_mm
    return ("corner radius", shape.corner_radius_mm) if shape.corner_radius_mm else None


def extent(shape: Shape) -> tuple[Point2, Point2]:
    """Return the lower left and the upper right corner of the box round a shape."""
    points = fixed_points(shape)
    more = 0.0
    if isinstance(shape, CircleShape):
        more = shape.diameter_mm / 2
    elif isinstance(shape, SlotShape):
        more = shape.width_mm / 2
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return (min(xs) - more, min(ys) - more), (max(xs) + more, max(ys) + more)
