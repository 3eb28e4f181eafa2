"""A bolt circle as a readout's own function wants it: centre, radius, first angle, sense, count.

The angle and the sense are the machine's: seen from the other side of the part they are not the drawing's.
"""

from __future__ import annotations

import math

from setupsheet.length import fixed
from setupsheet.part.feature import BoltCircle, Hole
from setupsheet.plan.bench import Bench
from setupsheet.plan.record import RingFunction
from setupsheet.plane import angle_of


def ring_functions(bench: Bench, hole: Hole) -> tuple[RingFunction, ...]:
    """Return the circle of a hole pattern for this setup; nothing for a pattern that is no full circle."""
    circle = hole.pattern
    if not isinstance(circle, BoltCircle) or circle.skipped or circle.arc_deg != 360 or len(hole.spots) < 3:
        return ()
    centre = bench.laid.flat(circle.centre)
    first, second = (bench.laid.flat(spot.at) for spot in hole.spots[:2])
    start = round(angle_of(centre, first), 6) % 360
    turn = (angle_of(centre, second) - angle_of(centre, first)) % 360
    sense = "anticlockwise" if turn < 180 else "clockwise"
    radius = circle.pcd_mm / 2
    chord = 2 * radius * math.sin(math.pi / circle.count)
    at = bench.settle("x", first[0]), bench.settle("y", first[1])
    shown = {
        "x": bench.shown("x", bench.settle("x", centre[0])),
        "y": bench.shown("y", bench.settle("y", centre[1])),
        "radius": bench.scales["x"].plain(radius).lstrip("+"),
        "start": f"{fixed(start, 3).rstrip('0').rstrip('.')}°",
        "count": str(circle.count),
        "chord": bench.scales["x"].plain(chord).lstrip("+"),
        "first_x": bench.shown("x", at[0]),
        "first_y": bench.shown("y", at[1]),
    }
    words = (
        f"centre X {shown['x']} Y {shown['y']}; radius {shown['radius']}; {shown['count']} holes; first hole "
        f"{hole.spots[0].label} at {shown['start']}, then {sense}. {hole.spots[0].label} must come out at "
        f"X {shown['first_x']} Y {shown['first_y']}; neighbours {shown['chord']} apart"
    )
    return (
        RingFunction(hole.id, centre, radius, hole.spots[0].label, start, sense, circle.count, chord, shown, words),
    )
