"""The symbol must show what its word says."""

from __future__ import annotations

import pytest

from setupsheet.drawing import projection_symbol
from setupsheet.drawing.ink import Circle, Polyline


@pytest.mark.parametrize("projection", ["first", "third"])
def test_symbol_reads_back(projection: str) -> None:
    """Circles stand beside the small end in third angle and beside the large end in first angle."""
    assert projection_symbol.read(projection_symbol.symbol(projection, (50.0, 20.0), 3.5)) == projection


def test_third_angle_by_the_rule_of_the_small_end() -> None:
    """Both circles can be seen only from the small end; third angle puts that view beside it (geometry)."""
    strokes = projection_symbol.symbol("third", (0.0, 0.0), 3.5)
    cone = next(stroke for stroke in strokes if isinstance(stroke, Polyline))
    circles = [stroke for stroke in strokes if isinstance(stroke, Circle)]
    ends = {x: max(y for px, y in cone.points if px == x) for x, _ in cone.points}
    small, large = sorted(ends, key=lambda x: ends[x])
    assert abs(circles[0].centre[0] - small) < abs(circles[0].centre[0] - large)
    assert sorted(circle.radius for circle in circles) == sorted(ends.values())


def test_symbol_stays_in_its_size() -> None:
    """No point of the symbol lies outside the size that is announced."""
    wide, high = projection_symbol.size(3.5)
    for stroke in projection_symbol.symbol("first", (0.0, 0.0), 3.5):
        points = stroke.points if isinstance(stroke, Polyline) else ()
        if isinstance(stroke, Circle):
            points = ((stroke.centre[0] + stroke.radius, stroke.radius),)
        assert all(abs(x) <= wide / 2 + 1e-9 and abs(y) <= high / 2 + 1e-9 for x, y in points)


def test_nothing_reads_as_nothing_and_other_words_are_refused() -> None:
    """An empty drawing shows no projection; there are only two."""
    assert projection_symbol.read(()) == ""
    with pytest.raises(ValueError, match="second"):
        projection_symbol.symbol("second", (0.0, 0.0), 3.5)
