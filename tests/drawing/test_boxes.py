"""Boxes on paper."""

from __future__ import annotations

import pytest

from setupsheet.drawing.boxes import crosses, inside, join, overlap, rect, segments_cross, turned

BOX = rect(0, 0, 10, 5)


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        (((-5.0, 2.0), (15.0, 2.0)), True),
        (((-5.0, 5.0), (15.0, 5.0)), False),
        (((-5.0, 6.0), (15.0, 6.0)), False),
        (((2.0, 2.0), (3.0, 3.0)), True),
        (((-1.0, 4.0), (1.0, 7.0)), False),
        (((-1.0, 3.0), (3.0, 7.0)), True),
    ],
)
def test_a_line_crosses_a_box_only_with_length_inside(
    line: tuple[tuple[float, float], tuple[float, float]], expected: bool
) -> None:
    """Touching a side is not crossing."""
    assert crosses(BOX, line) is expected


def test_touching_boxes_do_not_overlap_but_are_not_clear() -> None:
    """Boxes that share a side have no common area and no distance."""
    beside = rect(10, 0, 20, 5)
    assert not overlap(BOX, beside)
    assert overlap(BOX, beside, 1.0)


def test_join_holds_all() -> None:
    """The joined box holds both."""
    other = rect(-3, 2, 4, 9)
    assert inside(BOX, join([BOX, other]))
    assert inside(other, join([BOX, other]))


def test_a_text_turned_upright_stands_left_of_its_foot() -> None:
    """Turned by 90 degrees, what lay above the base line lies left of it."""
    (x0, y0), (x1, y1) = turned((0.0, 0.0), 10.0, 0.0, 3.0, 90.0)
    assert (x0, y0, x1, y1) == pytest.approx((-3.0, 0.0, 0.0, 10.0))


def test_lines_that_share_an_end_do_not_cross() -> None:
    """A common end point is no crossing."""
    assert not segments_cross(((0, 0), (5, 5)), ((5, 5), (9, 0)))
    assert segments_cross(((0, 0), (5, 5)), ((0, 5), (5, 0)))
