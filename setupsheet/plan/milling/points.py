"""Slanted and round edges by a table of points: set one axis, feed along the other up to a stop.

Two handwheels cannot be turned as one, so a slant or a corner becomes a row of short cuts, each along X or
Y, that leaves ridges (cusps) for a file. How high the ridges are follows from cutter and spacing alone.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from setupsheet.plan.bench import Bench
from setupsheet.plan.milling.milling import LIFT_MM
from setupsheet.plan.record import Move, StopPair
from setupsheet.plane import Point2, polar

RIDGE_MM = 0.1
"""Height of ridge that a file takes off in a minute. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class PointCut:
    """One cut of a table: the cutter's centre ends at ``stop``, fed along ``feed`` (0 X, 1 Y) from ``start``.

    ``exact``: where it would end if nothing had to be rounded; None until it is.
    """

    stop: Point2
    feed: int
    start: float
    group: str
    exact: Point2 | None = None


def line_spacing(radius: float, ridge: float) -> float:
    """Return how far apart points along a straight edge may be for a ridge height."""
    return 2 * math.sqrt(radius**2 - (radius - ridge) ** 2)


def line_ridge(radius: float, spacing: float) -> float:
    """Return the height of the ridges between points on a straight edge."""
    return radius - math.sqrt(radius**2 - (spacing / 2) ** 2)


def round_ridge(edge_radius: float, radius: float, step_deg: float) -> float:
    """Return the height of the ridges that points on a round outside edge leave; inf where cuts do not meet."""
    half = math.radians(step_deg / 2)
    path = edge_radius + radius
    if path * math.sin(half) > radius:
        return math.inf
    return path * math.cos(half) - math.sqrt(radius**2 - (path * math.sin(half)) ** 2) - edge_radius


def steps_for(edge_radius: float, radius: float, sweep_deg: float, ridge: float) -> int:
    """Return into how many steps a sweep must be divided to keep the ridges under a height."""
    count = max(1, math.ceil(sweep_deg / 30))
    while round_ridge(edge_radius, radius, sweep_deg / count) > ridge:
        count += 1
    return count


def along_line(a: Point2, b: Point2, outward: Point2, radius: float) -> list[Point2]:
    """Return the cutter centres that make the straight edge a-b; ``outward`` is square to it."""
    length = math.dist(a, b)
    count = max(1, math.ceil(length / line_spacing(radius, RIDGE_MM) - 1e-9))
    ends = [(p[0] + outward[0] * radius, p[1] + outward[1] * radius) for p in (a, b)]
    return [_between(ends[0], ends[1], i / count) for i in range(count + 1)]


def round_corner(centre: Point2, edge_radius: float, from_deg: float, sweep_deg: float, radius: float) -> list[Point2]:
    """Return the cutter centres that make a round outside edge, both ends included."""
    count = steps_for(edge_radius, radius, sweep_deg, RIDGE_MM)
    return [polar(centre, edge_radius + radius, from_deg + sweep_deg * i / count) for i in range(count + 1)]


def settle(bench: Bench, cut: PointCut, true_stop: Callable[[float], float]) -> PointCut:
    """Round a cut to what the machine shows: the step to nearest, the stop away from the part.

    ``true_stop`` tells where the cut has to stop for any place of the step axis.
    """
    names = ("x", "y")
    step = bench.settle(names[1 - cut.feed], cut.stop[1 - cut.feed])
    exact = true_stop(step)
    stop = bench.scales[names[cut.feed]].settle_away(exact, exact + (exact - cut.start))
    at = (stop, step) if cut.feed == 0 else (step, stop)
    across = cut.stop[1 - cut.feed]
    true = (exact, across) if cut.feed == 0 else (across, exact)
    return PointCut(at, cut.feed, bench.settle(names[cut.feed], cut.start), cut.group, true)


def plunged(bench: Bench, places: list[Point2]) -> list[PointCut]:
    """Return the cuts that go straight down at each place."""
    settled = [(bench.settle("x", x), bench.settle("y", y)) for x, y in places]
    return [PointCut(at, 1, at[1], "plunge at X, Y", true) for at, true in zip(settled, places, strict=True)]


def on_circle(centre: Point2, path: float, feed: int, side: float) -> Callable[[float], float]:
    """Return where a cut stops on a circle of cutter centres; ``side`` is the sign of the feed axis there."""

    def stop(step: float) -> float:
        across = step - centre[1 - feed]
        return centre[feed] + side * math.sqrt(max(0.0, path**2 - across**2))

    return stop


def right_to(end: float) -> Callable[[float], float]:
    """Return a stop that does not ask where the step is: a cut beside a circle goes on to where it touches it.

    On the circle of centres it would end before, if the step was rounded towards it, and leave a speck.
    """
    return lambda _: end


def as_moves(cuts: list[PointCut], heights: list[float], clear: float) -> tuple[Move, ...]:
    """Return the cuts as moves, all points at one height before the next."""
    moves = []
    for z in heights:
        for cut in cuts:
            path = way_of(cut)
            true = way_of(replace(cut, stop=cut.exact or cut.stop)) if len(path) > 1 else (cut.exact or cut.stop,)
            entry = "plunge" if len(path) == 1 else "outside"
            moves.append(Move(entry, z, clear + LIFT_MM, path, "table", "point", true))
    return tuple(moves)


def way_of(cut: PointCut) -> tuple[Point2, ...]:
    """Return the way of the cutter's centre in a cut: from its start to its stop, or the one place of a plunge."""
    start = (cut.start, cut.stop[1]) if cut.feed == 0 else (cut.stop[0], cut.start)
    return (cut.stop,) if math.dist(start, cut.stop) < 1e-9 else (start, cut.stop)


def as_pairs(bench: Bench, cuts: list[PointCut]) -> tuple[StopPair, ...]:
    """Return the cuts as the rows of the printed table."""
    pairs = []
    for cut in cuts:
        step_axis = "xy"[1 - cut.feed]
        step, stop = cut.stop[1 - cut.feed], cut.stop[cut.feed]
        shown = bench.shown(step_axis, step), bench.shown("xy"[cut.feed], stop)
        pairs.append(StopPair(step_axis, step, stop, *shown, cut.group))
    return tuple(pairs)


def _between(a: Point2, b: Point2, share: float) -> Point2:
    return a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share
