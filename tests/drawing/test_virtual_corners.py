"""Rounded corners of slanted pockets: where the rounding starts, and which corners stay sharp."""

from __future__ import annotations

import math

import pytest

from setupsheet.drawing.virtual_corners import roundings
from setupsheet.part.shape import PolygonShape
from setupsheet.plane import distance

SQUARE = PolygonShape(((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)), 3.0)


@pytest.mark.parametrize("at", range(4))
def test_a_square_corner_starts_one_radius_off(at: int) -> None:
    """Both tangent points lie 3 mm from the corner."""
    starts = roundings(SQUARE, at)
    assert starts is not None
    assert [distance(SQUARE.corners[at], p) for p in starts] == [pytest.approx(3.0)] * 2


def test_a_slanted_corner_starts_at_the_tangent_points() -> None:
    """At 60 degrees the tangent length is r / tan 30 (geometry)."""
    shape = PolygonShape(((0.0, 0.0), (20.0, 0.0), (10.0, 10.0 * math.sqrt(3))), 2.0)
    starts = roundings(shape, 0)
    assert starts is not None
    assert [distance((0.0, 0.0), p) for p in starts] == [pytest.approx(2.0 / math.tan(math.radians(30)))] * 2


@pytest.mark.parametrize("turned", [False, True])
def test_a_corner_of_metal_that_stands_out_stays_sharp(turned: bool) -> None:
    """The inner corner of an L is no rounding, whichever way the polygon runs; the others are."""
    corners = ((0.0, 0.0), (20.0, 0.0), (20.0, 10.0), (10.0, 10.0), (10.0, 20.0), (0.0, 20.0))
    shape = PolygonShape(corners[::-1] if turned else corners, 2.0)
    sharp = [shape.corners[k] for k in range(6) if roundings(shape, k) is None]
    assert sharp == [(10.0, 10.0)]
