"""Sizes of end mills that are sold. The table itself is common practice and memory; only its order and use are held."""

from __future__ import annotations

import pytest

from setupsheet.tables import end_mills


def test_both_series_rise_without_a_double() -> None:
    """Every size once, from thin to thick, each with where it comes from."""
    for series in ("mm", "inch"):
        sizes = end_mills.sizes(series)
        assert [s.diameter_mm for s in sizes] == sorted({s.diameter_mm for s in sizes})
        assert all(s.source for s in sizes)


@pytest.mark.parametrize(("asked", "series", "name"), [(7.4, "mm", "7"), (6.0, "mm", "6"), (7.0, "inch", "1/4")])
def test_largest_that_is_not_above(asked: float, series: str, name: str) -> None:
    """7.4 is not sold, 7 is; of the fractions under 7 mm the largest is 1/4."""
    found = end_mills.largest_upto(asked, series)
    assert found is not None
    assert found.name == name


def test_no_size_that_nobody_sells() -> None:
    """An odd width has no name; 3/8 in is 9.525 mm by definition of the inch."""
    assert end_mills.named(6.3) is None
    assert end_mills.largest_upto(1.0, "mm") is None
    named = end_mills.named(9.525)
    assert named is not None
    assert named.name == "3/8"
