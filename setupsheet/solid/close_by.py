"""Which of many removed shapes a line along an axis may meet: a grid over their bounds, kept from question to question.

A plan asks for the metal over hundreds of points while thousands of shapes are gone, and the list of what is gone
only grows at its end. So one grid serves a list and every list that begins like it: shapes are known by their place
in the list, and a shorter list leaves out the places beyond its own end.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from setupsheet.plane import Point2
from setupsheet.solid import extent
from setupsheet.solid.volume import Primitive

FEW = 24
"""So few shapes are asked one by one."""

KEPT = 6
"""Lists that are remembered; more would only cost room."""

_WIDE_CELLS = 64
_MARGIN_MM = 1e-3
_CELL_MM = 8.0

Cell = tuple[int, int]


class Grid:
    """Shapes by the cells that their bounds cover, seen along each part axis; ``shapes`` may be extended."""

    def __init__(self) -> None:
        """Start with no shape."""
        self.shapes: tuple[Primitive, ...] = ()
        self._cells: tuple[dict[Cell, list[int]], ...] = ({}, {}, {})
        self._wide: tuple[list[int], ...] = ([], [], [])

    def extend(self, shapes: tuple[Primitive, ...]) -> None:
        """Take in a list that begins like the one that is known."""
        for number in range(len(self.shapes), len(shapes)):
            box = extent.bounds(shapes[number])
            for axis in range(3):
                u, v = (i for i in range(3) if i != axis)
                low = _cell((box.low[u] - _MARGIN_MM, box.low[v] - _MARGIN_MM))
                high = _cell((box.high[u] + _MARGIN_MM, box.high[v] + _MARGIN_MM))
                self._add(axis, number, (low, high))
        self.shapes = shapes

    def _add(self, axis: int, number: int, cells: tuple[Cell, Cell]) -> None:
        (i0, j0), (i1, j1) = cells
        if (i1 - i0 + 1) * (j1 - j0 + 1) > _WIDE_CELLS:
            self._wide[axis].append(number)
            return
        for i in range(i0, i1 + 1):
            for j in range(j0, j1 + 1):
                self._cells[axis].setdefault((i, j), []).append(number)

    def along(self, axis: int, at: Point2, count: int) -> list[Primitive]:
        """Return the shapes among the first ``count`` that a line along an axis may meet, in their order."""
        here = self._cells[axis].get(_cell(at), [])
        return [self.shapes[k] for k in sorted((*here, *self._wide[axis])) if k < count]


def _cell(at: Point2) -> Cell:
    return math.floor(at[0] / _CELL_MM), math.floor(at[1] / _CELL_MM)


class Memory:
    """The grids of the last few lists."""

    def __init__(self) -> None:
        """Start empty."""
        self._grids: list[Grid] = []

    def grid(self, shapes: tuple[Primitive, ...]) -> Grid:
        """Return the grid of a list: one that knows it or its beginning, else a new one."""
        for place, grid in enumerate(self._grids):
            if grid.shapes is shapes or _begins_like(grid.shapes, shapes):
                self._grids.insert(0, self._grids.pop(place))
                break
        else:
            grid = Grid()
            self._grids = [grid, *self._grids[: KEPT - 1]]
        if len(shapes) > len(grid.shapes):
            grid.extend(shapes)
        return grid


def _begins_like(a: Sequence[Primitive], b: Sequence[Primitive]) -> bool:
    """Tell whether the shorter of two lists is the beginning of the longer."""
    count = min(len(a), len(b))
    return count > 0 and a[count - 1] is b[count - 1] and a[:count] == b[:count]


_MEMORY = Memory()


def close_by(shapes: tuple[Primitive, ...], axis: int, at: Point2) -> Sequence[Primitive]:
    """Return the shapes that a line along a part axis may meet; ``at`` as in column.metal."""
    if len(shapes) <= FEW:
        return shapes
    return _MEMORY.grid(shapes).along(axis, at, len(shapes))
