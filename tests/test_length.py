"""Lengths: exact, as written, and rounded to what a machine shows."""

from __future__ import annotations

import contextlib
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setupsheet.length import Length, Unit, fixed, parse, places_for, plain, to_step


@pytest.mark.parametrize(
    ("text", "unit", "exact_mm"),
    [
        ("12.70", Unit.MM, Fraction(127, 10)),
        ("3/8 in", Unit.MM, Fraction(9525, 1000)),
        ("1-1/2", Unit.INCH, Fraction(381, 10)),
        ("1 1/2 in", Unit.MM, Fraction(381, 10)),
        ("6.5 mm", Unit.INCH, Fraction(13, 2)),
        ('.250"', Unit.MM, Fraction(635, 100)),
        ("-3", Unit.MM, Fraction(-3)),
        ("5.", Unit.MM, Fraction(5)),
    ],
)
def test_parse(text: str, unit: Unit, exact_mm: Fraction) -> None:
    """Conversions are exact (1 in = 25.4 mm by definition), and the text is kept."""
    length = parse(text, unit)
    assert length.exact_mm == exact_mm
    assert length.text() == text.strip()


@pytest.mark.parametrize(
    "text", ["", "a", "1,5", "1e3", "6:1", "1/0", "--1", "1.2.3", "3 / 8", "12 H7", "1-2", "Infinity"]
)
def test_not_a_length(text: str) -> None:
    """What is no length says so."""
    with pytest.raises(ValueError, match=r"not a length|below the line"):
        parse(text, Unit.MM)


@given(st.integers(-(10**6), 10**6), st.integers(0, 4), st.sampled_from(Unit))
def test_decimal_round_trip(digits: int, places: int, unit: Unit) -> None:
    """A decimal comes back as the same text and the same exact value."""
    text = fixed(Fraction(digits, 10**places), places)
    length = parse(text, unit)
    assert length.exact_mm == Fraction(digits, 10**places) * unit.mm
    assert fixed(length.exact_mm / unit.mm, places) == text


@given(st.integers(0, 40), st.integers(0, 63), st.sampled_from([2, 4, 8, 16, 32, 64]))
def test_fractions(whole: int, over: int, under: int) -> None:
    """``1-3/8`` is the whole and the part, exactly."""
    expected = (whole + Fraction(over, under)) * Unit.INCH.mm
    assert parse(f"{whole}-{over}/{under} in", Unit.MM).exact_mm == expected


@given(st.text(max_size=20), st.sampled_from(Unit))
def test_any_text(text: str, unit: Unit) -> None:
    """Any text is a length or a ValueError, never another exception."""
    with contextlib.suppress(ValueError):
        assert isinstance(parse(text, unit), Length)


STEPS = st.sampled_from([0.001, 0.005, 0.01, 0.0254, 0.02])


@given(st.floats(-1000, 1000), STEPS)
def test_to_step_is_near_and_a_multiple(value: float, step: float) -> None:
    """A rounded value is a multiple of the step and no more than half a step away."""
    shown = to_step(value, step)
    assert abs(shown - value) <= step / 2 + 1e-6
    assert abs(shown / step - round(shown / step)) < 1e-6
    assert to_step(-value, step) == -shown


@given(st.floats(-1000, 1000), st.integers(0, 4))
def test_fixed_never_minus_zero(value: float, places: int) -> None:
    """No zero is printed with a sign, and plain drops trailing zeros only."""
    text = fixed(value, places)
    assert float(text) != 0 or not text.startswith("-")
    assert float(plain(value, places)) == float(text)


def test_half_rounds_up() -> None:
    """A half goes away from 0, as a machinist rounds."""
    assert fixed(Fraction(5, 1000), 2) == "0.01"
    assert fixed(Fraction(-5, 1000), 2) == "-0.01"
    assert fixed(Fraction(25, 10), 0) == "3"
    assert places_for(0.005) == 3
