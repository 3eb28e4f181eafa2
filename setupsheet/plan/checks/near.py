"""Metal along a line, asked many thousand times: the removed shapes sorted into squares, so that few are looked at.

``column.metal`` does the arithmetic; this only hands it the shapes that can matter at the place.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from setupsheet.part.face import Box
from setupsheet.plane import Point2
from setupsheet.solid import column
from setupsheet.solid.extent import bounds
from setupsheet.solid.volume import Primitive

Spans = tuple[tuple[float, float], ...]

_SQUARES = 40
"""Squares along the longer side of the box."""

_WIDE = 64
"""A shape over more squares than this is looked at everywhere."""

_SLACK_MM = 0.01


class Near:
    """A box less a row of shapes in the order in which they go; coordinates of the part, mm."""

    def __init__(self, box: Box, shapes: tuple[Primitive, ...]) -> None:
        """Take the box and the shapes; squares are made for an axis when it is first asked for."""
        self.box = box
        self.shapes = shapes
        self._side = max(max(box.size) / _SQUARES, 0.5)
        self._squares: dict[int, tuple[list[int], dict[tuple[int, int], list[int]]]] = {}

    def metal(self, axis: int, at: Point2, gone: int | None = None) -> Spans:
        """Return the intervals of metal along a part axis over a point, once the first ``gone`` shapes are cut.

        None for ``gone`` cuts all of them.
        """
        count = len(self.shapes) if gone is None else gone
        wide, squares = self._sorted(axis)
        here = squares.get(self._square(at), [])
        shapes = [self.shapes[i] for i in (*wide, *here) if i < count]
        return column.metal(self.box, shapes, axis, at)

    def _square(self, at: Point2) -> tuple[int, int]:
        return math.floor(at[0] / self._side), math.floor(at[1] / self._side)

    def _sorted(self, axis: int) -> tuple[list[int], dict[tuple[int, int], list[int]]]:
        if axis not in self._squares:
            wide: list[int] = []
            squares: dict[tuple[int, int], list[int]] = {}
            for index, shape in enumerate(self.shapes):
                covered = list(self._covered(shape, axis))
                if len(covered) > _WIDE:
                    wide.append(index)
                else:
                    for square in covered:
                        squares.setdefault(square, []).append(index)
            self._squares[axis] = (wide, squares)
        return self._squares[axis]

    def _covered(self, shape: Primitive, axis: int) -> Iterator[tuple[int, int]]:
        """Yield the squares that a shape may reach, one more than ``_WIDE`` at most."""
        limits = bounds(shape)
        u, v = (i for i in range(3) if i != axis)
        low = self._square((limits.low[u] - _SLACK_MM, limits.low[v] - _SLACK_MM))
        high = self._square((limits.high[u] + _SLACK_MM, limits.high[v] + _SLACK_MM))
        found = 0
        for i in range(low[0], high[0] + 1):
            for j in range(low[1], high[1] + 1):
                yield i, j
                found += 1
                if found > _WIDE:
                    return
