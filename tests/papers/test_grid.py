"""The grid of taken places answers as a look at everything would."""

from __future__ import annotations

import itertools

from setupsheet.drawing.boxes import crosses, overlap, rect
from setupsheet.papers.grid import Grid


def test_the_grid_answers_as_a_look_at_everything() -> None:
    """Boxes and lines of many sizes, on borders of cells and below zero: the same answer as without cells."""
    boxes = [
        rect(3.0 * i % 50 - 20, 7.0 * i % 40 - 15, 3.0 * i % 50 - 18 + i % 9, 7.0 * i % 40 - 13) for i in range(12)
    ]
    lines = [((6.0 * (i - 3), -18.0), (11.0 * i % 37 - 9, 6.0 * i % 31)) for i in range(6)]
    lines += [((6.0, -30.0), (6.0, 30.0)), ((-30.0, 12.0), (30.0, 12.0))]
    grid = Grid()
    for box in boxes:
        grid.add_box(box)
    for line in lines:
        grid.add_line(line)
    asked = [rect(x, y, x + 5.0, y + 2.0) for x, y in itertools.product(range(-24, 30, 2), range(-24, 30, 2))]
    touched = [any(overlap(box, other, 0.5) for other in boxes) for box in asked]
    crossed = [any(crosses(box, line) for line in lines) for box in asked]
    assert {*touched} == {*crossed} == {True, False}
    assert [grid.touches(box, 0.5) for box in asked] == touched
    assert [grid.crossed(box) for box in asked] == crossed
