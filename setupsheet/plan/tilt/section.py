"""The part at an angle seen from the front: the outline of its metal in setup X and Z.

Cuts that do not run through from the front to the back are not taken off, so that the outline is never too small.
"""

from __future__ import annotations

from collections.abc import Iterable

from setupsheet.part.face import Box
from setupsheet.plan.milling import area
from setupsheet.plan.milling.area import Region
from setupsheet.plane import Point2
from setupsheet.solid.tilted import Tilted
from setupsheet.solid.volume import Primitive, Prism

_FAR = 1e4
_EDGE = 1e-6


def section(box: Box, removed: Iterable[Primitive], tilted: Tilted) -> Region:
    """Return the outline of a block less everything that runs through along machine Y, in setup X and Z."""
    axis = tilted.upright.axes[1]
    u, v = tilted.upright.back.in_plane
    region = area.rectangle((box.low[u], box.low[v]), (box.high[u], box.high[v]))
    gone = [cut for primitive in removed if (cut := _through(primitive, axis, box)) is not None]
    return area.carried(area.without(region, area.union(gone)), tilted.flat)


def _through(primitive: Primitive, axis: int, box: Box) -> Region | None:
    """Return what a cut takes out of the outline, None if it does not run from the front to the back."""
    if not isinstance(primitive, Prism):
        return None
    loop = area.of_loop(primitive.outer, primitive.islands)
    if primitive.axis == axis:
        whole = primitive.low <= box.low[axis] + _EDGE and primitive.high >= box.high[axis] - _EDGE
        return loop if whole else None
    across = 3 - axis - primitive.axis
    strips = [
        area.rectangle((low, primitive.low), (high, primitive.high))
        if across < primitive.axis
        else area.rectangle((primitive.low, low), (primitive.high, high))
        for low, high in _right_through(loop, (across, axis), box)
    ]
    return area.union(strips) if strips else None


def _right_through(loop: Region, axes: tuple[int, int], box: Box) -> list[tuple[float, float]]:
    """Return where along the first axis a cut's area reaches over the whole block along the second."""
    first = 0 if axes[0] < axes[1] else 1
    low, high = (tuple(corner[axis] for axis in sorted(axes)) for corner in (box.low, box.high))
    block = area.rectangle((low[0], low[1]), (high[0], high[1]))
    bare = block
    for piece in area.polygons(area.without(block, loop)):
        if not area.is_empty(piece):
            start, end = (corner[first] for corner in area.bounds(piece))
            strip = ((start, -_FAR), (end, _FAR)) if first == 0 else ((-_FAR, start), (_FAR, end))
            bare = area.without(bare, area.rectangle(*strip))
    ends = [area.bounds(piece) for piece in area.polygons(bare) if not area.is_empty(piece)]
    return [(start[first], end[first]) for start, end in ends]


def over(region: Region, low: float, high: float = _FAR) -> Region:
    """Return what of an outline lies between two heights."""
    return area.common(region, area.rectangle((-_FAR, low), (_FAR, high)))


def outline(region: Region) -> tuple[Point2, ...]:
    """Return the corners of the largest piece of an outline, counter-clockwise."""
    pieces = sorted(area.polygons(region), key=lambda piece: -piece.area)
    return tuple((float(x), float(y)) for x, y in list(pieces[0].exterior.coords)[:-1]) if pieces else ()
