"""Inch classes: how callouts are read, what is refused, and what must hold for all of them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setupsheet.tables import loader
from setupsheet.tables.inch_fits import classes, inch_fit, looks_like_inch_fit
from setupsheet.tables.unknown import NotInTables


def test_ranges_have_no_gap_or_overlap() -> None:
    """Every class runs without a break to its last size, and every class has a name."""
    table = loader.ranges("b41_limits", ("class",), "in")
    assert {row["class"] for row in table} == set(classes())


@given(st.sampled_from(classes()), st.floats(0.01, 4.73))
def test_limits_never_cross(name: str, size: float) -> None:
    """Hole, shaft and clearance are in order; the letters say what kind of fit it is (ANSI B4.1)."""
    try:
        found = inch_fit(f"{size:.4f} {name}")
    except NotInTables as fault:
        found = inch_fit(fault.nearest)
    assert 0 <= found.hole_lower_in < found.hole_upper_in
    assert found.shaft_lower_in < found.shaft_upper_in
    assert found.clearance_min_in < found.clearance_max_in
    kinds = {"RC": "clearance", "LC": "clearance", "LT": "transition", "LN": "interference", "FN": "interference"}
    assert found.kind == kinds[name[:2]]


@pytest.mark.parametrize("text", ["1-1/2 LN2", "1.5 in LN2", '1.5" ln 2', "1 1/2 LN2"])
def test_one_size_in_many_ways(text: str) -> None:
    """Fractions, decimals and marks all mean 1.5 in."""
    assert inch_fit(text) == inch_fit("1.5 LN2")


@pytest.mark.parametrize(
    ("text", "near", "says"),
    [
        ("1 RC44", "1 RC4", "no class RC44"),
        ("0.2 LT3", "0.2000 LT1", "over 0.24"),
        ("25.4 mm RC4", "1.0000 RC4", "sizes in inches"),
        ("6 RC4", "4.7300 RC4", "to 4.73 in"),
        ("0 RC4", "", "over 0"),
        ("abc RC2", "1.0000 RC2", "not a length"),
        ("RC4", "1.0000 RC4", "not a length"),
        ("1/0 RC4", "1.0000 RC4", "0 below the line"),
        ("1.0", "1.0000 RC4", "not a size in inches"),
    ],
)
def test_what_does_not_exist_is_refused(text: str, near: str, says: str) -> None:
    """The fault names what was found and one thing that does exist."""
    with pytest.raises(NotInTables, match=says) as caught:
        inch_fit(text)
    assert (caught.value.found, caught.value.nearest) == (text, near)


def test_metric_callouts_are_not_taken_for_inch_fits() -> None:
    """H7 and g6 are no classes of B4.1; RC44 is at least meant as one."""
    assert [looks_like_inch_fit(text) for text in ("25 H7", "25 H7/g6", "1 RC4", "1 RC44")] == [
        False,
        False,
        True,
        True,
    ]
