"""The bench look-up of a bolt circle: where its holes are, as plain JSON.

circle_as_json(46.0, 6, 30.0)              -> {"positions": [...], "chord": 23.0, "units": "mm"}
"""

from __future__ import annotations

import math
from typing import Any

from setupsheet.length import Unit
from setupsheet.plane import Point2, distance, polar


def circle_as_json(
    pcd: float, count: int, start_deg: float = 0.0, centre: Point2 = (0.0, 0.0), unit: Unit = Unit.MM
) -> dict[str, Any]:
    """Return the places of equally spaced holes and the chord between neighbours, all in ``unit``.

    Angles are counter-clockwise from +X. Raises ValueError for a circle that is none.
    """
    if not (math.isfinite(pcd) and pcd > 0):
        raise ValueError(f"a pitch circle diameter of {pcd:g} is none: it must be above 0")
    if count < 1:
        raise ValueError(f"{count} holes are none: the count must be 1 or more")
    points = [polar(centre, pcd / 2.0, start_deg + 360.0 * number / count) for number in range(count)]
    positions = [{"label": str(number), "x": _tidy(x), "y": _tidy(y)} for number, (x, y) in enumerate(points, 1)]
    chord = distance(points[0], points[1]) if count > 1 else 0.0
    return {"positions": positions, "chord": _tidy(chord), "units": unit.value}


def _tidy(value: float) -> float:
    return round(value, 6) + 0.0
