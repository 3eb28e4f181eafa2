"""Loose pieces become contours, and their area and length stay."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setupsheet.drawing.chains import Piece
from setupsheet.drawing.contour import Outline, contours, hull
from setupsheet.drawing.ink import Arc, Circle, Ellipse, Line, Pen, Polyline

V = Pen.VISIBLE
SLOT: list[Outline] = [
    Line(V, (0.0, 0.0), (20.0, 0.0)),
    Arc(V, (20.0, 5.0), 5.0, -90.0, 90.0),
    Line(V, (0.0, 10.0), (20.0, 10.0)),
    Arc(V, (0.0, 5.0), 5.0, 90.0, 270.0),
]


@given(st.permutations(SLOT))
def test_a_slot_is_one_closed_contour_in_any_order(pieces: list[Outline]) -> None:
    """Two lines and two half circles close with bulges of one sign and reach from -5 to 25."""
    (slot,) = contours(pieces)
    assert slot.closed
    assert len(slot.points) == 4
    assert sorted(abs(bulge) for bulge in slot.bulges) == pytest.approx([0, 0, 1, 1])
    assert len({bulge > 0 for bulge in slot.bulges if bulge}) == 1
    (x0, y0), (x1, y1) = hull(slot.reach())
    assert (x0, y0, x1, y1) == pytest.approx((-5, 0, 25, 10))


def test_arcs_of_one_circle_become_that_circle() -> None:
    """Three arcs that go all round are one circle."""
    (ring,) = contours([Arc(V, (3.0, 4.0), 2.0, a, a + 120.0) for a in (0.0, 120.0, 240.0)])
    assert isinstance(ring.round_, Circle)
    assert ring.round_.radius == pytest.approx(2.0)
    assert ring.round_.centre == pytest.approx((3.0, 4.0))


def test_a_full_arc_is_a_circle_and_a_full_ellipse_stays() -> None:
    """An arc of 360 degrees is a circle; a whole ellipse keeps its axes."""
    circle, ellipse = contours([Arc(V, (0.0, 0.0), 2.0, 90.0, 450.0), Ellipse(V, (9.0, 0.0), (3.0, 0.0), 0.5)])
    assert circle.round_ == Circle(V, (0.0, 0.0), 2.0)
    assert isinstance(ellipse.round_, Ellipse)
    assert hull(ellipse.reach()) == ((6.0, -1.5), (12.0, 1.5))


def test_chains_stop_where_three_lines_meet() -> None:
    """A T of three lines stays three lines; an open angle is one chain."""
    meet = (5.0, 0.0)
    tee = [Line(V, (0.0, 0.0), meet), Line(V, meet, (10.0, 0.0)), Line(V, meet, (5.0, 5.0))]
    assert len(contours(tee)) == 3
    (angle,) = contours([Line(V, (0.0, 0.0), meet), Line(V, (5.0, 5.0), meet)])
    assert not angle.closed
    assert len(angle.points) == 3


def test_the_rim_is_closed_where_inner_edges_meet_it() -> None:
    """A square with a step across it and a round nose: the rim is one closed contour of its whole area."""
    square: list[Outline] = [
        Line(V, (0.0, 0.0), (6.0, 0.0)),
        Line(V, (10.0, 0.0), (6.0, 0.0)),
        Line(V, (10.0, 0.0), (10.0, 10.0)),
        Line(V, (6.0, 10.0), (10.0, 10.0)),
        Line(V, (6.0, 10.0), (0.0, 10.0)),
        Arc(V, (0.0, 5.0), 5.0, 90.0, 270.0),
    ]
    rim, step = contours([Line(V, (6.0, 0.0), (6.0, 10.0)), *square])
    assert rim.closed
    assert len(rim.points) == 6
    assert not step.closed
    assert hull(rim.reach())[0] == pytest.approx((-5, 0))
    whole = (*rim.points, rim.points[0])
    assert abs(Piece(whole, rim.bulges).area()) == pytest.approx(100 + math.pi * 25 / 2)


def test_duplicates_and_dots_are_dropped_and_pens_stay_apart() -> None:
    """The same line twice is one line; a line without length is none; hidden never joins visible."""
    line = Line(V, (0.0, 0.0), (5.0, 0.0))
    found = contours([line, line, Line(V, (2.0, 2.0), (2.0, 2.0)), Line(Pen.HIDDEN, (5.0, 0.0), (9.0, 0.0))])
    assert [contour.pen for contour in found] == [Pen.VISIBLE, Pen.HIDDEN]


def test_part_of_an_ellipse_keeps_within_a_hundredth() -> None:
    """The polyline that stands for half an ellipse leaves it by less than 0.01 mm (requirement of the views)."""
    half = Ellipse(V, (0.0, 0.0), (30.0, 0.0), 0.4, 0.0, 180.0)
    closing = Line(V, (-30.0, 0.0), (30.0, 0.0))
    (contour,) = contours([half, closing])
    assert contour.closed
    middles = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in zip(contour.points, contour.points[1:], strict=False)]
    on_arc = [(x, y) for x, y in middles if y > 0.01]
    assert on_arc
    assert all(abs(1 - math.hypot(x / 30, y / 12)) * 12 < 0.01 for x, y in on_arc)


def test_points_are_given_in_the_unit() -> None:
    """A closed polyline in inches is 1/25.4 of its millimetres."""
    (contour,) = contours([Polyline(V, ((0.0, 0.0), (25.4, 0.0), (0.0, 25.4)), closed=True)], 25.4)
    assert contour.points == ((0.0, 0.0), (1.0, 0.0), (0.0, 1.0))
