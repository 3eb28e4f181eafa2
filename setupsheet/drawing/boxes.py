"""Boxes on paper: what takes room, what touches what, and the free room that is left.

A box is its lower left and its upper right corner, paper mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterable

from setupsheet.plane import Point2

Rect = tuple[Point2, Point2]
Segment = tuple[Point2, Point2]


def rect(x0: float, y0: float, x1: float, y1: float) -> Rect:
    """Return the box between two corners given in any order."""
    return (min(x0, x1), min(y0, y1)), (max(x0, x1), max(y0, y1))


def grow(box: Rect, by: float) -> Rect:
    """Return the box larger by ``by`` on every side."""
    return (box[0][0] - by, box[0][1] - by), (box[1][0] + by, box[1][1] + by)


def shift(box: Rect, by: Point2) -> Rect:
    """Return the box moved by a vector."""
    return (box[0][0] + by[0], box[0][1] + by[1]), (box[1][0] + by[0], box[1][1] + by[1])


def size(box: Rect) -> Point2:
    """Return width and height."""
    return box[1][0] - box[0][0], box[1][1] - box[0][1]


def join(boxes: Iterable[Rect]) -> Rect:
    """Return the box round all boxes; raises ValueError when there is none."""
    many = list(boxes)
    return (
        (min(b[0][0] for b in many), min(b[0][1] for b in many)),
        (max(b[1][0] for b in many), max(b[1][1] for b in many)),
    )


def overlap(a: Rect, b: Rect, clear: float = 0.0) -> bool:
    """Tell whether two boxes come closer than ``clear`` (0: whether they share any area)."""
    slack = clear - 1e-9
    return (
        a[0][0] < b[1][0] + slack
        and b[0][0] < a[1][0] + slack
        and a[0][1] < b[1][1] + slack
        and b[0][1] < a[1][1] + slack
    )


def inside(inner: Rect, outer: Rect) -> bool:
    """Tell whether one box lies in the other, touching allowed."""
    return (
        inner[0][0] >= outer[0][0] - 1e-6
        and inner[0][1] >= outer[0][1] - 1e-6
        and inner[1][0] <= outer[1][0] + 1e-6
        and inner[1][1] <= outer[1][1] + 1e-6
    )


def turned(at: Point2, width: float, low: float, high: float, angle_deg: float) -> Rect:
    """Return the upright box round a flat box that starts at ``at`` and is turned about it.

    The flat box reaches from 0 to ``width`` along the turned X and from ``low`` to ``high`` across.
    """
    cos, sin = math.cos(math.radians(angle_deg)), math.sin(math.radians(angle_deg))
    corners = [(at[0] + x * cos - y * sin, at[1] + x * sin + y * cos) for x in (0.0, width) for y in (low, high)]
    return join([(c, c) for c in corners])


def crosses(box: Rect, line: Segment) -> bool:
    """Tell whether a segment has any length inside a box (touching a side does not count)."""
    (x0, y0), (x1, y1) = line
    (left, low), (right, high) = box
    if (
        (x0 <= left + 1e-9 and x1 <= left + 1e-9)
        or (x0 >= right - 1e-9 and x1 >= right - 1e-9)
        or (y0 <= low + 1e-9 and y1 <= low + 1e-9)
        or (y0 >= high - 1e-9 and y1 >= high - 1e-9)
    ):
        return False
    near, far = 0.0, 1.0
    for start, delta, least, most in ((x0, x1 - x0, left, right), (y0, y1 - y0, low, high)):
        if abs(delta) > 1e-12:
            a, b = (least - start) / delta, (most - start) / delta
            near, far = max(near, min(a, b)), min(far, max(a, b))
    return far - near > 1e-9


def meets_circle(box: Rect, centre: Point2, radius: float, clear: float = 0.4) -> bool:
    """Tell whether the line of a circle runs through a box or comes closer than ``clear``."""
    (x0, y0), (x1, y1) = box
    dx = max(x0 - centre[0], centre[0] - x1, 0.0)
    dy = max(y0 - centre[1], centre[1] - y1, 0.0)
    if math.hypot(dx, dy) >= radius + clear:
        return False
    far = math.hypot(max(abs(x0 - centre[0]), abs(x1 - centre[0])), max(abs(y0 - centre[1]), abs(y1 - centre[1])))
    return far > radius - clear


def segments_cross(a: Segment, b: Segment) -> bool:
    """Tell whether two segments cross at a point inside both."""
    (p, q), (r, s) = a, b
    d1, d2 = _side(r, s, p), _side(r, s, q)
    d3, d4 = _side(p, q, r), _side(p, q, s)
    return d1 * d2 < -1e-9 and d3 * d4 < -1e-9


def _side(a: Point2, b: Point2, p: Point2) -> float:
    return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])
