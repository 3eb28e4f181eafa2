"""Hatching of cut areas."""

from __future__ import annotations

import math

import pytest

from setupsheet.drawing.boxes import crosses
from setupsheet.drawing.hatch import hatch, hatch_angle
from setupsheet.drawing.seen import Area

SQUARE = ((0.0, 0.0), (40.0, 0.0), (40.0, 40.0), (0.0, 40.0))
HOLE = ((10.0, 10.0), (20.0, 10.0), (20.0, 20.0), (10.0, 20.0))


def test_total_length_is_area_over_pitch() -> None:
    """Ruled lines at pitch p over an area A have a total length near A / p."""
    lines = hatch([Area(SQUARE, (HOLE,))])
    total = sum(math.dist(line.a, line.b) for line in lines)
    assert total == pytest.approx((40 * 40 - 10 * 10) / 3.0, rel=0.03)


def test_nothing_is_hatched_in_openings_or_under_text() -> None:
    """No hatch line enters an opening or the box of a text."""
    text = ((25.0, 25.0), (35.0, 30.0))
    lines = hatch([Area(SQUARE, (HOLE,))], [text])
    assert not any(crosses(((10.0, 10.0), (20.0, 20.0)), (line.a, line.b)) for line in lines)
    assert not any(crosses(text, (line.a, line.b)) for line in lines)


def test_the_angle_avoids_edges_that_lie_at_it() -> None:
    """An area with an edge at 45 degrees is hatched at another angle."""
    wedge = Area(((0.0, 0.0), (30.0, 0.0), (30.0, 30.0)))
    assert hatch_angle([Area(SQUARE)]) == 45.0
    assert hatch_angle([wedge]) != 45.0
