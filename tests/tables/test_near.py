"""The nearest known word."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setupsheet.tables.near import distance, nearest


@pytest.mark.parametrize(
    ("one", "other", "steps"), [("kitten", "sitting", 3), ("H77", "H7", 1), ("6028", "6082", 1), ("", "abc", 3)]
)
def test_distance_of_known_pairs(one: str, other: str, steps: int) -> None:
    """The textbook pair of edit distance (kitten, sitting: 3) and three of our own, counted by hand."""
    assert distance(one, other) == steps


@given(st.text(max_size=8), st.text(max_size=8))
def test_distance_is_a_metric(one: str, other: str) -> None:
    """It is the same both ways, and nothing only between equals."""
    assert distance(one, other) == distance(other, one)
    assert (distance(one, other) == 0) == (one == other)


def test_nearest_takes_the_first_of_equals() -> None:
    """Same input, same answer; nothing is near where nothing is known."""
    assert nearest("H77", ["H6", "H7", "H8"]) == "H7"
    assert nearest("x", []) == ""
