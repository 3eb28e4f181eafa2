"""Centre lines on one axis join; extension lines do not run over them."""

from __future__ import annotations

from setupsheet.drawing.ink import Dimension, Line, Pen, Polyline, Stroke
from setupsheet.drawing.precedence import ruler_of, stretch, tidy

LONG = Line(Pen.CENTRE, (0.0, 10.0), (40.0, 10.0))
CROSS = Line(Pen.THIN, (41.0, 10.0), (51.0, 10.0))


def dimension(*strokes: Stroke) -> Dimension:
    """Return a running dimension of a height whose extension lines run along X."""
    return Dimension("running", "f", "y", 10.0, "10", ((0.0, 0.0), (20.0, 10.0)), (60.0, 0.0), 90.0, strokes)


def test_two_centre_lines_with_a_small_gap_become_one() -> None:
    """The long one and the short one 1 mm further on are one chain line."""
    assert tidy([LONG, CROSS], 0.0) == [Line(Pen.CENTRE, (0.0, 10.0), (51.0, 10.0))]


def test_centre_lines_far_apart_or_on_other_axes_stay() -> None:
    """5 mm between them, or another height: nothing is joined."""
    other = Line(Pen.THIN, (45.0, 10.0), (55.0, 10.0))
    beside = Line(Pen.CENTRE, (0.0, 12.0), (40.0, 12.0))
    assert set(tidy([LONG, other, beside], 0.0)) == {LONG, other, beside}


def test_an_extension_line_starts_where_the_centre_line_ends() -> None:
    """The part on the centre line is left out, with the gap of the profile."""
    dim = dimension(Line(Pen.DIM, (20.0, 10.0), (62.0, 10.0)))
    found = tidy([LONG, dim], 1.5)[-1]
    assert isinstance(found, Dimension)
    assert found.strokes == (Line(Pen.DIM, (41.5, 10.0), (62.0, 10.0)),)


def test_a_kinked_extension_line_keeps_its_kink() -> None:
    """Only the straight part that lies on the centre line goes."""
    kinked = Polyline(Pen.DIM, ((20.0, 10.0), (62.0, 10.0), (66.0, 14.0)))
    hidden = Polyline(Pen.DIM, ((20.0, 10.0), (39.0, 10.0), (66.0, 14.0)))
    found = tidy([LONG, dimension(kinked, hidden)], 0.0)[-1]
    assert isinstance(found, Dimension)
    assert found.strokes == (
        Polyline(Pen.DIM, ((40.0, 10.0), (62.0, 10.0), (66.0, 14.0))),
        Polyline(Pen.DIM, ((39.0, 10.0), (66.0, 14.0))),
    )


def test_dimension_lines_are_left_alone() -> None:
    """A dimension line that happens to lie on an axis is no extension line."""
    line = Line(Pen.DIM, (10.0, 0.0), (10.0, 40.0))
    upright = Line(Pen.CENTRE, (10.0, 5.0), (10.0, 30.0))
    found = tidy([upright, dimension(line)], 0.0)[-1]
    assert isinstance(found, Dimension)
    assert found.strokes == (line,)


def test_rulers_of_lines() -> None:
    """Level and upright lines have a ruler, slanted ones none; stretches run upwards."""
    assert ruler_of((0.0, 3.0), (5.0, 3.0)) == (0, 3.0)
    assert ruler_of((3.0, 0.0), (3.0, 5.0)) == (1, 3.0)
    assert ruler_of((0.0, 0.0), (5.0, 5.0)) is None
    assert stretch((1, 3.0), (3.0, 7.0), (3.0, 2.0)) == (2.0, 7.0)
