"""Cuts on the rotary table on the page: their readings once each, their ways inside the picture."""

from __future__ import annotations

import pytest

from setupsheet.drawing.ink import Arc, Circle, Pen
from setupsheet.papers.turned import arc_strokes, clipped, turned
from setupsheet.papers.views import Paper
from setupsheet.plane import Point2, polar
from tests.plan.planned import setup_of

WINDOW = ((-30.0, -20.0), (30.0, 20.0))


def test_a_rounded_end_has_one_line() -> None:
    """The last X stands out, the rough ones before it, the table's two angles and its way."""
    (line,) = turned(setup_of("rotary-rounded-end", 3).steps[0], "/setups/2/steps/0")
    assert (line.reading.text, line.start.text, line.to.text) == ("+21.000", "270°00'", "90°00'")
    assert [said.text for said in line.rough] == ["+29.600", "+21.200"]
    assert line.way.text == "clockwise"
    assert line.reading.path.endswith("/shown/radius")


def test_a_groove_has_a_line_for_each_wall() -> None:
    """The middle, then the outside wall and the inside wall, each a whole turn and the work against the cutter."""
    (step,) = [step for step in setup_of("rotary-groove", 3).steps if "groove" in step.features]
    lines = turned(step, "")
    assert [line.way.text for line in lines] == ["clockwise", "anticlockwise", "clockwise"]
    assert [bool(line.to) for line in lines] == [False] * 3


@pytest.mark.parametrize("centre", [(0.0, 0.0), (25.0, 10.0), (-40.0, 0.0)])
def test_what_is_drawn_lies_in_the_window(centre: Point2) -> None:
    """Every end of what is left of a circle lies in the window."""
    for arc in clipped(Circle(Pen.HIDDEN, centre, 25.0), WINDOW):
        assert isinstance(arc, Arc)
        for angle in (arc.from_deg, arc.to_deg, (arc.from_deg + arc.to_deg) / 2):
            x, y = polar(arc.centre, arc.radius, angle)
            assert -30 <= x <= 30
            assert -20 <= y <= 20


def test_a_circle_in_the_window_stays_whole() -> None:
    """Nothing is cut from what lies inside."""
    circle = Circle(Pen.HIDDEN, (0.0, 0.0), 15.0)
    assert clipped(circle, WINDOW) == [circle]


def test_the_way_has_a_head() -> None:
    """The last pass of a rounded end is a half circle of the cutter's radius with an arrow at its end."""
    strokes = arc_strokes(setup_of("rotary-rounded-end", 3), Paper(0.5), WINDOW)
    (arc,) = [stroke for stroke in strokes if isinstance(stroke, Arc)]
    assert (arc.radius, arc.from_deg, arc.to_deg) == (10.5, -90.0, 90.0)
    assert len(strokes) == 2
