"""Plain arithmetic in a plane: points, angles, distances. Lengths in mm, angles in degrees.

Directions are counter-clockwise from +X. The quarter turns are exact, so that a hole at 90 degrees
stands at x = 0 and not at 6e-17.
"""

from __future__ import annotations

import math

Point2 = tuple[float, float]
Point3 = tuple[float, float, float]

_EXACT = {0: (1.0, 0.0), 90: (0.0, 1.0), 180: (-1.0, 0.0), 270: (0.0, -1.0)}


def direction(angle_deg: float) -> Point2:
    """Return the unit vector at an angle."""
    turned = angle_deg % 360
    if turned in _EXACT:
        return _EXACT[int(turned)]
    return math.cos(math.radians(turned)), math.sin(math.radians(turned))


def polar(centre: Point2, radius: float, angle_deg: float) -> Point2:
    """Return the point at ``radius`` and ``angle_deg`` from ``centre``."""
    along, up = direction(angle_deg)
    return centre[0] + radius * along, centre[1] + radius * up


def angle_of(origin: Point2, target: Point2) -> float:
    """Return the direction from ``origin`` to ``target`` in [0, 360)."""
    return math.degrees(math.atan2(target[1] - origin[1], target[0] - origin[0])) % 360


def distance(a: Point2, b: Point2) -> float:
    """Return the distance between two points."""
    return math.hypot(b[0] - a[0], b[1] - a[1])


def distance_to_segment(point: Point2, a: Point2, b: Point2) -> float:
    """Return the least distance from a point to the segment a-b."""
    length2 = (b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2
    if length2 == 0:
        return distance(point, a)
    along = ((point[0] - a[0]) * (b[0] - a[0]) + (point[1] - a[1]) * (b[1] - a[1])) / length2
    along = min(1.0, max(0.0, along))
    return distance(point, (a[0] + along * (b[0] - a[0]), a[1] + along * (b[1] - a[1])))


def inside_polygon(point: Point2, corners: tuple[Point2, ...]) -> bool:
    """Tell whether a point lies inside a closed polygon (even-odd rule)."""
    inside = False
    for (ax, ay), (bx, by) in zip(corners, corners[1:] + corners[:1], strict=True):
        if (ay > point[1]) != (by > point[1]) and point[0] < ax + (point[1] - ay) * (bx - ax) / (by - ay):
            inside = not inside
    return inside
