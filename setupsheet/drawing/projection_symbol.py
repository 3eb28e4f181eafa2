"""The symbol that says where the views stand: first angle or third angle.

A blunt cone seen from the side beside its view from the small end. Both circles of that view can be seen
only from the small end; so in third angle they stand beside the small end, in first angle beside the large
one. Proportions (circles h and 2h, cone 2h long, gap h) are from memory of ISO 5456-2.
"""

from __future__ import annotations

from collections.abc import Iterable

from setupsheet.drawing.ink import Circle, Dimension, Line, Pen, Polyline, Stroke
from setupsheet.plane import Point2

_OVER_MM = 0.8
"""How far centre lines run past the outlines; they are short, hence drawn continuous."""


def symbol(projection: str, centre: Point2, h: float) -> tuple[Stroke, ...]:
    """Return the symbol for 'first' or 'third', 5h wide and 2h high, about ``centre``.

    The small end of the cone points left. Raises ValueError for another word.
    """
    if projection not in {"first", "third"}:
        raise ValueError(f"no such projection: {projection!r}")
    x, y = centre
    cone_at, circles_at = (-1.5, 1.5) if projection == "first" else (1.5, -1.5)
    return (*_cone((x + cone_at * h, y), h), *_rings((x + circles_at * h, y), h))


def size(h: float) -> Point2:
    """Return width and height of the symbol with its centre lines."""
    return 5 * h + 2 * _OVER_MM, 2 * h + 2 * _OVER_MM


def read(items: Iterable[Stroke | Dimension]) -> str:
    """Return the projection that a drawn symbol shows, '' where there is none: the check of the rule above."""
    circles: list[Circle] = []
    cones: list[Polyline] = []
    for item in items:
        if isinstance(item, Circle):
            circles.append(item)
        elif isinstance(item, Polyline) and item.closed and len(item.points) == 4:
            cones.append(item)
    if len(circles) != 2 or circles[0].centre != circles[1].centre or len(cones) != 1:
        return ""
    small, large = _ends(cones[0])
    circles_x = circles[0].centre[0]
    return "third" if abs(circles_x - small) < abs(circles_x - large) else "first"


def _ends(cone: Polyline) -> tuple[float, float]:
    """Return the places of the small and the large end along X."""
    spans: dict[float, list[float]] = {}
    for x, y in cone.points:
        spans.setdefault(x, []).append(y)
    by_height = sorted(spans, key=lambda x: max(spans[x]) - min(spans[x]))
    return by_height[0], by_height[-1]


def _cone(centre: Point2, h: float) -> tuple[Stroke, ...]:
    x, y = centre
    outline = ((x - h, y - h / 2), (x + h, y - h), (x + h, y + h), (x - h, y + h / 2))
    axis = Line(Pen.THIN, (x - h - _OVER_MM, y), (x + h + _OVER_MM, y))
    return Polyline(Pen.THIN, outline, closed=True), axis


def _rings(centre: Point2, h: float) -> tuple[Stroke, ...]:
    x, y = centre
    far = h + _OVER_MM
    return (
        Circle(Pen.THIN, centre, h / 2),
        Circle(Pen.THIN, centre, h),
        Line(Pen.THIN, (x - far, y), (x + far, y)),
        Line(Pen.THIN, (x, y - far), (x, y + far)),
    )
