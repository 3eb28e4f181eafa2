"""Which features take nothing away that others do not take anyway: a first look without the kernel (mm)."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from setupsheet.part.face import Box
from setupsheet.plane import Point2, polar
from setupsheet.solid.column import metal
from setupsheet.solid.extent import bounds, has_size, overlap
from setupsheet.solid.volume import Primitive, Prism, Volume

_SEEN_MM = 1e-3
_GRID = 5
"""Places across a prism, each way, where its effect is looked for."""


@dataclass(frozen=True, slots=True)
class _Reach:
    """A shape of a feature and the box round it."""

    id: str
    shape: Primitive
    limits: Box


def perhaps_idle(box: Box, volumes: Mapping[str, Volume]) -> list[str]:
    """Return the ids whose volumes meet no metal of the box at any place looked at, once all others are cut.

    An id that is not returned surely takes metal away; one that is may still do so somewhere between.
    """
    around = [
        _Reach(id_, shape, bounds(shape)) for id_, volume in volumes.items() for shape in volume if has_size(shape)
    ]
    around = [entry for entry in around if overlap(entry.limits, box)]
    working: set[str] = set()
    for entry in around:
        if entry.id not in working and _takes(box, entry, around):
            working.add(entry.id)
    return [id_ for id_ in volumes if id_ not in working and any(entry.id == id_ for entry in around)]


def _takes(box: Box, own: _Reach, around: list[_Reach]) -> bool:
    near = [other.shape for other in around if other.id != own.id and overlap(other.limits, own.limits)]
    for at in _places(own, box):
        before = sum(high - low for low, high in metal(box, near, own.shape.axis, at))
        after = sum(high - low for low, high in metal(box, [*near, own.shape], own.shape.axis, at))
        if before - after > _SEEN_MM:
            return True
    return False


def _places(own: _Reach, box: Box) -> list[Point2]:
    shape, limits = own.shape, own.limits
    if not isinstance(shape, Prism):
        radius = max(shape.radius_low, shape.radius_high)
        return [shape.centre, *(polar(shape.centre, radius * 0.95, 90.0 * i + 10) for i in range(4))]
    u, v = (i for i in range(3) if i != shape.axis)
    low = (max(limits.low[u], box.low[u]), max(limits.low[v], box.low[v]))
    high = (min(limits.high[u], box.high[u]), min(limits.high[v], box.high[v]))
    steps = [(i + 0.5) / _GRID for i in range(_GRID)]
    return [(low[0] + s * (high[0] - low[0]), low[1] + t * (high[1] - low[1])) for s in steps for t in steps]
