"""How far volumes reach and how much they can remove at most, by plain arithmetic (mm, mm3)."""

from __future__ import annotations

import math

from setupsheet.part.face import Box
from setupsheet.plane import Point3
from setupsheet.solid import loops
from setupsheet.solid.volume import CircleLoop, Loop, Primitive, Prism, Volume

_NOTHING = 1e-6
"""mm and mm2; what is smaller is no size."""


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


def has_size(shape: Primitive) -> bool:
    """Tell whether a primitive has a height and an area at all; the kernel may crash on one that has not."""
    if not shape.high - shape.low > _NOTHING:
        return False
    if not isinstance(shape, Prism):
        radii = (shape.radius_low, shape.radius_high)
        return min(radii) >= 0 and max(radii) > _NOTHING
    return all(_has_area(loop) for loop in (shape.outer, *shape.islands))


def _has_area(loop: Loop) -> bool:
    if isinstance(loop, CircleLoop):
        return loop.radius > _NOTHING
    return len(loop.edges) > 1 and loops.area(loop) > _NOTHING


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
