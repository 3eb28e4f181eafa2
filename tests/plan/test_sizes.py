"""Sizes as printed: as many digits as the limits need."""

from __future__ import annotations

import pytest

from setupsheet.length import Unit
from setupsheet.plan.sizes import between, length, limits, places_for
from tests.parts import size


@pytest.mark.parametrize(
    ("lower", "upper", "unit", "text"),
    [
        (33.95, 34.05, Unit.MM, "33.95 to 34.05"),
        (12.0, 12.018, Unit.MM, "12.000 to 12.018"),
        (63.373, 63.627, Unit.INCH, "2.495 to 2.505"),
        (9.525, 9.54024, Unit.INCH, "0.3750 to 0.3756"),
    ],
)
def test_limits(lower: float, upper: float, unit: Unit, text: str) -> None:
    """Two places in mm and three in inches, one more where the limits are finer."""
    assert between(lower, upper, unit) == text
    assert limits(size(lower, lower, upper), unit) == text


def test_lengths_lose_their_trailing_zeros() -> None:
    """9.5 mm, 0.25 in, 0 for nothing."""
    assert (length(9.5, Unit.MM), length(6.35, Unit.INCH), length(0.0, Unit.MM)) == ("9.5", "0.25", "0")
    assert places_for(12.018, Unit.MM) == 3
