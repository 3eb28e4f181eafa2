"""Holes that are drilled before the level beside them is milled: half on its floor, a drill has nothing to stand on.

A hole whose mouth lies across the edge of a level, or so near its wall that the spot drill would cut into it, is
drilled while the surface is still whole. All others come after, when there is less to drill.
"""

from __future__ import annotations

from collections.abc import Iterable

from setupsheet.part.feature import Hole, Level
from setupsheet.plan.milling import area

_CLEAR_MM = 0.25
"""How far a spot drill stays off a wall. Common practice, no source."""

_SPOT_RADIUS_MM = 5.0
"""Spot drills are no wider than 10 mm in a small shop. Common practice, no source."""


def before_levels(levels: Iterable[Level], holes: Iterable[Hole], top_mm: float) -> tuple[str, ...]:
    """Return the ids of the holes that are drilled before the levels of a setup are milled.

    ``top_mm`` is the coordinate of the face that is up, from which the depth of a level counts.
    """
    steps = [(level, abs(top_mm - level.height.nominal_mm)) for level in levels if level.area is not None]
    return tuple(hole.id for hole in holes if any(_beside(hole, level, deep) for level, deep in steps))


def _beside(hole: Hole, level: Level, deep: float) -> bool:
    """Tell whether a place of a hole, or the spot drill that starts it on the floor, lies across a level's edge.

    A 90 degree spot whose rim is the hole at the floor is wider by the wall's height at the top of the wall.
    """
    assert level.area is not None
    region = area.of_shape(level.area)
    radius = hole.diameter.nominal_mm / 2
    wide = max(radius, min(radius + deep, _SPOT_RADIUS_MM)) + _CLEAR_MM
    return any(abs(area.distance_to_edge(region, spot.at)) < wide for spot in hole.spots)
