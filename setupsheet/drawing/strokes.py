"""Small steps with strokes: move them, bound them, arrowheads, lines of text with their boxes."""

from __future__ import annotations

import math
from dataclasses import replace

from setupsheet.drawing import signs
from setupsheet.drawing.boxes import Rect, grow, join, turned
from setupsheet.drawing.ink import (
    Arc,
    Circle,
    Dimension,
    Ellipse,
    Fill,
    Group,
    Line,
    Polyline,
    Stroke,
    Text,
)
from setupsheet.plane import Point2, polar

DESCENT = 0.3
"""How far letters and signs hang below the base line, in text heights."""
_HALF_WIDTH = math.tan(math.radians(7.5))
"""Half the width of a filled arrowhead of 15 degrees over its length (ISO 129-1 as textbooks give it)."""


def arrowhead(tip: Point2, angle_deg: float, length: float) -> Fill:
    """Return a filled arrowhead that points along ``angle_deg`` with its tip at ``tip``."""
    back = polar(tip, -length, angle_deg)
    half = length * _HALF_WIDTH
    return Fill((tip, polar(back, half, angle_deg + 90), polar(back, half, angle_deg - 90)))


def moved(item: Stroke | Dimension, by: Point2) -> Stroke | Dimension:
    """Return a stroke or a dimension moved by a vector."""
    if isinstance(item, Dimension):
        strokes = tuple(moved_stroke(stroke, by) for stroke in item.strokes)
        points = tuple(_at(p, by) for p in item.points)
        return replace(item, points=points, line_at=_at(item.line_at, by), strokes=strokes)
    return moved_stroke(item, by)


def moved_stroke(stroke: Stroke, by: Point2) -> Stroke:
    """Return a stroke moved by a vector."""
    if isinstance(stroke, Line):
        return Line(stroke.pen, _at(stroke.a, by), _at(stroke.b, by))
    if isinstance(stroke, Circle | Arc | Ellipse):
        return replace(stroke, centre=_at(stroke.centre, by))
    if isinstance(stroke, Polyline | Fill):
        return replace(stroke, points=tuple(_at(p, by) for p in stroke.points))
    return replace(stroke, at=_at(stroke.at, by))


def moved_group(group: Group, by: Point2) -> Group:
    """Return a group with all that is in it moved by a vector."""
    low, high = group.box
    return replace(group, items=tuple(moved(item, by) for item in group.items), box=(_at(low, by), _at(high, by)))


def _at(point: Point2, by: Point2) -> Point2:
    return point[0] + by[0], point[1] + by[1]


def text_room(text: Text) -> Rect:
    """Return the upright box of a line of text, signs and hanging letters included."""
    wide = signs.width(text.text, text.height, text.bold)
    foot = {"left": 0.0, "middle": -wide / 2, "right": -wide}[text.anchor]
    at = polar(text.at, foot, text.angle_deg)
    return turned(at, wide, -DESCENT * text.height, text.height, text.angle_deg)


def stroke_box(stroke: Stroke) -> Rect:
    """Return the box of a stroke; arcs and ellipses as whole circles about their centre."""
    if isinstance(stroke, Line):
        return join([(stroke.a, stroke.a), (stroke.b, stroke.b)])
    if isinstance(stroke, Circle):
        return grow((stroke.centre, stroke.centre), stroke.radius)
    if isinstance(stroke, Arc):
        return _arc_box(stroke)
    if isinstance(stroke, Ellipse):
        return grow((stroke.centre, stroke.centre), math.hypot(*stroke.major))
    if isinstance(stroke, Polyline | Fill):
        return join([(p, p) for p in stroke.points])
    return text_room(stroke)


def _arc_box(arc: Arc) -> Rect:
    angles = [arc.from_deg, arc.to_deg]
    sweep = (arc.to_deg - arc.from_deg) % 360
    angles += [a for a in (0.0, 90.0, 180.0, 270.0) if (a - arc.from_deg) % 360 <= sweep]
    points = [polar(arc.centre, arc.radius, a) for a in angles]
    return join([(p, p) for p in points])


def items_box(items: tuple[Stroke | Dimension, ...]) -> Rect:
    """Return the box round strokes and dimensions; raises ValueError when there is none."""
    boxes: list[Rect] = []
    for item in items:
        strokes = item.strokes if isinstance(item, Dimension) else (item,)
        boxes += [stroke_box(stroke) for stroke in strokes]
    return join(boxes)


def straights(stroke: Stroke) -> list[tuple[Point2, Point2]]:
    """Return the straight pieces of a stroke."""
    if isinstance(stroke, Line):
        return [(stroke.a, stroke.b)]
    if isinstance(stroke, Polyline):
        closing = [(stroke.points[-1], stroke.points[0])] if stroke.closed else []
        return [*zip(stroke.points, stroke.points[1:], strict=False), *closing]
    return []
