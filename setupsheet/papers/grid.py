"""What is taken on a picture, kept by cells, so that a question looks at its neighbours alone. Paper mm."""

from __future__ import annotations

import itertools
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field

from setupsheet.drawing.boxes import Rect, Segment, crosses, grow, overlap, rect

_CELL_MM = 6.0
"""Side of a cell: about a label."""
_SLACK_MM = 1e-6
"""A line on the border of two cells is kept in both."""

Cell = tuple[int, int]


@dataclass(slots=True)
class Grid:
    """Boxes and straight lines, found again by where they are."""

    boxes: defaultdict[Cell, list[Rect]] = field(default_factory=lambda: defaultdict(list))
    lines: defaultdict[Cell, list[Segment]] = field(default_factory=lambda: defaultdict(list))

    def add_box(self, box: Rect) -> None:
        """Keep a box."""
        for cell in _cells(box):
            self.boxes[cell].append(box)

    def add_line(self, line: Segment) -> None:
        """Keep a straight line in the cells that it runs through."""
        (x0, y0), (x1, y1) = line
        for cell in _cells(grow(rect(x0, y0, x1, y1), _SLACK_MM)):
            if crosses(grow(_square(cell), _SLACK_MM), line):
                self.lines[cell].append(line)

    def touches(self, box: Rect, clear: float) -> bool:
        """Tell whether a box comes closer than ``clear`` to one that is kept."""
        cells = (self.boxes.get(cell, ()) for cell in _cells(grow(box, clear)))
        return any(overlap(box, other, clear) for other in itertools.chain.from_iterable(cells))

    def crossed(self, box: Rect) -> bool:
        """Tell whether a kept line runs through a box."""
        return any(crosses(box, line) for cell in _cells(box) for line in self.lines.get(cell, ()))

    def copy(self) -> Grid:
        """Return a grid that grows apart from this one."""
        boxes = {cell: list(found) for cell, found in self.boxes.items()}
        lines = {cell: list(found) for cell, found in self.lines.items()}
        return Grid(defaultdict(list, boxes), defaultdict(list, lines))


def _cells(box: Rect) -> Iterator[Cell]:
    (x0, y0), (x1, y1) = box
    columns = range(int(x0 // _CELL_MM), int(x1 // _CELL_MM) + 1)
    rows = range(int(y0 // _CELL_MM), int(y1 // _CELL_MM) + 1)
    return itertools.product(columns, rows)


def _square(cell: Cell) -> Rect:
    x, y = cell[0] * _CELL_MM, cell[1] * _CELL_MM
    return (x, y), (x + _CELL_MM, y + _CELL_MM)
