"""Sizes with their limits: fits, limits, general tolerances by class and by places."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setupsheet.finding import Place
from setupsheet.length import Unit
from setupsheet.part.feature import Size
from setupsheet.part.part import GeneralTolerance
from setupsheet.spec.desk import Desk, Value
from setupsheet.spec.sizes import read_size
from setupsheet.spec.tree import Scalar

MEDIUM = GeneralTolerance("ISO 2768-1", "m", {}, 1.0, "ISO 2768-1 m")
BY_PLACES = GeneralTolerance("by places", "", {-1: 0.396875, 2: 0.254, 3: 0.127}, 1.0, "by places")


def desk(general: GeneralTolerance = MEDIUM, unit: Unit = Unit.MM) -> Desk:
    """Return a desk with one parameter."""
    own = Desk(unit, general=general)
    own.values["bore"] = Value(Fraction(12), "12")
    return own


def size(text: str, own: Desk | None = None, tolerance: str = "") -> Size:
    """Return the size that a text stands for; the desk may not object."""
    own = own or desk()
    place = Place("x", 1, 1)
    result = read_size(own, Scalar(text, place), Scalar(tolerance, place) if tolerance else None)
    assert not own.findings
    return result


@pytest.mark.parametrize(
    ("text", "lower", "upper", "kind"),
    [
        ("12 H7", 12.0, 12.018, "fit"),  # ISO 286-2, H7 over 10 to 18 mm: 0 to +18 µm
        ("12 g6", 11.983, 11.994, "fit"),  # ISO 286-2, g6 over 10 to 18 mm: -17 to -6 µm
        ("24 -0.05/-0.15", 23.85, 23.95, "limits"),
        ("34 ±0.05", 33.95, 34.05, "limits"),
        ("12 +0.02/-0", 12.0, 12.02, "limits"),
        ("6", 5.9, 6.1, "general"),  # ISO 2768-1 m, over 3 to 6 mm: ±0.1
        ("80", 79.7, 80.3, "general"),  # ISO 2768-1 m, over 30 to 120 mm: ±0.3
        ("=bore", 11.8, 12.2, "general"),  # ISO 2768-1 m, over 6 to 30 mm: ±0.2
        ("=bore*2 ±0.1", 23.9, 24.1, "limits"),
        ("=bore H7", 12.0, 12.018, "fit"),
        ("1/2 in ±0.001", 12.6746, 12.7254, "limits"),
    ],
)
def test_limits(text: str, lower: float, upper: float, kind: str) -> None:
    """Each form of a size gives its limits."""
    found = size(text)
    assert (found.lower_mm, found.upper_mm) == pytest.approx((lower, upper), abs=1e-9)
    assert found.kind == kind


def test_tolerance_of_its_own_key() -> None:
    """``tolerance: ±0.3`` beside a size is as good as behind it."""
    assert size("10", tolerance="±0.3") == size("10 ±0.3")


def test_written_text_is_kept() -> None:
    """12.70 is printed 12.70; a parameter alone prints as the parameter was written."""
    assert size("12.70").written == "12.70"
    assert size("=bore").written == "12"
    assert size("=bore/8 to 3 places").written == "1.500"


@pytest.mark.parametrize(
    ("text", "half"), [("0.50", 0.254), ("0.500", 0.127), ("1/2", 0.396875), ("=bore/24 to 2 places", 0.254)]
)
def test_by_places(text: str, half: float) -> None:
    """The places decide; a fraction has its own row."""
    found = size(text, desk(BY_PLACES, Unit.INCH))
    assert found.upper_mm == pytest.approx(12.7 + half, abs=1e-4)
    assert found.lower_mm == pytest.approx(12.7 - half, abs=1e-4)


@pytest.mark.parametrize(("text", "code"), [("=bore/24", "places-not-stated"), ("0.5000", "no-tolerance")])
def test_by_places_needs_places(text: str, code: str) -> None:
    """An expression has to state its places, and each number of places needs its row."""
    own = desk(BY_PLACES, Unit.INCH)
    read_size(own, Scalar(text, Place("x", 1, 1)))
    assert [finding.code for finding in own.findings] == [code]


@given(st.integers(1, 40_000), st.integers(1, 500), st.integers(0, 500))
def test_inch_limits_are_rounded_inward(nominal: int, above: int, below: int) -> None:
    """In mm the limits of an inch size lie inside the author's, and by less than 0.0001 mm."""
    text = f"{nominal / 10000:.4f} +{above / 10000:.4f}/-{below / 10000:.4f}"
    found = size(text, desk(unit=Unit.INCH))
    lower, upper = (Fraction(nominal - below, 10000), Fraction(nominal + above, 10000))
    exact = [float(value * Unit.INCH.mm) for value in (lower, upper)]
    assert exact[0] - 1e-9 <= found.lower_mm < exact[0] + 1e-4 + 1e-9
    assert exact[1] - 1e-4 - 1e-9 < found.upper_mm <= exact[1] + 1e-9


@given(st.text("0123456789.+-/±H7=abore in", max_size=16))
def test_any_text(text: str) -> None:
    """Any text gives a size or a finding, never an exception."""
    own = desk()
    read_size(own, Scalar(text, Place("x", 1, 1)))
    assert own.broken or not own.findings
