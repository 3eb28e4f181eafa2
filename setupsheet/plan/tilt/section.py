"""The part at an angle seen from the front: the outline of its metal in setup X and Z.

Cuts that do not run through from the front to the back are not taken off, so that the outline is never too small.
"""

from __future__ import annotations

from collections.abc import Iterable

from setupsheet.part.face import Box
from setupsheet.plan.milling import area
from setupsheet.plan.milling.area import Region
from setupsheet.plane import Point2
from setupsheet.solid.extent import bounds
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
    reach = bounds(primitive)
    if reach.low[axis] > box.low[axis] + _EDGE or reach.high[axis] < box.high[axis] - _EDGE:
        return None
    if primitive.axis == axis:
        return area.of_loop(primitive.outer, primitive.islands)
    whole = area.of_loop(primitive.outer, primitive.islands)
    if area.size(whole) < area.size(area.rectangle(*area.bounds(whole))) - _EDGE:
        return None
    u, v = (i for i in range(3) if i != axis)
    return area.rectangle((reach.low[u], reach.low[v]), (reach.high[u], reach.high[v]))


def over(region: Region, low: float, high: float = _FAR) -> Region:
    """Return what of an outline lies between two heights."""
    return area.common(region, area.rectangle((-_FAR, low), (_FAR, high)))


def outline(region: Region) -> tuple[Point2, ...]:
    """Return the corners of the largest piece of an outline, counter-clockwise."""
    pieces = sorted(area.polygons(region), key=lambda piece: -piece.area)
    return tuple((float(x), float(y)) for x, y in list(pieces[0].exterior.coords)[:-1]) if pieces else ()
