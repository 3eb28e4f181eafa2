"""How far a point lies from the edge of a flat shape; negative inside. Exact to float noise, mm."""

from __future__ import annotations

import math

from setupsheet.part.shape import BoxShape, CircleShape, PolygonShape, Shape, SlotShape
from setupsheet.plane import Point2, distance, distance_to_segment, inside_polygon


def edge_distance(point: Point2, shape: Shape) -> float:
    """Return the distance from a point to a shape's edge, negative where the point lies inside."""
    if isinstance(shape, CircleShape):
        return distance(point, shape.centre) - shape.diameter_mm / 2
    if isinstance(shape, SlotShape):
        return distance_to_segment(point, shape.start, shape.end) - shape.width_mm / 2
    if isinstance(shape, BoxShape):
        return _box(point, shape)
    return _polygon(point, shape)


def _box(point: Point2, box: BoxShape) -> float:
    """Return the distance to a box; its rounded corners lie inside the sharp ones."""
    radius = box.corner_radius_mm
    middle = ((box.low[0] + box.high[0]) / 2, (box.low[1] + box.high[1]) / 2)
    half = ((box.high[0] - box.low[0]) / 2 - radius, (box.high[1] - box.low[1]) / 2 - radius)
    beyond = (abs(point[0] - middle[0]) - half[0], abs(point[1] - middle[1]) - half[1])
    outside = math.hypot(max(beyond[0], 0.0), max(beyond[1], 0.0))
    return outside + min(max(beyond), 0.0) - radius


def _polygon(point: Point2, polygon: PolygonShape) -> float:
    corners = polygon.corners
    sides = zip(corners, corners[1:] + corners[:1], strict=True)
    least = min(distance_to_segment(point, a, b) for a, b in sides)
    return -least if inside_polygon(point, corners) else least


def bounds(shape: Shape) -> tuple[Point2, Point2]:
    """Return the lower and the upper corner of the box around a shape."""
    if isinstance(shape, BoxShape):
        return shape.low, shape.high
    if isinstance(shape, PolygonShape):
        points, reach = shape.corners, 0.0
    elif isinstance(shape, CircleShape):
        points, reach = (shape.centre,), shape.diameter_mm / 2
    else:
        points, reach = (shape.start, shape.end), shape.width_mm / 2
    low = (min(p[0] for p in points) - reach, min(p[1] for p in points) - reach)
    high = (max(p[0] for p in points) + reach, max(p[1] for p in points) + reach)
    return low, high


def outline_points(shape: Shape, inset: float) -> tuple[Point2, ...]:
    """Return points along a shape's edge, ``inset`` inside of it: enough to test what lies over it."""
    low, high = bounds(shape)
    if isinstance(shape, PolygonShape):
        middle = ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2)
        return tuple(_towards(corner, middle, inset) for corner in shape.corners)
    if isinstance(shape, CircleShape):
        return _ring(shape.centre, shape.diameter_mm / 2 - inset)
    if isinstance(shape, SlotShape):
        return _ring(shape.start, shape.width_mm / 2 - inset) + _ring(shape.end, shape.width_mm / 2 - inset)
    corners = ((low[0], low[1]), (high[0], low[1]), (high[0], high[1]), (low[0], high[1]))
    middle = ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2)
    return (*(_towards(corner, middle, inset + shape.corner_radius_mm * 0.3) for corner in corners), middle)


def _towards(point: Point2, middle: Point2, step: float) -> Point2:
    length = distance(point, middle) or 1.0
    return point[0] + (middle[0] - point[0]) * step / length, point[1] + (middle[1] - point[1]) * step / length


def _ring(centre: Point2, radius: float) -> tuple[Point2, ...]:
    return tuple(
        (centre[0] + radius * math.cos(math.radians(angle)), centre[1] + radius * math.sin(math.radians(angle)))
        for angle in range(0, 360, 5)
    )
