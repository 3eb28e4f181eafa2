"""Regions of the plane and the passes that clear them."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from setupsheet.part.shape import BoxShape, CircleShape, PolygonShape, SlotShape
from setupsheet.plan.milling import area
from setupsheet.solid.volume import CircleLoop, EdgeLoop, LineEdge


def test_shapes_have_their_areas() -> None:
    """Box 12 x 5 = 60; triangle 12; circle and slot a little over pi r2, never under (drawn about them)."""
    assert area.size(area.of_shape(BoxShape((0, 0), (12, 5)))) == pytest.approx(60)
    assert area.size(area.of_shape(PolygonShape(((0, 0), (6, 0), (0, 4))))) == pytest.approx(12)
    assert 0 <= area.size(area.of_shape(CircleShape((3, 4), 10))) / (math.pi * 25) - 1 < 1e-3
    slot = math.pi * 9 + 20 * 6
    assert area.size(area.of_shape(SlotShape((0, 0), (20, 0), 6))) == pytest.approx(slot, rel=1e-3)


def test_plain_operations() -> None:
    """Two squares of 4 that share one of 2: 28 in all, 12 without, 4 in common."""
    a, b = area.rectangle((0, 0), (4, 4)), area.rectangle((2, 2), (6, 6))
    assert area.size(area.union([a, b])) == pytest.approx(28)
    assert area.size(area.without(a, b)) == pytest.approx(12)
    assert area.size(area.common(a, b)) == pytest.approx(4)
    assert area.is_empty(area.common(a, area.rectangle((4, 0), (9, 4))))
    assert area.bounds(area.union([a, b])) == ((0, 0), (6, 6))
    assert area.covers(a, area.rectangle((1, 1), (2, 2)))
    assert not area.covers(a, b)


def test_regions_that_share_an_area_and_touch_along_an_edge_elsewhere() -> None:
    """Only the shared area comes back: an edge beside it has no boundary that a cutter could run along."""
    stairs = area.union([area.rectangle((0, 0), (4, 4)), area.rectangle((4, 0), (8, 2))])
    shared = area.common(stairs, area.union([area.rectangle((2, 2), (4, 4)), area.rectangle((5, 2), (8, 4))]))
    assert [area.size(piece) for piece in area.polygons(shared)] == [pytest.approx(4)]
    assert area.size(area.grown(shared, 0.0)) == pytest.approx(4)
    assert shared.boundary is not None


def test_distances() -> None:
    """A point 1 inside, 2 outside (on its own side) of a square, and far from nothing."""
    square = area.rectangle((0, 0), (4, 4))
    assert area.distance_to_edge(square, (1, 2)) == pytest.approx(1)
    assert area.distance_to_edge(square, (6, 2)) == pytest.approx(-2)
    assert area.distance(square, (6, 2)) == pytest.approx(2)
    assert area.distance(area.nothing(), (0, 0)) == math.inf


def test_run_out_only_where_the_region_touches_the_edge() -> None:
    """A level at the right end runs out over right, front and back, not to the left."""
    out = area.run_out(area.rectangle((30, 0), (40, 20)), ((0, 0), (40, 20)))
    (x0, y0), (x1, y1) = area.bounds(out)
    assert x0 == pytest.approx(30)
    assert (x1 > 500, y0 < -500, y1 > 500) == (True, True, True)
    inner = area.rectangle((10, 5), (20, 15))
    assert area.bounds(area.run_out(inner, ((0, 0), (40, 20)))) == ((10, 5), (20, 15))


def test_squared_keeps_square_pieces_and_boxes_the_others() -> None:
    """An L stays an L; a triangle becomes its box."""
    ell = area.union([area.rectangle((0, 0), (6, 2)), area.rectangle((0, 0), (2, 6))])
    assert area.size(area.squared(ell)) == pytest.approx(20)
    triangle = area.of_shape(PolygonShape(((10, 0), (14, 0), (10, 4))))
    assert area.size(area.squared(triangle)) == pytest.approx(16)


def test_what_a_round_cutter_cannot_reach() -> None:
    """In one square inside corner a cutter of radius 6 leaves (1 - pi/4) 36 = 7.73 mm2."""
    keep = area.union([area.rectangle((-50, 20), (50, 30)), area.rectangle((20, -50), (30, 30))])
    target = area.without(area.rectangle((0, 0), (20, 20)), keep)
    assert area.size(area.unreached(target, keep, 6.0)) == pytest.approx((1 - math.pi / 4) * 36, rel=0.01)
    assert area.is_empty(area.unreached(target, area.nothing(), 6.0))


def test_gap_too_narrow_for_the_cutter() -> None:
    """A gap of 8 between two blocks is out of reach for a cutter of 12, but not for one of 7."""
    keep = area.union([area.rectangle((-30, 0), (-4, 40)), area.rectangle((4, 0), (30, 40))])
    gap = area.rectangle((-4, 0), (4, 40))
    assert area.size(area.unreached(gap, keep, 6.0)) > 300
    assert area.is_empty(area.unreached(gap, keep, 3.5))


def test_loops_keep_islands() -> None:
    """A square with a hole comes back as one outline with one island."""
    ring = area.without(area.rectangle((0, 0), (9, 9)), area.rectangle((3, 3), (6, 6)))
    ((outer, islands),) = area.loops_of(ring)
    assert (len(outer.edges), len(islands), len(islands[0].edges)) == (4, 1, 4)
    assert area.size(area.of_loop(outer, islands)) == pytest.approx(72)


def test_carried_turns_and_mirrors() -> None:
    """Seen from below, x becomes 34 - x."""
    moved = area.carried(area.rectangle((62, 0), (80, 62)), lambda p: (34 - p[0], p[1] - 29))
    assert [value for corner in area.bounds(moved) for value in corner] == pytest.approx([-46, -29, -28, 33])


def test_chord_of_a_slanted_line() -> None:
    """The bracket's slant runs from (68, 62) to (80, 50) on the plate, in the direction that was written."""
    found = area.chord((60, 70), (90, 40), area.rectangle((0, 0), (80, 62)))
    assert found is not None
    assert found[0] == pytest.approx((68, 62))
    assert found[1] == pytest.approx((80, 50))
    assert area.chord((0, 100), (10, 100), area.rectangle((0, 0), (80, 62))) is None


def test_an_island_across_the_outline_takes_only_what_lies_inside() -> None:
    """A circle of radius 2 about a corner of a 10 x 10 square: a quarter of it is gone, and the rest is sound."""
    corners = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0), (0.0, 0.0))
    square = EdgeLoop(tuple(LineEdge(a, b) for a, b in pairwise(corners)))
    left = area.of_loop(square, [CircleLoop((0.0, 0.0), 2.0)])
    assert area.size(left) == pytest.approx(100 - math.pi, abs=0.01)
    assert area.covers(area.rectangle((0.0, 0.0), (10.0, 10.0)), left)
