"""Corners that a radius takes away: narrow lines carry the edges on to the point that is dimensioned.

A pocket of slanted edges is fixed by the corners of its polygon; where they are rounded nothing else would
show at those places (ISO 129-1: projection lines meet in the imaginary intersection).
"""

from __future__ import annotations

import math

from setupsheet.drawing.frames import Frame, seen_at
from setupsheet.drawing.ink import Line, Pen
from setupsheet.part.face import Face
from setupsheet.part.feature import Level, Pocket
from setupsheet.part.part import Part
from setupsheet.part.shape import PolygonShape
from setupsheet.plane import Point2, distance

_STRAIGHT = 1e-9


def corner_lines(part: Part, face: Face, frame: Frame) -> tuple[Line, ...]:
    """Return the narrow lines of a view, from where each rounding starts to the corner of the polygon (view mm)."""
    found: list[Line] = []
    for feature in part.features:
        if not isinstance(feature, Pocket | Level) or feature.face is not face:
            continue
        shape = feature.shape if isinstance(feature, Pocket) else feature.area
        if isinstance(shape, PolygonShape) and shape.corner_radius_mm:
            for at in range(len(shape.corners)):
                found += _lines(shape, at, face, frame)
    return tuple(found)


def _lines(shape: PolygonShape, at: int, face: Face, frame: Frame) -> list[Line]:
    here, starts = shape.corners[at], roundings(shape, at)
    if starts is None or all(abs(p[0] - here[0]) < _STRAIGHT or abs(p[1] - here[1]) < _STRAIGHT for p in starts):
        return []
    corner = seen_at(here, face, frame)
    return [Line(Pen.THIN, seen_at(start, face, frame), corner) for start in starts]


def roundings(shape: PolygonShape, at: int) -> tuple[Point2, Point2] | None:
    """Return where the rounding of a corner meets its two edges; None where metal stands out and stays sharp."""
    corners = shape.corners
    here, before, after = corners[at], corners[at - 1], corners[(at + 1) % len(corners)]
    a, b = _unit(here, before), _unit(here, after)
    turn = a[0] * b[1] - a[1] * b[0]
    if turn * _area(corners) > -_STRAIGHT:
        return None
    half = math.acos(max(-1.0, min(1.0, a[0] * b[0] + a[1] * b[1]))) / 2
    reach = shape.corner_radius_mm / math.tan(half)
    return (here[0] + reach * a[0], here[1] + reach * a[1]), (here[0] + reach * b[0], here[1] + reach * b[1])


def _area(corners: tuple[Point2, ...]) -> float:
    """Return twice the area, positive when the corners run counter-clockwise."""
    pairs = zip(corners, (*corners[1:], corners[0]), strict=True)
    return sum(p[0] * q[1] - p[1] * q[0] for p, q in pairs)


def _unit(a: Point2, b: Point2) -> Point2:
    length = distance(a, b)
    return (b[0] - a[0]) / length, (b[1] - a[1]) / length
