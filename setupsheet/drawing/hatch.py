"""Hatching: narrow lines at one angle over a cut area, left out where the text stands."""

from __future__ import annotations

import math
from collections.abc import Sequence

from setupsheet.drawing.boxes import Rect
from setupsheet.drawing.ink import Line, Pen
from setupsheet.drawing.seen import Area, Outline
from setupsheet.plane import Point2

PITCH_MM = 3.0
_ANGLES = (45.0, 30.0, 60.0, 135.0, 20.0, 70.0, 120.0, 150.0, 15.0, 75.0, 105.0, 165.0)
"""Usual angle first; the others where an outline itself lies at it (common practice, no source)."""


def hatch(areas: Sequence[Area], holes: Sequence[Rect] = (), pitch: float = PITCH_MM) -> tuple[Line, ...]:
    """Return the hatch lines of all cut areas of a view, one angle for all of them.

    The pitch is closer where the areas are thin; the lines of all areas lie on one ruled sheet, so that
    they run through from one area to the next. ``holes`` are boxes that stay free.
    """
    angle = hatch_angle(areas)
    lines: list[Line] = []
    if any(_width(area) < 4 * pitch for area in areas):
        pitch = pitch * 2 / 3
    for area in areas:
        lines += _hatched(area, angle, pitch, holes)
    return tuple(lines)


def hatch_angle(areas: Sequence[Area]) -> float:
    """Return the first usual angle that differs by 10 degrees from every longer edge of the areas."""
    edges = [angle for area in areas for loop in (area.rim, *area.openings) for angle in _edge_angles(loop)]
    for angle in _ANGLES:
        if all(abs((angle - edge + 90) % 180 - 90) >= 10 for edge in edges):
            return angle
    return _ANGLES[0]


def _edge_angles(loop: Outline) -> list[float]:
    return [
        math.degrees(math.atan2(b[1] - a[1], b[0] - a[0])) % 180
        for a, b in zip(loop, loop[1:] + loop[:1], strict=True)
        if math.hypot(b[0] - a[0], b[1] - a[1]) > 2.0
    ]


def _width(area: Area) -> float:
    xs = [p[0] for p in area.rim]
    ys = [p[1] for p in area.rim]
    return min(max(xs) - min(xs), max(ys) - min(ys))


def _hatched(area: Area, angle: float, pitch: float, holes: Sequence[Rect]) -> list[Line]:
    cos, sin = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    loops = [area.rim, *area.openings, *(_corners(box) for box in holes if _touches(box, area))]
    turned = [tuple((x * cos + y * sin, y * cos - x * sin) for x, y in loop) for loop in loops]
    rim = turned[0]
    first = math.ceil((min(p[1] for p in rim) + 1e-6) / pitch)
    last = math.floor((max(p[1] for p in rim) - 1e-6) / pitch)
    lines = []
    for k in range(first, last + 1):
        level = k * pitch
        for a, b in _inside(turned, len(area.openings), level):
            lines.append(
                Line(
                    Pen.HATCH,
                    (a * cos - level * sin, a * sin + level * cos),
                    (b * cos - level * sin, b * sin + level * cos),
                )
            )
    return lines


def _inside(loops: list[tuple[Point2, ...]], openings: int, level: float) -> list[tuple[float, float]]:
    """Return the pieces of a level line inside the rim, outside openings and boxes."""
    pieces = _pieces(loops[0], level)
    for loop in loops[1 : 1 + openings] + loops[1 + openings :]:
        for out in _pieces(loop, level):
            pieces = [rest for piece in pieces for rest in _minus(piece, out)]
    return [(a, b) for a, b in pieces if b - a > 0.3]


def _pieces(loop: tuple[Point2, ...], level: float) -> list[tuple[float, float]]:
    cuts = []
    for (ax, ay), (bx, by) in zip(loop, loop[1:] + loop[:1], strict=True):
        if (ay > level) != (by > level):
            cuts.append(ax + (level - ay) * (bx - ax) / (by - ay))
    cuts.sort()
    return list(zip(cuts[::2], cuts[1::2], strict=False))


def _minus(piece: tuple[float, float], out: tuple[float, float]) -> list[tuple[float, float]]:
    a, b = piece
    if out[1] <= a or out[0] >= b:
        return [piece]
    return [(low, high) for low, high in ((a, out[0]), (out[1], b)) if high - low > 1e-9]


def _corners(box: Rect) -> Outline:
    (x0, y0), (x1, y1) = box
    return (x0, y0), (x1, y0), (x1, y1), (x0, y1)


def _touches(box: Rect, area: Area) -> bool:
    xs = [p[0] for p in area.rim]
    ys = [p[1] for p in area.rim]
    return box[0][0] < max(xs) and box[1][0] > min(xs) and box[0][1] < max(ys) and box[1][1] > min(ys)
