"""The axis of a slot: past its round ends, or out over the edge that it is open at."""

from __future__ import annotations

import pytest

from setupsheet.drawing.centres import slot_axis

OUTLINE = ((0.0, 0.0), (60.0, 40.0))


def test_a_closed_slot_has_its_axis_past_both_ends() -> None:
    """Centres at 20 and 40, half width 3, overrun 2.5."""
    line = slot_axis(((20.0, 10.0), (40.0, 10.0)), 3.0, OUTLINE, 2.5)
    assert line is not None
    assert (*line.a, *line.b) == pytest.approx((14.5, 10.0, 45.5, 10.0))


def test_an_open_slot_has_its_axis_over_the_edges() -> None:
    """Ends written far outside of the part count as far as its edge."""
    line = slot_axis(((30.0, -9.0), (30.0, 60.0)), 4.0, OUTLINE, 2.5)
    assert line is not None
    assert (*line.a, *line.b) == pytest.approx((30.0, -2.5, 30.0, 42.5))


def test_a_slot_of_no_length_has_none() -> None:
    """Its one end has a cross already."""
    assert slot_axis(((5.0, 5.0), (5.0, 5.0)), 2.0, OUTLINE, 2.5) is None
