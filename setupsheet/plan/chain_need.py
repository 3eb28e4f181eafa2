"""From a hole of a part to what its chain of cutters needs to know."""

from __future__ import annotations

from setupsheet.part.feature import Hole
from setupsheet.part.part import Part
from setupsheet.plan.chain_record import HoleNeed


def need_of(hole: Hole, part: Part, started_from: str = "mouth") -> HoleNeed:
    """Return what a hole of a part needs; its depth is that of its deepest place."""
    deepest = max((abs(spot.mouth_mm - spot.exit_mm) for spot in hole.spots), default=None)
    return HoleNeed(
        making=hole.making,
        diameter=hole.diameter,
        thread=hole.thread,
        through=hole.through,
        depth_mm=hole.depth_mm if hole.depth_mm is not None else deepest,
        drill_depth_mm=hole.drill_depth_mm,
        counterbore=hole.counterbore,
        countersink=hole.countersink,
        chamfers=hole.chamfers,
        material_group=part.material_group,
        located=hole.position is not None,
        mate=hole.mate,
        unit=part.unit,
        started_from=started_from,
    )
