"""Straight pieces are cut where others end on them, and overlapping ones stand once."""

from __future__ import annotations

import pytest

from setupsheet.drawing.chains import Piece
from setupsheet.drawing.contour import contours
from setupsheet.drawing.ink import Line, Pen
from setupsheet.drawing.junctions import cut_at_ends
from setupsheet.plane import Point2


def straight(a: Point2, b: Point2) -> Piece:
    """Return a straight piece."""
    return Piece((a, b), (0.0,))


def test_a_line_is_cut_where_another_ends() -> None:
    """A line of 10 with an upright on it at 4 becomes 4 and 6; one that only passes cuts nothing."""
    found = cut_at_ends([straight((0.0, 0.0), (10.0, 0.0)), straight((4.0, 0.0), (4.0, 3.0))])
    assert sorted(abs(p.points[1][0] - p.points[0][0]) for p in found) == pytest.approx([0.0, 4.0, 6.0])
    assert len(cut_at_ends([straight((0.0, 0.0), (10.0, 0.0)), straight((4.0, -1.0), (4.0, 3.0))])) == 2


def test_what_lies_twice_stands_once() -> None:
    """A short line on a long one: three pieces, none of them twice."""
    found = cut_at_ends([straight((0.0, 0.0), (10.0, 0.0)), straight((2.0, 0.0), (6.0, 0.0))])
    assert sorted(p.points[0][0] for p in found) == [0.0, 2.0, 6.0]


def test_a_boss_on_a_plate_is_in_the_rim() -> None:
    """A plate 20 by 5 with a boss 6 by 4 in the middle of its edge: one closed rim of 124."""
    corners = [
        ((0.0, 0.0), (20.0, 0.0)),
        ((20.0, 0.0), (20.0, 5.0)),
        ((20.0, 5.0), (0.0, 5.0)),
        ((0.0, 5.0), (0.0, 0.0)),
    ]
    boss = [((7.0, 5.0), (7.0, 9.0)), ((7.0, 9.0), (13.0, 9.0)), ((13.0, 9.0), (13.0, 5.0))]
    found = contours([Line(Pen.VISIBLE, a, b) for a, b in (*corners, *boss)])
    rims = [c for c in found if c.closed]
    areas = [abs(Piece((*c.points, c.points[0]), c.bulges).area()) for c in rims]
    assert max(areas) == pytest.approx(20 * 5 + 6 * 4)
