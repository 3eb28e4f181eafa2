"""How numbers are printed, case by case from the table of drawing practice with its published sources."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setupsheet.drawing import number_format as nf
from setupsheet.drawing.number_format import Style
from setupsheet.length import Unit

ISO = Style("iso")
ISO_COMMA = Style("iso", Unit.MM, ",")
ASME_MM = Style("asme")
ASME_INCH = Style("asme", Unit.INCH)
IN = 25.4


@pytest.mark.parametrize(
    ("style", "mm", "places", "printed"),
    [
        (ISO_COMMA, 12.5, None, "12,5"),  # decimal comma: ISO 129-1:2018 excerpt
        (ISO, 0.5, None, "0.5"),  # the zero before the sign is kept in mm: ASME Y14.5M-1994 text for mm
        (ASME_MM, 0.5, None, "0.5"),  # the same
        (ASME_INCH, 0.5 * IN, 1, ".5"),  # no zero before the point in inches: training manual 14276
        (ISO, 12.0, None, "12"),  # whole numbers without decimals: ASME Y14.5M-1994 text for mm
        (ASME_MM, 12.0, None, "12"),  # the same
        (ASME_INCH, 12 * IN, 3, "12.000"),  # places of its tolerance: engineeringessentials tol page 9
        (ISO, 12.70, None, "12.7"),  # no zeros at the end of a plain size: ASME Y14.5M-1994 text for mm
        (ASME_INCH, 12.7, 3, ".500"),  # the same page
        (ASME_INCH, 3.175, None, ".125"),
        (ISO, 2.0005, None, "2.001"),  # half up from exact decimals: rule of this project
        (ISO, 0.0005, 3, "0.001"),  # the same
        (ISO, -0.0001, None, "0"),  # never -0: rule of this project
        (ASME_INCH, -0.001, 3, ".000"),  # the same
        (ISO, -2.5, None, "-2.5"),
        (ASME_INCH, -0.25 * IN, 2, "-.25"),
    ],
)
def test_plain_sizes(style: Style, mm: float, places: int | None, printed: str) -> None:
    """Decimal sign, zero before it, zeros behind, rounding."""
    assert nf.length(style, mm, places) == printed


def test_symmetric_tolerances() -> None:
    """Symmetric tolerances as in the table: 25 ±0,1, 25 ±0.1, .500 ±.005 (engineeringessentials tol page 9)."""
    assert nf.symmetric(ISO_COMMA, 25, 0.1) == "25 ±0,1"
    assert nf.symmetric(ASME_MM, 25, 0.1) == "25 ±0.1"
    assert nf.symmetric(ASME_INCH, 12.7, 0.127) == ".500 ±.005"


def test_unequal_deviations_have_equal_decimals() -> None:
    """Upper before lower with equal decimals (textbook W1 page 129; engineeringessentials tol page 9)."""
    assert nf.unequal(ISO_COMMA, 25, 0.2, -0.1) == "25 +0,2/-0,1"
    assert nf.unequal(ASME_MM, 25, 0.25, -0.1) == "25 +0.25/-0.10"
    assert nf.unequal(ISO, 28, 0.45, 0.3) == "28 +0.45/+0.30"
    assert nf.unequal(ASME_INCH, 0.5 * IN, 0.0125 * IN, -0.002 * IN) == ".5000 +.0125/-.0020"


def test_a_zero_deviation() -> None:
    """A plain 0 in mm; in inches zeros with the other sign (engineeringessentials; kohlex, tolerance chapter)."""
    assert nf.deviations(ISO, 0.021, 0) == ("+0.021", "0")
    assert nf.deviations(ASME_MM, 0, -0.02) == ("0", "-0.02")
    assert nf.unequal(ASME_INCH, 0.5 * IN, 0.003 * IN, 0) == ".500 +.003/-.000"
    assert nf.unequal(ASME_INCH, 0.5 * IN, 0, -0.003 * IN) == ".500 +.000/-.003"


def test_an_equal_pair_becomes_symmetric() -> None:
    """Deviations +0.1/-0.1 are written ±0.1."""
    assert nf.unequal(ISO, 25, 0.1, -0.1) == "25 ±0.1"


def test_the_upper_deviation_must_not_lie_below_the_lower() -> None:
    """A turned-over pair is a fault of the caller and is refused."""
    with pytest.raises(ValueError, match="below"):
        nf.deviations(ISO, -0.1, 0.1)


def test_limits() -> None:
    """The larger limit first; on one line ASME writes low first (ASME Y14.5M-1994 text; engineeringessentials)."""
    assert nf.limits(ISO_COMMA, 24.9, 25.1) == ("25,1", "24,9")
    assert nf.limits(ASME_INCH, 0.498 * IN, 0.502 * IN) == (".502", ".498")
    assert nf.limits_on_a_line(ASME_MM, 24.9, 25.1) == "24.9-25.1"
    assert nf.limits(ISO, 30.0, 30.021) == ("30.021", "30.000")


def test_fits() -> None:
    """The class in the height of the value (textbook W4 page 231), with deviations or limits beside it."""
    assert nf.fit(ISO_COMMA, 30, "H7", 30.0, 30.021) == "30 H7 (+0,021/0)"
    assert nf.fit(ASME_MM, 30, "H7", 30.0, 30.021) == "30 H7 (30.000-30.021)"
    assert nf.fit(ISO, 20, "g6", 19.98, 19.993) == "20 g6 (-0.007/-0.020)"


def test_angles() -> None:
    """The unit at value and tolerance (textbook W1 page 129); equal decimals for ASME (engineeringessentials)."""
    assert nf.angle(ISO_COMMA, 30.5) == "30,5°"
    assert nf.angle(ISO, 30) == "30°"
    assert nf.angle(ISO, 30, 0.5) == "30° ±0.5°"
    assert nf.angle(ASME_MM, 30, 0.5) == "30.0° ±0.5°"


def test_counts_and_parentheses() -> None:
    """Count first, × for ISO and X for ASME (G-W textbook page 27); auxiliary sizes in parentheses."""
    assert nf.times(ISO, 4, "Ø8.4") == "4× Ø8.4"
    assert nf.times(ASME_MM, 4, "Ø8.4") == "4X Ø8.4"
    assert nf.times(ISO, 1, "Ø8.4") == "Ø8.4"
    assert nf.auxiliary(nf.length(ASME_INCH, 25.0, 3)) == "(.984)"


@given(st.integers(-10_000_000, 10_000_000))
def test_a_printed_length_reads_back(thousandths: int) -> None:
    """What is printed with three decimals is the number again, without a minus before nothing."""
    printed = nf.length(ISO, thousandths / 1000)
    assert float(printed) == thousandths / 1000
    assert printed != "-0"
