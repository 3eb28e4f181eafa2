"""The order of places: short ways, always the same, from the front left one on."""

from __future__ import annotations

import math
from itertools import pairwise

from hypothesis import given
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
    """All places once; the order that they are given in does not matter; each next one is the nearest left."""
    places = [_at(f"H{i}", x, y) for i, (x, y) in enumerate(points)]
    ordered = short_travel(places)
    assert sorted(p.label for p in ordered) == sorted(p.label for p in places)
    assert short_travel(data.draw(st.permutations(places))) == ordered
    for index, (here, there) in enumerate(pairwise(ordered)):
        ways = [math.dist((here.x, here.y), (p.x, p.y)) for p in ordered[index + 1 :]]
        assert math.dist((here.x, here.y), (there.x, there.y)) <= min(ways) + 1e-6


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
