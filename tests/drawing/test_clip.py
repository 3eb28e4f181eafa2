"""What of a stroke lies in a circle: lengths and places by plain geometry."""

from __future__ import annotations

import math

import pytest

from setupsheet.drawing.clip import clipped
from setupsheet.drawing.ink import Arc, Circle, Ellipse, Line, Pen, Polyline, Stroke

WINDOW = ((0.0, 0.0), 5.0)


def test_a_line_keeps_its_chord() -> None:
    """A level line 3 above the centre of a circle of radius 5 has a chord of 8 (3-4-5)."""
    (line,) = clipped([Line(Pen.VISIBLE, (-20.0, 3.0), (20.0, 3.0))], WINDOW)
    assert isinstance(line, Line)
    assert (*line.a, *line.b) == pytest.approx((-4.0, 3.0, 4.0, 3.0))


def test_what_lies_outside_goes_and_what_lies_inside_stays() -> None:
    """A line and a circle beside the window vanish; a small circle and a short line in it stay as they are."""
    out: list[Stroke] = [Line(Pen.VISIBLE, (-20.0, 6.0), (20.0, 6.0)), Circle(Pen.VISIBLE, (20.0, 0.0), 3.0)]
    within: list[Stroke] = [Line(Pen.VISIBLE, (-1.0, 0.0), (1.0, 0.0)), Circle(Pen.VISIBLE, (1.0, 0.0), 3.0)]
    assert clipped([*out, *within], WINDOW) == within
    assert clipped([Circle(Pen.VISIBLE, (0.0, 0.0), 9.0)], WINDOW) == []


@pytest.mark.parametrize("from_deg", [0.0, 100.0, 170.0, 200.0, 300.0])
def test_an_arc_keeps_only_what_lies_within(from_deg: float) -> None:
    """Points of each piece lie in the window, and the length is that of the points of the arc that do."""
    arc = Arc(Pen.VISIBLE, (6.0, 0.0), 4.0, from_deg, from_deg + 200.0)
    pieces = [p for p in clipped([arc], WINDOW) if isinstance(p, Arc)]
    steps = 20000
    count = 0
    for step in range(steps):
        angle = math.radians(from_deg + 200.0 * (step + 0.5) / steps)
        count += math.hypot(6.0 + 4.0 * math.cos(angle), 4.0 * math.sin(angle)) < 5.0
    assert sum(p.to_deg - p.from_deg for p in pieces) == pytest.approx(200.0 * count / steps, abs=0.05)
    for piece in pieces:
        for share in (0.001, 0.5, 0.999):
            angle = math.radians(piece.from_deg + share * (piece.to_deg - piece.from_deg))
            assert math.hypot(6.0 + 4.0 * math.cos(angle), 4.0 * math.sin(angle)) < 5.0 + 1e-6


def test_chains_and_ellipses_become_lines() -> None:
    """A square round the centre loses its corners; an ellipse 16 by 8 keeps what is near."""
    square = Polyline(Pen.VISIBLE, ((-4.0, -4.0), (4.0, -4.0), (4.0, 4.0), (-4.0, 4.0)), closed=True)
    sides = clipped([square], WINDOW)
    assert [math.dist(s.a, s.b) for s in sides if isinstance(s, Line)] == pytest.approx([6.0] * 4)
    found = clipped([Ellipse(Pen.VISIBLE, (0.0, 0.0), (8.0, 0.0), 0.5)], WINDOW)
    assert found
    assert all(math.hypot(*p) < 5.0 + 1e-6 for s in found if isinstance(s, Line) for p in (s.a, s.b))
