"""Merging of drawn pieces: unions and differences of intervals on one line or circle."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setupsheet.plane import polar
from setupsheet.solid.flat import Arc, Circle, Ellipse, Line, Polyline
from setupsheet.solid.merging import merged

_spans = st.lists(st.tuples(st.integers(0, 40), st.integers(1, 10)), max_size=6)


def _cells(spans: list[tuple[int, int]]) -> set[int]:
    return {cell for start, length in spans for cell in range(start, start + length)}


def _line(angle_deg: float, start: float, end: float) -> Line:
    base = polar((3.0, -2.0), 5.0, angle_deg + 90)
    return Line(polar(base, start, angle_deg), polar(base, end, angle_deg))


@given(_spans, _spans, st.sampled_from([0.0, 30.0, 90.0, 135.0, 179.9999]))
def test_lines_become_the_union_and_hidden_ones_what_is_left(
    seen: list[tuple[int, int]], unseen: list[tuple[int, int]], angle: float
) -> None:
    """On one straight, visible lines cover their union, hidden ones the rest of theirs, with no piece to join."""
    found = merged(
        [_line(angle, a, a + n) for a, n in seen],
        [_line(angle, a + n, a) for a, n in unseen],
    )
    for flats, cells in ((found.visible, _cells(seen)), (found.hidden, _cells(unseen) - _cells(seen))):
        lengths = [
            round(((f.b[0] - f.a[0]) ** 2 + (f.b[1] - f.a[1]) ** 2) ** 0.5, 6) for f in flats if isinstance(f, Line)
        ]
        assert sum(lengths) == pytest.approx(len(cells))
        assert len(lengths) == len([cell for cell in cells if cell - 1 not in cells])


@given(_spans, _spans)
def test_arcs_become_the_union_round_the_whole_turn(seen: list[tuple[int, int]], unseen: list[tuple[int, int]]) -> None:
    """On one circle arcs join across 0 degrees; a whole turn is a circle; hidden arcs keep what is left."""

    def arcs(spans: list[tuple[int, int]]) -> list[Arc]:
        return [Arc((1.0, 2.0), 5.0, 9.0 * a, 9.0 * (a + n)) for a, n in spans]

    found = merged(arcs(seen), arcs(unseen))
    covered = {cell % 40 for cell in _cells(seen)}
    rest = {cell % 40 for cell in _cells(unseen)} - covered
    for flats, cells in ((found.visible, covered), (found.hidden, rest)):
        sweeps = [
            360.0 if isinstance(f, Circle) else f.to_deg - f.from_deg for f in flats if isinstance(f, Arc | Circle)
        ]
        assert sum(sweeps) == pytest.approx(9.0 * len(cells))
        assert len(sweeps) == (1 if len(cells) == 40 else len([c for c in cells if (c - 1) % 40 not in cells]))


def test_two_half_circles_are_a_circle() -> None:
    """As are the halves of an ellipse, whichever way its long axis was recorded."""
    circle = merged([Arc((0, 0), 4, 90, 270), Arc((0, 0), 4, 270, 450)], [])
    assert circle.visible == (Circle((0.0, 0.0), 4.0),)
    ellipse = merged([Ellipse((0, 0), (4, 0), 0.5, 0, 180), Ellipse((0, 0), (-4, 0), 0.5, 0, 180)], [])
    assert ellipse.visible == (Ellipse((0.0, 0.0), (4.0, 0.0), 0.5),)


def test_neighbours_that_are_not_one_line_stay_apart() -> None:
    """Parallel lines a hundredth apart and circles of nearly one size are different things."""
    lines = merged([Line((0, 0), (10, 0)), Line((0, 0.01), (10, 0.01))], [Line((0, 0.02), (10, 0.02))])
    assert (len(lines.visible), len(lines.hidden)) == (2, 1)
    circles = merged([Circle((0, 0), 3)], [Circle((0, 0), 3.01), Circle((0, 0), 3)])
    assert circles.hidden == (Circle((0.0, 0.0), 3.01),)


def test_a_hidden_polyline_under_a_visible_one_is_left_out() -> None:
    """The same curve seen from the near and the far side is drawn once, as visible."""
    curve = tuple((x / 10, (x / 10) ** 2) for x in range(20))
    found = merged([Polyline(curve)], [Polyline(curve[::-1]), Polyline(tuple((x, y + 1) for x, y in curve))])
    assert found.visible == (Polyline(curve),)
    assert len(found.hidden) == 1
