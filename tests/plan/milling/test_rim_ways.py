"""Ways along what must stand: walls and rows of points, by plain geometry."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from setupsheet.part.shape import BoxShape, CircleShape, PolygonShape, Shape
from setupsheet.plan.milling import area, passes, rim_ways
from setupsheet.plan.milling.area import Region
from setupsheet.plan.milling.passes import Clearing
from setupsheet.plane import Point2

ROOM = area.rectangle((-100.0, -100.0), (100.0, 100.0))


def opening(shape: Shape) -> tuple[Region, Region]:
    """Return an opening and what stands round it."""
    inside = area.of_shape(shape)
    return inside, area.without(ROOM, inside)


def test_square_pocket_has_four_walls_and_nothing_else() -> None:
    """Walls lie a radius inside, the metal on the left: round the pocket clockwise: conventional."""
    rim = rim_ways.rim_of(*opening(BoxShape((0.0, 0.0), (40.0, 30.0))), 5.0)
    assert rim.curves == ()
    assert len(rim.walls) == 4
    for a, b in rim.walls:
        assert min(abs(a[0] - b[0]), abs(a[1] - b[1])) < 1e-9
        left = (-(b[1] - a[1]), b[0] - a[0])
        middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
        away = (middle[0] - 20) * left[0] + (middle[1] - 15) * left[1]
        assert away > 0
    assert {round(v, 6) for wall in rim.walls for v in (wall[0][0], wall[1][0])} == {5.0, 35.0}


def test_round_pocket_is_one_row_of_places() -> None:
    """Every place of the centre is 13 - 6 from the middle and touches the circle."""
    rim = rim_ways.rim_of(*opening(CircleShape((3.0, 4.0), 26.0)), 6.0)
    assert rim.walls == ()
    (curve,) = rim.curves
    assert all(math.dist(t.centre, (3.0, 4.0)) == pytest.approx(7.0, abs=0.003) for t in curve)
    assert all(math.dist(t.centre, t.wall) == pytest.approx(6.0, abs=0.003) for t in curve)


def test_corner_of_the_way_is_a_place_of_its_own() -> None:
    """Slanted sides that meet: rows end in the very corner, whatever the spacing."""
    rim = rim_ways.rim_of(*opening(PolygonShape(((0.0, 0.0), (30.0, 4.0), (26.0, 30.0), (4.0, 28.0)))), 5.0)
    ends = [curve[0].centre for curve in rim.curves] + [curve[-1].centre for curve in rim.curves]
    assert len(rim.curves) == 4
    for end in ends:
        assert sum(math.dist(end, other) < 0.05 for other in ends) == 2


def test_places_are_never_farther_apart_than_asked() -> None:
    """A closed round way sampled at 2: all gaps are at most 2 and a hair, both ends are there."""
    (curve,) = rim_ways.rim_of(*opening(CircleShape((0.0, 0.0), 40.0)), 6.0).curves
    places = rim_ways.sampled(curve, 2.0)
    gaps = [math.dist(a.centre, b.centre) for a, b in pairwise(places)]
    assert max(gaps) < 2.1
    assert places[0] == curve[0]
    assert places[-1] == curve[-1]


def test_stop_is_found_along_the_feed() -> None:
    """Fed right at y 3 in a circle of 26 with a cutter of 12: sqrt(7^2 - 3^2)."""
    _, keep = opening(CircleShape((0.0, 0.0), 26.0))
    x, y = rim_ways.stop_beside(keep, 6.0)((0.0, 3.0), (20.0, 3.0))
    assert x == pytest.approx(math.sqrt(40.0), abs=0.003)
    assert y == pytest.approx(3.0)


def test_rows_are_joined_without_lifting() -> None:
    """A closed pocket is cleared in one way of legs along X and Y; an island between makes it two or more."""
    inside, keep = opening(BoxShape((0.0, 0.0), (40.0, 30.0)))
    clearing = Clearing(inside, keep, 4.0, 5.6, 0.2)
    (way,) = rim_ways.joined(clearing, passes.rough_passes(clearing))
    assert not way.outside
    for a, b in pairwise(way.path):
        assert min(abs(a[0] - b[0]), abs(a[1] - b[1])) < 1e-9
    island = area.rectangle((15.0, 0.0), (25.0, 24.0))
    split = Clearing(area.without(inside, island), area.union([keep, island]), 4.0, 5.6, 0.2)
    ways = rim_ways.joined(split, passes.rough_passes(split))
    swept = rim_ways.swept([w.path for w in ways], 4.0)
    assert len(ways) > 1
    assert area.is_empty(area.common(swept, area.union([keep, island])))


@pytest.mark.parametrize("radius", [3.0, 6.0])
def test_square_corner_keeps_what_a_round_cutter_leaves(radius: float) -> None:
    """(sqrt 2 - 1) r lies between a square corner and the cutter: arithmetic of the square."""
    inside, keep = opening(BoxShape((0.0, 0.0), (40.0, 30.0)))
    free = rim_ways.reachable(inside, keep, radius)
    left = area.without(inside, free)
    assert rim_ways.depth_of(left, free) == pytest.approx(radius * (math.sqrt(2) - 1), abs=0.01)


def test_start_is_clear_of_metal_and_of_what_stands() -> None:
    """Back from the wall until the cutter stands in cleared ground; None where there is no such ground."""
    _, keep = opening(BoxShape((0.0, 0.0), (40.0, 30.0)))
    skin = area.rectangle((0.0, 0.0), (1.0, 30.0))
    end: Point2 = (4.0, 15.0)
    assert rim_ways.clear_start(skin, keep, 4.0, end, (1.0, 0.0)) == pytest.approx(1.0)
    full = area.rectangle((0.0, 0.0), (40.0, 30.0))
    assert rim_ways.clear_start(full, keep, 4.0, end, (1.0, 0.0)) is None
