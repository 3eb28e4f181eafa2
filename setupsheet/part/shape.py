"""Flat shapes in which areas are written: boxes, circles, polygons, round-ended slots.

Coordinates are the two part axes that lie in the feature's face, in alphabetical order: (x, y) on
top and bottom, (x, z) on front and back, (y, z) on left and right. All in mm.
"""

from __future__ import annotations

from dataclasses import dataclass

from setupsheet.plane import Point2


@dataclass(frozen=True, slots=True)
class BoxShape:
    """A rectangle along the axes; ``corner_radius_mm`` rounds its four corners."""

    low: Point2
    high: Point2
    corner_radius_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class CircleShape:
    """A circle."""

    centre: Point2
    diameter_mm: float


@dataclass(frozen=True, slots=True)
class PolygonShape:
    """A closed polygon with sharp corners, or with one radius at every inside corner."""

    corners: tuple[Point2, ...]
    corner_radius_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class SlotShape:
    """A round-ended slot: the path of a disc of ``width_mm`` from ``start`` to ``end`` (its centres)."""

    start: Point2
    end: Point2
    width_mm: float


Shape = BoxShape | CircleShape | PolygonShape | SlotShape
