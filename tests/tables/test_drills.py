"""Drills by name and by size."""

from __future__ import annotations

import itertools

import pytest

from setupsheet.tables import drills
from setupsheet.tables.unknown import NotInTables


def test_a_name_finds_its_size_again() -> None:
    """Every label names the size that carries it."""
    for size in drills.sizes():
        if size.label != "1":  # one inch; a bare 1 is a metric drill
            assert drills.named(size.label) == (size.diameter_mm, size.label)


def test_numbers_grow_thinner_and_letters_thicker() -> None:
    """No. 80 to no. 1, then A to Z: each is thicker than the one before (as every chart prints them)."""
    numbers = [drills.named(f"#{number}")[0] for number in range(80, 0, -1)]
    letters = [drills.named(letter)[0] for letter in "ABCDEFGHIJKLMNOPQRSTUVWXYZ"]
    row = numbers + letters
    assert all(one < other for one, other in itertools.pairwise(row))


@pytest.mark.parametrize(
    ("text", "near"),
    [("#81", "no. 80"), ("no. 0", "no. 80"), ("1/0", "1/64"), ("1/3", "21/64"), ("6.53 mm", "6.5 mm"), ("AA", "no. 7")],
)
def test_what_is_no_drill_says_what_is(text: str, near: str) -> None:
    """A drill that is not sold names the nearest one."""
    with pytest.raises(NotInTables) as fault:
        drills.named(text)
    assert near in fault.value.nearest


def test_nearest_in_a_series() -> None:
    """The nearest metric and inch sizes to 5.105 mm."""
    assert drills.nearest(5.105, "metric") == (5.1, "5.1 mm")
    assert drills.nearest(1e20, "metric") == drills.nearest(1e3, "metric")
    assert drills.nearest(5.105, "inch")[1] == "no. 7"
    assert drills.nearest(5.105, "fraction")[1] == "13/64"
