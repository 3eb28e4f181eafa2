"""Plain flat records for what a view shows: lines, arcs, circles, ellipses, polylines (mm, degrees).

Coordinates are those of the view: X to the right, Y up, millimetres at full size. Angles run
counter-clockwise. There are no splines: what is none of the exact curves is a polyline within
``NEAR_MM`` of the true curve.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from setupsheet.plane import Point2, polar

NEAR_MM = 0.01
"""No polyline lies further from its curve."""


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line."""

    a: Point2
    b: Point2


@dataclass(frozen=True, slots=True)
class Circle:
    """A full circle."""

    centre: Point2
    radius: float


@dataclass(frozen=True, slots=True)
class Arc:
    """An arc, counter-clockwise from ``from_deg`` (in [0, 360)) to ``to_deg`` (greater, at most a turn more)."""

    centre: Point2
    radius: float
    from_deg: float
    to_deg: float


@dataclass(frozen=True, slots=True)
class Ellipse:
    """A full or partial ellipse: ``major`` is the vector of the long half axis, parameters in degrees."""

    centre: Point2
    major: Point2
    ratio: float
    from_deg: float = 0.0
    to_deg: float = 360.0


@dataclass(frozen=True, slots=True)
class Polyline:
    """A chain of points within ``NEAR_MM`` of the curve that it stands for."""

    points: tuple[Point2, ...]
    closed: bool = False


Flat = Line | Circle | Arc | Ellipse | Polyline


@dataclass(frozen=True, slots=True)
class Outlines:
    """What is seen and what is hidden, each merged and in a fixed order; nothing hidden lies under a seen line."""

    visible: tuple[Flat, ...]
    hidden: tuple[Flat, ...] = ()


@dataclass(frozen=True, slots=True)
class CutLoop:
    """A closed loop of a cut area: its edges, and ``points`` along them within ``NEAR_MM``, end to end."""

    edges: tuple[Flat, ...]
    points: tuple[Point2, ...]


@dataclass(frozen=True, slots=True)
class CutArea:
    """Cut metal to be hatched: the rim and the openings in it."""

    rim: CutLoop
    openings: tuple[CutLoop, ...] = ()


@dataclass(frozen=True, slots=True)
class Section:
    """A section: cut areas and what is seen of the body beyond (the rims of the areas included)."""

    areas: tuple[CutArea, ...]
    seen: Outlines


def chain(flat: Flat, near_mm: float = NEAR_MM) -> tuple[Point2, ...]:
    """Return points along a record, first and last point included, within ``near_mm`` of it."""
    match flat:
        case Line():
            return (flat.a, flat.b)
        case Polyline():
            return (*flat.points, flat.points[0]) if flat.closed else flat.points
        case Circle():
            steps = _steps(flat.radius, 360.0, near_mm)
            return tuple(polar(flat.centre, flat.radius, 360.0 * i / steps) for i in range(steps + 1))
        case Arc():
            sweep = flat.to_deg - flat.from_deg
            steps = _steps(flat.radius, sweep, near_mm)
            return tuple(polar(flat.centre, flat.radius, flat.from_deg + sweep * i / steps) for i in range(steps + 1))
        case Ellipse():
            sweep = flat.to_deg - flat.from_deg
            steps = _steps(math.hypot(*flat.major), sweep, near_mm)
            return tuple(on_ellipse(flat, flat.from_deg + sweep * i / steps) for i in range(steps + 1))


def on_ellipse(ellipse: Ellipse, parameter_deg: float) -> Point2:
    """Return the point of an ellipse at a parameter (0 at the end of ``major``)."""
    along, across = polar((0.0, 0.0), 1.0, parameter_deg)
    (mx, my), (cx, cy), across = ellipse.major, ellipse.centre, across * ellipse.ratio
    return cx + along * mx - across * my, cy + along * my + across * mx


def _steps(radius: float, sweep_deg: float, near_mm: float) -> int:
    """Return into how many chords a bow is cut so that none is further than ``near_mm`` from it."""
    if radius <= near_mm:
        return 8
    step = 2 * math.degrees(math.acos(1 - near_mm / radius))
    return max(2, math.ceil(sweep_deg / step))
