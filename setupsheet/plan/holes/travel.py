"""The order in which places are driven to: short ways, always the same for the same places."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise

from setupsheet.plan.holes import shortest
from setupsheet.plan.record import Position
from setupsheet.plane import Point2

Cell = tuple[int, int]
Key = tuple[str, str]

FEW, MANY = 8, 150
"""Up to this many places every way is looked at; up to that many the way is freed of its detours."""

NEAR = 0.02
"""By how much of the way an order that is easier to follow may be longer. Common practice, no source."""


def short_travel(positions: Sequence[Position]) -> list[Position]:
    """Return the positions in a short order, from the front left one on unless another start saves a good deal.

    From place to nearest place goes first; what is shorter by more than ``NEAR`` takes over: the shortest of all ways
    of few places, the way without its detours of more, rows there and back of many.
    """
    if len(positions) < 3:
        return _by_nearest(positions)
    nearest = _by_nearest(positions)
    if len(nearest) <= FEW:
        others = shortest.of_few(nearest)
    elif len(nearest) <= MANY:
        others = [shortest.without_detours(nearest), shortest.without_detours(_rows(nearest))]
    else:
        others = [_rows(nearest)]
    rows = [nearest, *others]
    best = min(shortest.length(row) for row in rows)
    return next(row for row in rows if shortest.length(row) <= best * (1 + NEAR) + 1e-9)


def _by_nearest(positions: Sequence[Position]) -> list[Position]:
    """Return the positions, each followed by its nearest neighbour, from the front left one on."""
    if not positions:
        return []
    field = _Field(positions)
    ordered = [field.take(min(positions, key=lambda p: (p.x + p.y, p.x, p.label)))]
    while len(ordered) < len(positions):
        ordered.append(field.take(field.nearest(ordered[-1])))
    return ordered


def _rows(positions: Sequence[Position]) -> list[Position]:
    """Return the positions row by row, there and back; rows along X or along Y, whichever is shorter."""
    return min((_there_and_back(positions, axis) for axis in (0, 1)), key=shortest.length)


def _there_and_back(positions: Sequence[Position], axis: int) -> list[Position]:
    rows: dict[float, list[Position]] = {}
    for p in positions:
        rows.setdefault(round((p.x, p.y)[1 - axis], 6), []).append(p)
    ordered: list[Position] = []
    for number, level in enumerate(sorted(rows)):
        row = sorted(rows[level], key=lambda p: ((p.x, p.y)[axis], p.label), reverse=number % 2 == 1)
        ordered += row
    return ordered


def one_way(places: Mapping[Key, Point2], signs: tuple[int, int]) -> list[Key]:
    """Return places in the order in which dials turn back least: along X or along Y, coming from the given sides."""
    seen = {key: (at[0] * signs[0], at[1] * signs[1]) for key, at in places.items()}
    along_x = sorted(seen, key=lambda key: (round(seen[key][0], 6), round(seen[key][1], 6), key))
    along_y = sorted(seen, key=lambda key: (round(seen[key][1], 6), round(seen[key][0], 6), key))
    return min(along_x, along_y, key=lambda row: _turned_back([seen[key] for key in row]))


def _turned_back(row: Sequence[Point2]) -> tuple[int, float]:
    """Return how many legs turn a dial back, and how long the whole way is."""
    legs = list(pairwise(row))
    back = sum(1 for a, b in legs if b[0] < a[0] - 1e-9 or b[1] < a[1] - 1e-9)
    return back, round(sum(math.dist(a, b) for a, b in legs), 6)


class _Field:
    """Places that are still to be driven to, by square cells with about one place in each."""

    def __init__(self, positions: Sequence[Position]) -> None:
        xs, ys = [p.x for p in positions], [p.y for p in positions]
        wide, deep = max(xs) - min(xs), max(ys) - min(ys)
        self.side = max(math.sqrt(wide * deep / len(positions)), max(wide, deep) / len(positions), 1e-3)
        self.cells: dict[Cell, list[Position]] = {}
        for position in positions:
            self.cells.setdefault(self._cell(position), []).append(position)

    def _cell(self, position: Position) -> Cell:
        return math.floor(position.x / self.side), math.floor(position.y / self.side)

    def take(self, position: Position) -> Position:
        """Strike a place off and return it."""
        cell = self._cell(position)
        self.cells[cell].remove(position)
        if not self.cells[cell]:
            del self.cells[cell]
        return position

    def nearest(self, here: Position) -> Position:
        """Return the nearest place that is left; of equally near ones the first by label."""
        around, found, ring = self._cell(here), [], 0
        while True:
            if (2 * ring + 1) ** 2 > 4 * len(self.cells):  # mostly empty cells: look at what is left instead
                return _first(here, (p for places in self.cells.values() for p in places))
            found += [p for cell in _ring(around, ring) for p in self.cells.get(cell, ())]
            if found and _way(here, _first(here, found)) <= ring * self.side:
                return _first(here, found)
            ring += 1


def _first(here: Position, places: Iterable[Position]) -> Position:
    return min(places, key=lambda p: (round(_way(here, p), 6), p.label))


def _ring(around: Cell, ring: int) -> list[Cell]:
    """Return the cells that lie ``ring`` cells away from one, straight or slanted."""
    i, j = around
    if not ring:
        return [around]
    sides = [(i + d, j + s * ring) for d in range(-ring, ring + 1) for s in (-1, 1)]
    return sides + [(i + s * ring, j + d) for d in range(-ring + 1, ring) for s in (-1, 1)]


def _way(a: Position, b: Position) -> float:
    return math.dist((a.x, a.y), (b.x, b.y))
