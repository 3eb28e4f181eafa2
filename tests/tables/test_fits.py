"""Limits of ISO 286: how callouts are read, what is refused, and what must hold for all of them."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setupsheet.tables import fits, loader
from setupsheet.tables.fits import limits, parse_fit
from setupsheet.tables.mating import mate
from setupsheet.tables.unknown import NotInTables

SIZES = st.floats(0.5, 500, allow_nan=False)
SYMBOLS = [
    f"{letter}{grade}" for hole in (True, False) for letter in fits.letters(hole=hole) for grade in fits.grades()
]


@pytest.mark.parametrize("name", ["iso286_holes", "iso286_shafts"])
def test_deviations_have_no_gap_or_overlap(name: str) -> None:
    """Every letter and group of grades runs without a break to its last size."""
    assert loader.ranges(name, ("letter", "from_grade", "to_grade"))


@pytest.mark.parametrize("name", ["iso286_grades", "iso286_delta"])
def test_grades_have_no_gap_or_overlap(name: str) -> None:
    """Every grade runs from 0 to 500 mm."""
    table = loader.ranges(name, ("grade",))
    for grade in {row["grade"] for row in table}:
        assert loader.find([row for row in table if row["grade"] == grade], 500.0)


@given(SIZES, st.sampled_from(SYMBOLS))
def test_limits_never_cross(size: float, symbol: str) -> None:
    """Where a symbol is defined its band has the grade's width; where not, the nearest one is defined."""
    try:
        found = limits(size, symbol)
    except NotInTables as fault:
        nominal, hole, shaft = parse_fit(fault.nearest)
        assert limits(nominal, hole or shaft or "").lower_um < limits(nominal, hole or shaft or "").upper_um
        return
    assert found.lower_um < found.upper_um
    assert found.lower_mm < found.upper_mm
    width = fits.grade_um(size, symbol.lstrip("ABCDEFGHJKMNPRSTUVXYZabcdefghjkmnprstuvxyz"))
    assert found.upper_um - found.lower_um == pytest.approx(width, abs=1e-9)


@given(SIZES, st.sampled_from([letter for letter in fits.letters(hole=False) if letter != "js"]))
def test_a_hole_is_the_mirror_of_the_shaft(size: float, letter: str) -> None:
    """Above grade 8 EI = -es for A to H (ISO 286-1)."""
    if letter <= "h":
        try:
            shaft, hole = limits(size, f"{letter}9"), limits(size, f"{letter.upper()}9")
        except NotInTables:
            assert size <= 1 or size > 10
            return
        assert (hole.lower_um, hole.upper_um) == (-shaft.upper_um, -shaft.lower_um)


@pytest.mark.parametrize("row", loader.rows("fits_preferred"), ids=lambda row: row["hole_basis"])
@given(size=st.floats(3.001, 500, allow_nan=False))
def test_twins_of_hole_and_shaft_basis_agree(row: loader.Row, size: float) -> None:
    """Over 3 mm a preferred fit and its twin give the same clearances: that is what delta is for (ISO 286-1)."""
    clearances = []
    for basis in ("hole_basis", "shaft_basis"):
        hole, shaft = row[basis].split("/")
        fit = mate(limits(size, hole), limits(size, shaft))
        clearances.append((fit.clearance_min_um, fit.clearance_max_um))
    assert clearances[0] == clearances[1]


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("25 H7/g6", (25.0, "H7", "g6")),
        ("25H7", (25.0, "H7", None)),
        (" Ø 12.5 mm js6 ", (12.5, None, "js6")),
        ("6.35 H7 / h6", (6.35, "H7", "h6")),
        (".8 H8", (0.8, "H8", None)),
        ("10 H01", (10.0, "H01", None)),
    ],
)
def test_callouts_are_read(text: str, parts: tuple[float, str | None, str | None]) -> None:
    """Spaces, a diameter sign and mm are allowed and mean nothing."""
    assert parse_fit(text) == parts


@pytest.mark.parametrize(
    ("text", "near", "says"),
    [
        ("25 H77", "25 H7", "no tolerance grade 77"),
        ("20 t6", "20 u6", "no t up to 24 mm"),
        ("25 H7/h77", "25 H7/h7", "no tolerance grade 77"),
        ("25 g6/H7", "25 H7/g6", "hole .capital letter."),
        ("25 h7/g6", "25 H7/g6", "hole .capital letter."),
        ("25 H17", "25 H16", "has grade 17"),
        ("25 za8", "25 z8", "has za"),
        ("25 H07", "25 H7", "no tolerance grade 07"),
        ("25 I7", "25 H7", "no hole letter I"),
        ("25 Js7", "25 JS7", "no hole letter Js"),
        ("20 j8", "20 j7", "grades 5 to 7"),
        ("11 cd7", "11 d7", "no cd above 10 mm"),
        ("10 K2", "10 K3", "from grade 3 on"),
        ("600 H7", "500 H7", "to 500 mm"),
        ("25", "25 H7", "not a size with a fit"),
        ("25 H", "25 H7", "not a hole"),
        ("25 H7/", "25 H7", "not a hole"),
        ("", "25 H7", "not a size"),
        ("-5 H7", "25 H7", "not a size"),
        ("25 mm 1 in H7", "25 H7", "not a hole"),
        ("nan H7", "25 H7", "not a size"),
    ],
)
def test_what_does_not_exist_is_refused(text: str, near: str, says: str) -> None:
    """The fault names what was found and one thing that does exist."""
    with pytest.raises(NotInTables, match=says) as caught:
        parse_fit(text)
    assert (caught.value.found, caught.value.nearest) == (text, near)


@pytest.mark.parametrize("size", [math.nan, -1.0, 0.0, math.inf])
def test_sizes_that_are_none(size: float) -> None:
    """No size, no limits."""
    with pytest.raises(NotInTables):
        limits(size, "H7")


@given(st.text(alphabet="0123456789. /HhgJjsSTt\n-mØé²", max_size=12))
def test_any_text_is_read_or_refused(text: str) -> None:
    """No other exception ever leaves the reader, and what it reads is in the tables."""
    try:
        size, hole, shaft = parse_fit(text)
    except NotInTables:
        return
    assert all(limits(size, symbol) for symbol in (hole, shaft) if symbol)
    assert hole or shaft


def test_sizes_in_mm() -> None:
    """25 H7 is 25.000 to 25.021 and 25 g6 24.980 to 24.993 (ANSI B4.2 table, from memory)."""
    hole, shaft = limits(25, "H7"), limits(25, "g6")
    assert (hole.lower_mm, hole.upper_mm, shaft.lower_mm, shaft.upper_mm) == (25.0, 25.021, 24.98, 24.993)


def test_a_decimal_comma_is_mended() -> None:
    """25,4 is marked and 25.4 offered."""
    with pytest.raises(NotInTables) as caught:
        parse_fit("25,4 H7")
    assert (caught.value.found, caught.value.nearest) == ("25,4", "25.4 H7")
