"""Pushing things apart along a line."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setupsheet.drawing.spread import spread, spread_within

PLACES = st.lists(st.floats(0, 200), min_size=1, max_size=12).map(sorted)


@given(PLACES, st.floats(0.5, 8))
def test_neighbours_never_touch_and_keep_their_order(places: list[float], room: float) -> None:
    """Between the middles of neighbours lies at least one room and the gap."""
    out = spread(places, [room] * len(places), 1.0)
    assert all(b - a >= room + 1.0 - 1e-6 for a, b in pairwise(out))


@given(PLACES)
def test_what_has_room_stays(places: list[float]) -> None:
    """Things that do not touch are not moved."""
    apart = [place + 10.0 * k for k, place in enumerate(places)]
    assert spread(apart, [5.0] * len(apart), 1.0) == pytest.approx(apart)


def test_two_at_one_place_move_by_half_each() -> None:
    """Least squares: both give way by the same amount."""
    assert spread([10.0, 10.0], [4.0, 4.0], 1.0) == pytest.approx([7.5, 12.5])


@given(PLACES)
def test_within_keeps_inside_when_there_is_room(places: list[float]) -> None:
    """No thing leaves the range as long as all of them fit into it."""
    rooms = [3.0] * len(places)
    out = spread_within(places, rooms, 0.5, 0.0, 210.0)
    assert out[0] >= 1.5 - 1e-6
    assert out[-1] <= 208.5 + 1e-6
