"""The order of places: short ways, always the same, from the front left one on."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise, permutations

from hypothesis import given, settings
from hypothesis import strategies as st

from setupsheet.plan.holes.travel import one_way, short_travel
from setupsheet.plan.record import Position


def _at(label: str, x: float, y: float) -> Position:
    return Position(label, "hole", x, y, 0.0, -1.0, -1.0, {})


def test_row_is_driven_from_one_end() -> None:
    """Given 3, 1, 2: from the front left one on to its nearest neighbour each time."""
    row = [_at("A3", 60, 0), _at("A1", 0, 0), _at("A2", 30, 0)]
    assert [p.label for p in short_travel(row)] == ["A1", "A2", "A3"]


def test_ties_go_by_label() -> None:
    """Two places equally far: the earlier label."""
    cross = [_at("M", 0, 0), _at("B", 10, 5), _at("A", 5, 10)]
    assert [p.label for p in short_travel(cross)] == ["M", "A", "B"]


POINTS = st.lists(st.tuples(st.integers(-50, 50), st.integers(-50, 50)), min_size=1, max_size=9, unique=True)


@given(points=POINTS, data=st.data())
def test_same_places_same_order(points: list[tuple[int, int]], data: st.DataObject) -> None:
    """All places once; the order that they are given in does not matter."""
    places = [_at(f"H{i}", x, y) for i, (x, y) in enumerate(points)]
    ordered = short_travel(places)
    assert sorted(p.label for p in ordered) == sorted(p.label for p in places)
    assert short_travel(data.draw(st.permutations(places))) == ordered


@given(st.lists(st.tuples(st.integers(-50, 50), st.integers(-50, 50)), min_size=1, max_size=40, unique=True))
def test_never_longer_than_from_each_to_the_nearest(points: list[tuple[int, int]]) -> None:
    """From the front left place to the nearest left each time is a way that anybody would go."""
    places = [_at(f"H{i:02d}", x, y) for i, (x, y) in enumerate(points)]
    here = min(places, key=lambda p: (p.x + p.y, p.x, p.label))
    left, way = [p for p in places if p is not here], 0.0
    while left:
        there = min(left, key=lambda p: (round(math.dist((here.x, here.y), (p.x, p.y)), 6), p.label))
        way += math.dist((here.x, here.y), (there.x, there.y))
        left.remove(there)
        here = there
    assert _way(short_travel(places)) <= way + 1e-6


@given(st.lists(st.tuples(st.integers(-50, 50), st.integers(-50, 50)), min_size=2, max_size=6, unique=True))
@settings(max_examples=40)
def test_few_places_by_nearly_the_shortest_way(points: list[tuple[int, int]]) -> None:
    """Within a twentieth of the shortest of all orders, from whichever place."""
    places = [_at(f"H{i}", x, y) for i, (x, y) in enumerate(points)]
    assert _way(short_travel(places)) <= min(map(_way, permutations(places))) * 1.05 + 1e-6


def test_seven_places_where_the_nearest_misleads() -> None:
    """On a line 0 1 -1 3 -5 11 -21 apart the nearest lies always on the other side: over all orders 32 is least."""
    places = [_at(f"H{i}", x, 0) for i, x in enumerate((0, 1, -1, 3, -5, 11, -21))]
    assert min(map(_way, permutations(places))) == 32
    assert _way(short_travel(places)) == 32


def test_a_grid_is_driven_in_rows_there_and_back() -> None:
    """A grid of 14 by 12 at 10: the shortest way has 167 legs of 10, and there is no shorter one."""
    grid = [_at(f"G{i:02d}{j:02d}", 10 * i, 10 * j) for i in range(14) for j in range(12)]
    assert _way(short_travel(grid)) <= 1670 * 1.02


def _way(row: Sequence[Position]) -> float:
    return sum(math.dist((a.x, a.y), (b.x, b.y)) for a, b in pairwise(row))


@given(
    st.lists(st.tuples(st.integers(0, 40), st.integers(0, 40)), min_size=2, max_size=12, unique=True),
    st.sampled_from([(1, 1), (-1, 1), (1, -1), (-1, -1)]),
)
def test_one_way_turns_one_dial_never(points: list[tuple[int, int]], signs: tuple[int, int]) -> None:
    """Every place is driven to once, and one of the two dials goes one way from the first place to the last."""
    places = {("h", str(i)): (float(x), float(y)) for i, (x, y) in enumerate(points)}
    row = one_way(places, signs)
    assert sorted(row) == sorted(places)
    ways = [[places[key][axis] * signs[axis] for key in row] for axis in (0, 1)]
    assert any(way == sorted(way) for way in ways)
