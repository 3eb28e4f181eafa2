"""Loops from shapes: areas by arithmetic, true tangent arcs, half planes."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setupsheet.part.shape import BoxShape, CircleShape, PolygonShape, Shape, SlotShape
from setupsheet.plane import distance
from setupsheet.solid import loops
from setupsheet.solid.volume import ArcEdge, EdgeLoop

_number = st.integers(-500, 500).map(lambda n: n / 10)


@given(_number, _number, st.integers(1, 400), st.integers(1, 400), st.integers(0, 9))
def test_a_rounded_box_loses_its_corners(x: float, y: float, w: int, h: int, tenths: int) -> None:
    """Area is width times height less (4 - pi) r2; every edge starts where the one before ended."""
    radius = min(w, h) / 2 * tenths / 9
    loop = loops.shape_loop(BoxShape((x, y), (x + w, y + h), radius))
    assert loops.area(loop) == pytest.approx(w * h - (4 - math.pi) * radius**2)
    assert isinstance(loop, EdgeLoop)
    for before, after in zip(loop.edges, (*loop.edges[1:], loop.edges[0]), strict=True):
        assert distance(before.b, after.a) < 1e-9
    low, high = loops.bounds(loop)
    assert (*low, *high) == pytest.approx((x, y, x + w, y + h))


@given(_number, _number, _number, _number, st.integers(1, 99))
def test_a_slot_is_a_rectangle_and_a_disc(ax: float, ay: float, bx: float, by: float, width: int) -> None:
    """Area is length times width and one disc; it reaches half its width past its ends."""
    loop = loops.shape_loop(SlotShape((ax, ay), (bx, by), width))
    length = math.hypot(bx - ax, by - ay)
    assert loops.area(loop) == pytest.approx(length * width + math.pi * width**2 / 4)
    low, high = loops.bounds(loop)
    assert low == pytest.approx((min(ax, bx) - width / 2, min(ay, by) - width / 2))
    assert high == pytest.approx((max(ax, bx) + width / 2, max(ay, by) + width / 2))


def test_an_l_shaped_area_and_the_same_as_an_island() -> None:
    """Cut, its five convex corners are round; left standing, only the reflex one; either way round."""
    corners = ((0.0, 0.0), (20.0, 0.0), (20.0, 10.0), (10.0, 10.0), (10.0, 20.0), (0.0, 20.0))
    per_corner = (1 - math.pi / 4) * 4
    for given_corners in (corners, corners[::-1]):
        cut = loops.shape_loop(PolygonShape(given_corners, 2.0))
        assert loops.area(cut) == pytest.approx(300 - 5 * per_corner)
        stands = loops.shape_loop(PolygonShape(given_corners, 2.0), island=True)
        assert loops.area(stands) == pytest.approx(300 + per_corner)
        for loop in (cut, stands):
            assert isinstance(loop, EdgeLoop)
            for edge in loop.edges:
                if isinstance(edge, ArcEdge):
                    assert distance(edge.a, edge.centre) == pytest.approx(2.0)
                    assert distance(edge.b, edge.centre) == pytest.approx(2.0)


@pytest.mark.parametrize(
    ("shape", "area"),
    [
        (BoxShape((0, 0), (10, 6)), 10.2 * 6.2),
        (CircleShape((0, 0), 10), math.pi * 5.1**2),
        (SlotShape((0, 0), (10, 0), 6), 62 + math.pi * 3.1**2),
        (PolygonShape(((0, 0), (10, 0), (10, 6), (0, 6))), 10.2 * 6.2),
    ],
)
def test_widening_moves_each_side_by_half(shape: Shape, area: float) -> None:
    """0.2 wider means 0.1 at each side."""
    assert loops.area(loops.shape_loop(shape, 0.2)) == pytest.approx(area)


@given(st.floats(0, 360), st.floats(-8, 8))
def test_two_half_planes_share_the_rectangle(angle: float, offset: float) -> None:
    """What lies on one side of a line and what lies on the other together are the whole."""
    u = (math.cos(math.radians(angle)), math.sin(math.radians(angle)))
    a = (5 + u[0] * offset, 5 + u[1] * offset)
    line = (a, (a[0] - u[1], a[1] + u[0]))
    one = loops.half_plane(line, u, (0, 0), (10, 10))
    two = loops.half_plane(line, (-u[0], -u[1]), (0, 0), (10, 10))
    total = sum(loops.area(loop) for loop in (one, two) if loop)
    assert total == pytest.approx(100, abs=1e-6)
