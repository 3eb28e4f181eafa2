"""Signs among letters: widths add up and strokes stay in their place."""

from __future__ import annotations

import pytest

from setupsheet.drawing import lettering, signs
from setupsheet.drawing.ink import Arc, Circle, Fill, Line, Polyline, Stroke, Text
from setupsheet.plane import Point2


def _points(stroke: Stroke) -> list[Point2]:
    if isinstance(stroke, Line):
        return [stroke.a, stroke.b]
    if isinstance(stroke, Polyline | Fill):
        return list(stroke.points)
    if isinstance(stroke, Circle | Arc):
        (x, y), r = stroke.centre, stroke.radius
        return [(x - r, y), (x + r, y)]
    assert isinstance(stroke, Text)
    return [stroke.at]


@pytest.mark.parametrize("name", sorted(signs.SIGNS))
def test_a_sign_stays_in_its_advance(name: str) -> None:
    """No point lies left of the sign's start or right of its width, which is less than its advance."""
    shape = signs.SIGNS[name]
    points = [p for stroke in signs.sign(name, (10.0, 0.0), 2.0) for p in _points(stroke)]
    assert all(10.0 - 0.25 <= x <= 10.0 + 2.0 * shape.width + 0.25 for x, _ in points)
    assert shape.width < shape.advance


def test_width_of_a_mixed_line_is_the_sum_of_its_parts() -> None:
    """Letters as lettering measures them, signs by their advance, no gap behind the last."""
    total = signs.width("2× ⌀6 ↧", 3.5)
    letters = lettering.width("2× ", 3.5) + lettering.width("6 ", 3.5)
    depth, diameter = signs.SIGNS[signs.DEPTH], signs.SIGNS[signs.DIAMETER]
    assert total == pytest.approx(letters + 3.5 * (diameter.advance + depth.width))


@pytest.mark.parametrize("anchor", ["left", "middle", "right"])
@pytest.mark.parametrize("angle", [0.0, 90.0, 37.0])
def test_a_line_stays_in_its_box(anchor: str, angle: float) -> None:
    """All strokes of a mixed line lie in the box that is announced (0.3 mm for what hangs out)."""
    text = Text((50.0, 50.0), 3.5, "4× ⌀6.6 ⌴⌀11 ↧6.5", anchor, angle)
    a, b, _, d = signs.box(text, 0.3)
    for stroke in signs.line(text):
        for x, y in _points(stroke):
            along = ((x - a[0]) * (b[0] - a[0]) + (y - a[1]) * (b[1] - a[1])) / (
                (b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2
            )
            up = ((x - a[0]) * (d[0] - a[0]) + (y - a[1]) * (d[1] - a[1])) / ((d[0] - a[0]) ** 2 + (d[1] - a[1]) ** 2)
            assert -1e-9 <= along <= 1 + 1e-9
            assert -1e-9 <= up <= 1 + 1e-9


def test_plain_text_stays_one_text() -> None:
    """A text without signs is passed through as it is."""
    text = Text((0.0, 0.0), 3.5, "M8-6H", path="/features/1")
    assert signs.line(text) == (text,)


def test_a_halo_covers_the_whole_line() -> None:
    """With a halo one white fill comes first and no run of letters has its own."""
    first, *rest = signs.line(Text((0.0, 0.0), 3.5, "⌀6 ↧5", halo=True))
    assert isinstance(first, Fill)
    assert first.grey == 1.0
    assert not any(isinstance(stroke, Text) and stroke.halo for stroke in rest)


def test_pointers_go_with_the_letters() -> None:
    """Every run of letters keeps the JSON pointer of the value."""
    runs = [s for s in signs.line(Text((0.0, 0.0), 3.5, "2× ⌀6", path="/p")) if isinstance(s, Text)]
    assert [run.path for run in runs] == ["/p", "/p"]
