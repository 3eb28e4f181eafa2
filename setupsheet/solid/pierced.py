"""A block with many plain through holes, drawn out in one go instead of cut hole by hole.

A kernel file. Cutting a thousand cylinders takes seconds; drawing out a face with a thousand round openings
takes hundredths. Only holes that run right through the block, inside it and apart from each other qualify, and no other
stage may share their axis.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping

from setupsheet.part.face import Box
from setupsheet.plane import Point2, distance
from setupsheet.solid import loops
from setupsheet.solid.cutters import Shape, cutters
from setupsheet.solid.volume import CircleLoop, Cone, Prism, Volume

FROM_COUNT = 60
"""Fewer holes are cut like everything else."""

_APART_MM = 1e-3


def pierced(box: Box, volumes: Mapping[str, Volume]) -> tuple[Shape | None, dict[str, Volume]]:
    """Return the pierced block and the volumes still to be cut; None and all of them if it does not pay."""
    cones = [shape for volume in volumes.values() for shape in volume if isinstance(shape, Cone)]
    stages = Counter((cone.axis, cone.centre) for cone in cones)
    whole = [cone for cone in cones if stages[(cone.axis, cone.centre)] == 1 and _through(cone, box)]
    if len(whole) < FROM_COUNT:
        return None, dict(volumes)
    axis = Counter(cone.axis for cone in whole).most_common(1)[0][0]
    round_ = _alone([cone for cone in whole if cone.axis == axis])
    rest = {key: tuple(s for s in volume if s not in round_) for key, volume in volumes.items()}
    u, v = (i for i in range(3) if i != axis)
    outer = loops.rectangle((box.low[u], box.low[v]), (box.high[u], box.high[v]))
    openings = tuple(CircleLoop(cone.centre, cone.radius_low) for cone in round_)
    block = Prism(axis, outer, openings, box.low[axis], box.high[axis])
    return cutters((block,))[0], {key: volume for key, volume in rest.items() if volume}


def _through(cone: Cone, box: Box) -> bool:
    if cone.radius_low != cone.radius_high or cone.low > box.low[cone.axis] or cone.high < box.high[cone.axis]:
        return False
    edge = cone.radius_low + _APART_MM
    return all(
        box.low[i] + edge < c < box.high[i] - edge
        for i, c in zip((i for i in range(3) if i != cone.axis), cone.centre, strict=True)
    )


def _alone(cones: list[Cone]) -> dict[Cone, None]:
    """Return the cylinders that meet no other one of the list, looked for along the first axis."""
    row = sorted(cones, key=_key)
    reach = 2 * max(cone.radius_low for cone in row) + _APART_MM
    meeting: set[int] = set()
    for i, cone in enumerate(row):
        for j in range(i + 1, len(row)):
            if row[j].centre[0] - cone.centre[0] > reach:
                break
            if distance(row[j].centre, cone.centre) < row[j].radius_low + cone.radius_low + _APART_MM:
                meeting |= {i, j}
    return {cone: None for i, cone in enumerate(row) if i not in meeting}


def _key(cone: Cone) -> tuple[Point2, float]:
    return cone.centre, cone.radius_low
