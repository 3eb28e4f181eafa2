"""What of a stroke lies within a circle: for details, which show one place of a view at a larger scale."""

from __future__ import annotations

import math
from collections.abc import Iterable
from itertools import pairwise

from setupsheet.drawing.ink import Arc, Circle, Ellipse, Fill, Line, Polyline, Stroke, Text
from setupsheet.plane import Point2, distance, polar

Round = tuple[Point2, float]
"""A circle: its centre and its radius."""
_SCRAP_MM = 0.05
_ELLIPSE_STEPS = 180


def clipped(strokes: Iterable[Stroke], window: Round) -> list[Stroke]:
    """Return the pieces of strokes that lie within a circle; texts and fills count by their place."""
    return [piece for stroke in strokes for piece in _within(stroke, window)]


def _within(stroke: Stroke, window: Round) -> list[Stroke]:
    if isinstance(stroke, Line):
        return [Line(stroke.pen, a, b) for a, b in _cut(stroke.a, stroke.b, window)]
    if isinstance(stroke, Circle | Arc):
        return _arcs(stroke, window)
    if isinstance(stroke, Polyline):
        points = (*stroke.points, stroke.points[0]) if stroke.closed else stroke.points
        return [Line(stroke.pen, a, b) for p, q in pairwise(points) for a, b in _cut(p, q, window)]
    if isinstance(stroke, Ellipse):
        return [Line(stroke.pen, a, b) for p, q in pairwise(_points(stroke)) for a, b in _cut(p, q, window)]
    at = stroke.at if isinstance(stroke, Text) else stroke.points[0]
    return [stroke] if isinstance(stroke, Fill | Text) and distance(at, window[0]) < window[1] else []


def _cut(a: Point2, b: Point2, window: Round) -> list[tuple[Point2, Point2]]:
    """Return the piece of a segment within the circle, if there is one."""
    (cx, cy), radius = window
    dx, dy, fx, fy = b[0] - a[0], b[1] - a[1], a[0] - cx, a[1] - cy
    square = dx * dx + dy * dy
    if square < 1e-12:
        return []
    half, rest = (fx * dx + fy * dy) / square, (fx * fx + fy * fy - radius * radius) / square
    under = half * half - rest
    if under <= 0:
        return []
    near, far = max(0.0, -half - math.sqrt(under)), min(1.0, -half + math.sqrt(under))
    if (far - near) * math.sqrt(square) < _SCRAP_MM:
        return []
    return [((a[0] + near * dx, a[1] + near * dy), (a[0] + far * dx, a[1] + far * dy))]


def _arcs(stroke: Circle | Arc, window: Round) -> list[Stroke]:
    """Return the pieces of a circle or an arc within the circle."""
    (centre, radius), far = window, distance(stroke.centre, window[0])
    whole = isinstance(stroke, Circle)
    start, sweep = (0.0, 360.0) if isinstance(stroke, Circle) else (stroke.from_deg, _sweep(stroke))
    if far + stroke.radius <= radius:
        return [stroke]
    if far >= radius + stroke.radius or far + radius <= stroke.radius:
        return []
    towards = math.degrees(math.atan2(centre[1] - stroke.centre[1], centre[0] - stroke.centre[0]))
    share = (far * far + stroke.radius**2 - radius * radius) / (2 * far * stroke.radius)
    half = math.degrees(math.acos(max(-1.0, min(1.0, share))))
    if whole:
        return [Arc(stroke.pen, stroke.centre, stroke.radius, towards - half, towards + half)]
    found: list[Stroke] = []
    for turn in (-360.0, 0.0, 360.0):
        low = max(start, start + (towards - half - start) % 360 + turn)
        high = min(start + sweep, start + (towards - half - start) % 360 + turn + 2 * half)
        if math.radians(high - low) * stroke.radius > _SCRAP_MM:
            found.append(Arc(stroke.pen, stroke.centre, stroke.radius, low, high))
    return found


def _sweep(arc: Arc) -> float:
    return (arc.to_deg - arc.from_deg) % 360 or 360.0


def _points(ellipse: Ellipse) -> list[Point2]:
    """Return points along an ellipse, close enough for the eye."""
    (cx, cy), (mx, my), ratio = ellipse.centre, ellipse.major, ellipse.ratio
    sweep = (ellipse.to_deg - ellipse.from_deg) % 360 or 360.0
    found = []
    for step in range(_ELLIPSE_STEPS + 1):
        along, across = polar((0.0, 0.0), 1.0, ellipse.from_deg + sweep * step / _ELLIPSE_STEPS)
        found.append((cx + along * mx - across * ratio * my, cy + along * my + across * ratio * mx))
    return found
