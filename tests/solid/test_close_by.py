"""The grid over removed shapes gives the same metal as asking every shape."""

from __future__ import annotations

import random

from setupsheet.part.face import Box
from setupsheet.solid import close_by, column
from setupsheet.solid.volume import Cone, EdgeLoop, LineEdge, Primitive, Prism

BOX = Box((0.0, 0.0, 0.0), (100.0, 80.0, 20.0))


def _shapes(count: int, seed: int) -> tuple[Primitive, ...]:
    """Return holes along all axes and some pockets, some of them on the grid's own lines."""
    dice = random.Random(seed)
    shapes: list[Primitive] = []
    for _ in range(count):
        axis = dice.randrange(3)
        at = (8.0 * dice.randrange(12), dice.uniform(0, 80))
        if dice.random() < 0.7:
            shapes.append(Cone(axis, at, 0.0, dice.uniform(5, 30), dice.uniform(0, 4), dice.uniform(0.5, 4)))
        else:
            (x, y), (w, h) = at, (dice.uniform(1, 60), dice.uniform(1, 30))
            ring = [(x, y), (x + w, y), (x + w, y + h), (x, y + h)]
            edges = tuple(LineEdge(ring[i], ring[(i + 1) % 4]) for i in range(4))
            shapes.append(Prism(axis, EdgeLoop(edges), (), 0.0, dice.uniform(5, 30)))
    return tuple(shapes)


def test_same_metal_as_without_a_grid() -> None:
    """Points inside, on the lines of the grid and on walls of shapes, along all three axes."""
    shapes = _shapes(200, 1)
    dice = random.Random(2)
    for _ in range(300):
        axis = dice.randrange(3)
        at = (8.0 * dice.randrange(12), dice.choice([8.0 * dice.randrange(10), dice.uniform(0, 80)]))
        one_by_one = _without_grid(shapes, axis, at)
        assert column.metal(BOX, shapes, axis, at) == one_by_one


def _without_grid(shapes: tuple[Primitive, ...], axis: int, at: tuple[float, float]) -> tuple[tuple[float, float], ...]:
    """Ask in portions that are too few for a grid, and cut what each leaves out of the others."""
    spans: list[tuple[float, float]] = [(BOX.low[axis], BOX.high[axis])]
    for start in range(0, len(shapes), close_by.FEW):
        there = column.metal(BOX, shapes[start : start + close_by.FEW], axis, at)
        spans = [(max(a, c), min(b, d)) for a, b in spans for c, d in there if min(b, d) - max(a, c) > 1e-9]
    return tuple(spans)


def test_a_list_that_grows_and_its_beginnings_share_a_grid() -> None:
    """A longer list extends what is known; a shorter one sees none of the later shapes."""
    memory = close_by.Memory()
    long = _shapes(120, 3)
    short, other = long[:50], _shapes(60, 4)
    grid = memory.grid(short)
    assert memory.grid(long) is grid
    assert memory.grid((*short,)) is grid
    assert memory.grid(other) is not grid
    seen = grid.along(2, (16.0, 16.0), len(short))
    assert all(any(shape is one for one in short) for shape in seen)
