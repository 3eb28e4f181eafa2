"""How far volumes reach and how much they can remove at most, by plain arithmetic (mm, mm3)."""

from __future__ import annotations

import math

from setupsheet.part.face import Box
from setupsheet.plane import Point3
from setupsheet.solid import loops
from setupsheet.solid.volume import Primitive, Prism, Volume


def bounds(shape: Primitive) -> Box:
    """Return the box round a primitive."""
    if isinstance(shape, Prism):
        flat = loops.bounds(shape.outer)
    else:
        (u, v), r = shape.centre, max(shape.radius_low, shape.radius_high)
        flat = ((u - r, v - r), (u + r, v + r))
    return Box(_insert(flat[0], shape.axis, shape.low), _insert(flat[1], shape.axis, shape.high))


def volume_at_most(volume: Volume) -> float:
    """Return the summed volume of the primitives; shapes that overlap and islands only make it less."""
    return sum(_volume(shape) for shape in volume)


def overlap(a: Box, b: Box) -> bool:
    """Tell whether two boxes share some space, not only a face."""
    return all(a.low[i] < b.high[i] and b.low[i] < a.high[i] for i in range(3))


def _volume(shape: Primitive) -> float:
    height = shape.high - shape.low
    if isinstance(shape, Prism):
        return loops.area(shape.outer) * height
    a, b = shape.radius_low, shape.radius_high
    return math.pi * height * (a * a + a * b + b * b) / 3


def _insert(flat: tuple[float, float], axis: int, value: float) -> Point3:
    full = [flat[0], flat[1]]
    full.insert(axis, value)
    return (full[0], full[1], full[2])
