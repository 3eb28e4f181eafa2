"""Arcs of a rotary table and rings of a boring head, as areas seen from above and as numbers."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

from setupsheet.plan.replay import metal
from setupsheet.plan.replay.metal import Area, Round
from setupsheet.plane import Point2, polar

Json = Mapping[str, Any]


def arc_reach(arc: Json, radius: float) -> float:
    """Return how far from the table's axis a cutter of this radius reaches on an arc."""
    return max(float(arc["radius"]), run_in_of(arc)) + radius


def run_in_of(arc: Json) -> float:
    """Return the radius at which the cutter of an arc goes down, before it is fed to the arc's own."""
    return float(arc.get("run_in", arc["radius"]))


def arc_leg(arc: Json) -> list[Point2]:
    """Return the way along which the cutter is fed to its radius before the table turns."""
    centre, angle = (float(arc["centre"][0]), float(arc["centre"][1])), float(arc["from_deg"])
    ends = [polar(centre, radius, angle) for radius in (run_in_of(arc), float(arc["radius"]))]
    return ends if math.dist(*ends) > 0 else ends[:1]


def arc_area(arc: Json, radius: float, how: Round) -> Area:
    """Return the area that a disc sweeps along an arc: a sector of a ring and a disc at each end."""
    centre = (float(arc["centre"][0]), float(arc["centre"][1]))
    low, high = sorted((float(arc["from_deg"]), float(arc["to_deg"])))
    outer, inner = arc["radius"] + radius, arc["radius"] - radius
    if high - low >= 360 - 1e-9:
        return annulus(centre, inner, outer, how)
    count = max(1, math.ceil(how.segments(outer) * (high - low) / 360))
    bend = 1 / math.cos(math.radians((high - low) / count / 2))
    angles = [low + (high - low) * k / count for k in range(count + 1)]
    out = [polar(centre, outer if how.inside else outer * bend, angle) for angle in angles]
    back = [polar(centre, inner * bend if how.inside else inner, angle) for angle in reversed(angles)]
    area = metal.polygon([*out, *(back if inner > 0 else [centre])])
    ends = [metal.moved(metal.disc(radius, how), polar(centre, arc["radius"], angle)) for angle in (low, high)]
    return metal.join_areas([area, *ends])


def annulus(centre: Point2, inner: float, outer: float, how: Round) -> Area:
    """Return a ring area; its hole is rounded the other way, so that the ring as a whole is in or outside."""
    if outer <= 0 or outer <= inner:
        return metal.disc(0.0, how)
    if how.true_area:  # few corners: take the polygon that has the circle's area, so that volumes come out
        wide = math.tau / how.fixed
        outer, inner = (radius * math.sqrt(wide / math.sin(wide)) for radius in (outer, inner))
        return metal.moved(metal.area_less(metal.disc(outer, how), metal.disc(inner, how)), centre)
    hole = metal.disc(inner, Round(not how.inside, how.sag_mm, how.fixed))
    return metal.moved(metal.area_less(metal.disc(outer, how), hole), centre)
