"""What lies near a place on paper, without looking at all the rest: a grid of square cells."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Generic, TypeVar

from setupsheet.drawing.boxes import Rect

Thing = TypeVar("Thing")
_CELL_MM = 12.0
_TOO_WIDE = 400
"""Things over more cells than this are kept aside and always looked at."""


class Grid(Generic[Thing]):
    """Things by the cells that their boxes cover; each is found once, in the order of adding."""

    def __init__(self) -> None:
        """Start empty."""
        self._cells: dict[tuple[int, int], list[int]] = {}
        self._things: list[Thing] = []
        self._wide: list[int] = []

    def add(self, box: Rect, thing: Thing) -> None:
        """Add a thing with its box."""
        index = len(self._things)
        self._things.append(thing)
        cells = list(_cells(box))
        if len(cells) > _TOO_WIDE:
            self._wide.append(index)
            return
        for cell in cells:
            self._cells.setdefault(cell, []).append(index)

    def near(self, box: Rect) -> list[Thing]:
        """Return the things whose cells a box touches."""
        found = set(self._wide)
        for cell in _cells(box):
            found.update(self._cells.get(cell, ()))
        return [self._things[index] for index in sorted(found)]


def _cells(box: Rect) -> Iterator[tuple[int, int]]:
    (x0, y0), (x1, y1) = box
    for i in range(math.floor(x0 / _CELL_MM), math.floor(x1 / _CELL_MM) + 1):
        for j in range(math.floor(y0 / _CELL_MM), math.floor(y1 / _CELL_MM) + 1):
            yield i, j
