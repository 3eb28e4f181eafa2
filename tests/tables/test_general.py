"""General tolerances: tables without gaps, coarser grades never tighter, refusals that help."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setupsheet.tables import general, loader
from setupsheet.tables.unknown import NotInTables


@pytest.mark.parametrize("name", ["iso2768_linear", "iso2768_edges", "iso2768_angles"])
def test_tables_have_no_gap_or_overlap(name: str) -> None:
    """All four grades are there and run without a break."""
    assert {row["grade"] for row in loader.ranges(name, ("grade",))} == {"f", "m", "c", "v"}


@given(st.floats(3.001, 2000))
def test_coarser_is_never_tighter(size: float) -> None:
    """From f to v every value grows or stays, for lengths, edges and angles."""
    for look_up in (general.linear_mm, general.broken_edge_mm, general.angle_deg):
        values = [look_up(grade, size) for grade in general.grades()]
        assert values == sorted(values)


@given(st.floats(0.5, 4000), st.floats(0.5, 4000))
def test_longer_is_never_tighter_and_its_angle_never_looser(one: float, other: float) -> None:
    """A length's ± grows with the length, an angle's falls with its leg."""
    short, long = sorted((one, other))
    assert general.linear_mm("m", short) <= general.linear_mm("m", long)
    assert general.angle_deg("m", short) >= general.angle_deg("m", long)


@pytest.mark.parametrize(
    ("grade", "size", "near"),
    [
        ("x", 10, "f"),
        ("v", 2, "ISO 2768-1 f"),
        ("f", 2500, "ISO 2768-1 m"),
        ("m", 0.4, ""),
        ("m", 5000, ""),
        ("m", -1, ""),
        ("m", math.nan, ""),
    ],
)
def test_what_the_standard_leaves_open_is_refused(grade: str, size: float, near: str) -> None:
    """Outside the table a size needs its own tolerance."""
    with pytest.raises(NotInTables) as caught:
        general.linear_mm(grade, size)
    assert caught.value.nearest == near


def test_a_grade_in_capitals_is_not_a_grade() -> None:
    """'M' is near to 'm', not equal to it (K and H are grades of part 2)."""
    with pytest.raises(NotInTables, match="f, m, c, v") as caught:
        general.angle_deg("M", 10)
    assert caught.value.nearest == "m"
