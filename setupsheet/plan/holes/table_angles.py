"""Holes on a circle about a rotary table's axis: the spindle stands at the radius, the table turns to each angle."""

from __future__ import annotations

import math

from setupsheet.part.feature import Hole
from setupsheet.plan import angles
from setupsheet.plan.bench import Bench
from setupsheet.plan.record import TableAngle, TableAngles
from setupsheet.plane import angle_of

_AXIS = (0.0, 0.0)
_SAME_MM = 1e-4


def table_angles(bench: Bench, hole: Hole) -> TableAngles | None:
    """Return a pattern's holes as angles of the table that holds the part; None unless they stand on one circle."""
    table = bench.rotary
    at = [bench.laid.flat(spot.at) for spot in hole.spots]
    radii = [math.dist(_AXIS, place) for place in at]
    if table is None or len(at) < 2 or max(radii) - min(radii) > _SAME_MM or min(radii) < _SAME_MM:
        return None
    radius = bench.settle("x", radii[0])
    turned = [angles.settle(table, angle_of(_AXIS, place) % angles.WHOLE_DEG) for place in at]
    places = tuple(
        TableAngle(spot.label, angle, angles.shown(table, angle))
        for spot, angle in zip(hole.spots, turned, strict=True)
    )
    apart = (turned[1] - turned[0]) % angles.WHOLE_DEG
    chord = angles.chord(radius, min(apart, angles.WHOLE_DEG - apart))
    shown = {"radius": bench.shown("x", radius), "chord": bench.scales["x"].plain(chord).lstrip("+")}
    said = ", ".join(f"{place.label} {place.shown}" for place in places)
    words = (
        f"or by the rotary table, not both: X {shown['radius']} Y {bench.shown('y', 0.0)} locked; table at {said}; "
        f"{places[0].label} and {places[1].label} stand {shown['chord']} apart, centre to centre"
    )
    return TableAngles(hole.id, radius, chord, places, shown, words)
