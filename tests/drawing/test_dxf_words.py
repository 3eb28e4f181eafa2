"""The rule by which a dimension's text stays alive, and what is measured on paper."""

from __future__ import annotations

import pytest

from setupsheet.drawing.dxf_words import Numbers, dimension_text, measured
from setupsheet.drawing.ink import Dimension
from setupsheet.plane import Point2, polar

MM = Numbers(3.5, 1.0, 3, False, ".")
INCH = Numbers(3.0, 1 / 25.4, 3, True, ".")


def _linear(wide: float, text: str, scale: float = 1.0) -> Dimension:
    return Dimension("linear", "f", "x", wide, text, ((10.0, 0.0), (10.0 + wide, 7.0)), (0.0, 20.0), 0.0, (), scale)


@pytest.mark.parametrize(
    ("numbers", "wide", "printed", "text"),
    [
        (MM, 12.0, "12", "<>"),
        (MM, 12.0, "12 ±0.1", "<> %%p0.1"),
        (MM, 12.0, "(12)", "(<>)"),
        (MM, 12.0, "⌀12 H7 (+0.018/0)", "%%c<> H7 (+0.018/0)"),
        (MM, 16.9706, "16.97", "16.97"),  # the live value would be 16.971
        (MM, 12.0, "120", "120"),
        (MM, 12.0, "12.5", "12.5"),
        (INCH, 12.7, ".500 ±.005", "<> %%p.005"),
        (INCH, 12.7, ".50", ".50"),
        (INCH, 50.8, "2.000", "<>"),
    ],
)
def test_text_is_alive_only_where_it_prints_the_same(numbers: Numbers, wide: float, printed: str, text: str) -> None:
    """The number becomes <> when the reader's own number would be equal, and stays written otherwise."""
    assert dimension_text(_linear(wide, printed), numbers, 1.0) == text


def test_at_another_scale_the_number_is_written() -> None:
    """A detail's dimension carries its value as text."""
    assert dimension_text(_linear(12.0, "12", scale=2.0), MM, 1.0) == "12"


@pytest.mark.parametrize(("seen_deg", "angle"), [(30.0, 60.0), (120.0, 120.0), (210.0, 60.0), (300.0, 120.0)])
def test_an_angle_is_measured_where_the_line_stands(seen_deg: float, angle: float) -> None:
    """Two lines at 0 and 60 degrees make 60 and 120 degrees, by the side of the dimension line (geometry)."""
    corner: Point2 = (5.0, 5.0)
    points = (polar(corner, 10, 0), polar(corner, 20, 0), polar(corner, 10, 60), polar(corner, 20, 60))
    dimension = Dimension("angular", "f", "a", angle, f"{angle:g}°", points, polar(corner, 15, seen_deg), 0.0, ())
    assert measured(dimension) == pytest.approx(angle)
    assert dimension_text(dimension, MM, 1.0) == "<>"


def test_a_slanted_direction_is_measured_along_it() -> None:
    """A linear dimension at 90 degrees measures the height only."""
    dimension = Dimension("linear", "f", "y", 7.0, "7", ((0.0, 0.0), (3.0, 7.0)), (9.0, 0.0), 90.0, ())
    assert measured(dimension) == pytest.approx(7.0)
