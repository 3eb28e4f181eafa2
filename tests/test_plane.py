"""Points, angles and distances in a plane."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setupsheet.plane import angle_of, direction, distance, distance_to_segment, inside_polygon, polar

coordinates = st.floats(-500, 500)
points = st.tuples(coordinates, coordinates)


@given(points, st.floats(0.5, 200), st.floats(-720, 720))
def test_polar_and_back(centre: tuple[float, float], radius: float, angle: float) -> None:
    """A point at radius and angle is found again by distance and direction."""
    point = polar(centre, radius, angle)
    assert distance(centre, point) == pytest.approx(radius, abs=1e-9)
    turned = (angle_of(centre, point) - angle) % 360
    assert min(turned, 360 - turned) < 1e-6


@pytest.mark.parametrize(
    ("angle", "expected"), [(0, (1, 0)), (90, (0, 1)), (180, (-1, 0)), (270, (0, -1)), (-90, (0, -1)), (450, (0, 1))]
)
def test_quarter_turns_are_exact(angle: float, expected: tuple[float, float]) -> None:
    """No 6e-17 at the quarter turns."""
    assert direction(angle) == expected


@given(points, points, points)
def test_segment_distance(point: tuple[float, float], a: tuple[float, float], b: tuple[float, float]) -> None:
    """A segment is no farther than its ends, and no nearer than its line allows."""
    least = distance_to_segment(point, a, b)
    assert least <= min(distance(point, a), distance(point, b)) + 1e-9
    assert least >= max(0.0, min(distance(point, a), distance(point, b)) - distance(a, b)) - 1e-9


@given(st.floats(-20, 20), st.floats(-20, 20))
def test_inside_square(x: float, y: float) -> None:
    """Inside a square is what its sides say, away from the edge."""
    corners = ((-10.0, -10.0), (10.0, -10.0), (10.0, 10.0), (-10.0, 10.0))
    if abs(abs(x) - 10) > 1e-6 and abs(abs(y) - 10) > 1e-6:
        assert inside_polygon((x, y), corners) == (abs(x) < 10 and abs(y) < 10)
