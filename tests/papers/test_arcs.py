"""Arcs for the PDF: short pieces that lie on the same circle and end at the same places."""

from __future__ import annotations

import itertools
import math
import re

import pytest

from setupsheet.drawing.ink import Arc, Circle, Ellipse, Group, Pen, Stroke
from setupsheet.drawing.svg import group_svg
from setupsheet.papers.arcs import split_arcs

_POINT = re.compile(r"(?:M|A[^A-Z]*? [01] 0 )(-?[0-9.]+) (-?[0-9.]+)(?=[AMZ\"])")
_BOX = ((-10.0, -10.0), (10.0, 10.0))


def points(stroke: Stroke) -> list[tuple[float, float]]:
    """Return the ends of the pieces, the picture's middle as origin, Y up."""
    html = split_arcs(group_svg(Group("arc", (stroke,), _BOX)))
    return [(float(x) - 10.0, 10.0 - float(y)) for x, y in _POINT.findall(html)]


@pytest.mark.parametrize(
    ("stroke", "sweep"),
    [
        (Circle(Pen.THIN, (0.0, 0.0), 5.0), 360.0),
        (Arc(Pen.THIN, (0.0, 0.0), 5.0, 20.0, 130.0), 110.0),
        (Arc(Pen.THIN, (0.0, 0.0), 5.0, -40.0, 250.0), 290.0),
    ],
    ids=["circle", "short arc", "long arc"],
)
def test_pieces_follow_the_circle(stroke: Stroke, sweep: float) -> None:
    """All ends are on the circle, each piece turns counter-clockwise by 60 degrees at most, together as before."""
    ends = points(stroke)
    assert [math.hypot(*point) for point in ends] == pytest.approx([5.0] * len(ends), abs=2e-4)
    angles = [math.degrees(math.atan2(y, x)) for x, y in ends]
    turns = [(b - a) % 360.0 for a, b in itertools.pairwise(angles)]
    assert max(turns) < 60.1
    assert sum(turns) == pytest.approx(sweep, abs=0.05)


def test_pieces_of_a_slanted_ellipse_lie_on_it() -> None:
    """The ends are on the ellipse: its equation holds at each."""
    ends = points(Ellipse(Pen.THIN, (1.0, 2.0), (3.0, 3.0), 0.5))
    long_, slant = math.hypot(3.0, 3.0), math.sqrt(0.5)
    for x, y in ((x - 1.0, y - 2.0) for x, y in ends):
        along, up = (x + y) * slant, (y - x) * slant
        assert (along / long_) ** 2 + (up / (0.5 * long_)) ** 2 == pytest.approx(1.0, abs=1e-3)
    assert len(ends) == 7


def test_other_text_stays() -> None:
    """Words with a capital A and numbers are no arcs."""
    assert split_arcs("<p>M12 A4 2 of 3</p>") == "<p>M12 A4 2 of 3</p>"
