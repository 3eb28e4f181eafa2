"""Areas whose edges are not all straight along X or Y: rough in rows, walls in one move, the rest by points.

Round and slanted pockets, windows, odd slots, and outlines that a level leaves standing. The cutter is cleared
through the middle first; then it runs along every wall that lies along an axis; every other stretch is a table of
short cuts along X or Y, each up to its stop, that leaves ridges for a file. How high they are is measured on the
very cuts that are printed.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from setupsheet.part.shop import Cutter
from setupsheet.plan.bench import Bench
from setupsheet.plan.cutting import milling
from setupsheet.plan.draft import step, tool_plan
from setupsheet.plan.milling import area, leads, passes, points, rim_ways
from setupsheet.plan.milling.area import Region
from setupsheet.plan.milling.entries import Entry, by_hole, entry_for
from setupsheet.plan.milling.milling import (
    LIFT_MM,
    WALL_MM,
    AreaWork,
    feed_fields,
    heights_down,
    limits_of,
    pass_heights,
    settled,
    where_to,
)
from setupsheet.plan.milling.mills import corner_left
from setupsheet.plan.milling.passes import Clearing, Pass
from setupsheet.plan.milling.rim_ways import Rim, Touch
from setupsheet.plan.record import Leftover, Move, Step
from setupsheet.plane import Point2

_LEAD_MM = 1.0
_FAR_OFF_MM = 0.25
"""A stop found again for a rounded step lies no farther from the first than this, else it belongs to another wall."""
_ROUNDING = 0.75
"""Ridges grow by at most this part of a readout's step, because stops are rounded away from what stands."""
_SQUARELY = 0.3
"""A cut runs squarely enough at a wall if this part of its way does. Common practice, no source."""
_FEED_WORDS = {
    (0, 1): "step Y, feed right to X",
    (0, -1): "step Y, feed left to X",
    (1, 1): "step X, feed away to Y",
    (1, -1): "step X, feed towards you to Y",
}


@dataclass(frozen=True, slots=True)
class Shaped:
    """An area to mill (milling.AreaWork) and how fine: ridges under ``ridge_mm``, ``stock_mm`` left on every edge."""

    work: AreaWork
    ridge_mm: float = points.RIDGE_MM
    stock_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class _Ways:
    """Everything that the cutter does, before rounding: rows, walls, cuts by points, and what still stands then."""

    rows: tuple[Pass, ...]
    walls: tuple[tuple[Point2, Point2], ...]
    cuts: tuple[points.PointCut, ...]
    left: Region
    ridge: float


def shaped_steps(bench: Bench, shaped: Shaped, cutter: Cutter) -> list[Step]:
    """Return the steps that clear an area: one for rows and straight walls, one for the table of points."""
    work, radius = _with_stock(shaped), cutter.diameter_mm / 2
    ways = _ways(bench, work, cutter, shaped.ridge_mm)
    steps = []
    if ways.rows or ways.walls:
        steps += _main_steps(bench, work, cutter, ways)
    if ways.cuts:
        steps.append(_point_step(bench, work, cutter, ways, first=not steps))
    corner = corner_left(work.target, work.keep, cutter)
    if steps and corner > 1e-2:
        said = f"inside corners keep the cutter's radius, {bench.scales['x'].plain(radius).lstrip('+')}"
        left = Leftover("inside_corner", work.features, corner + 2e-3, said)
        steps[-1] = replace(steps[-1], leftover=(*steps[-1].leftover, left))
    return steps


def _with_stock(shaped: Shaped) -> AreaWork:
    """Return the work with metal left on the edges for another tool, where that is wanted."""
    if not shaped.stock_mm:
        return shaped.work
    return replace(shaped.work, keep=area.rounded_out(shaped.work.keep, shaped.stock_mm))


def _ways(bench: Bench, work: AreaWork, cutter: Cutter, ridge: float) -> _Ways:
    radius = cutter.diameter_mm / 2
    cut = milling(bench, cutter, full_width=True)
    target = area.without(work.target, work.keep)
    clearing = Clearing(target, work.keep, radius, cut.width_mm, WALL_MM)
    rows = rim_ways.joined(clearing, leads.led_in(clearing, passes.rough_passes(clearing)))
    after_rows = area.without(target, rim_ways.swept([p.path for p in rows], radius)) if rows else target
    spacing = points.line_spacing(radius, ridge)
    rim = rim_ways.rim_of(target, work.keep, radius)
    after = area.without(after_rows, rim_ways.swept(rim.walls, radius)) if rim.walls else after_rows
    ways = _Ways(rows, rim.walls, (), after, 0.0)
    if ways.walls and _ridge(work, after, radius) <= bench.scales["x"].explained_mm:
        return ways
    for _ in range(12):
        ways = _with_points(bench, work, rim, ways, (radius, spacing, after))
        if not rim.curves or ways.ridge <= ridge * 1.02:
            break
        spacing *= min(0.97, max(0.5, math.sqrt(ridge / ways.ridge) * 0.99))
    return ways


def _with_points(bench: Bench, work: AreaWork, rim: Rim, ways: _Ways, how: tuple[float, float, Region]) -> _Ways:
    """Return the ways with points ``spacing`` apart (radius, spacing, what stands before them)."""
    radius, spacing, before = how
    stop = rim_ways.stop_beside(work.keep, radius)
    cuts: list[points.PointCut] = []
    for curve in rim.curves:
        feed = None
        for touch in rim_ways.sampled(curve, spacing):
            cut, feed = _cut(touch, feed, (before, work.keep, radius))
            cuts.append(cut)
    paths = [((c.start, c.stop[1]) if c.feed == 0 else (c.stop[0], c.start), c.stop) for c in cuts]
    left = area.without(before, rim_ways.swept(paths, radius)) if paths else before
    ridge = _ridge(work, left, radius)
    settled_cuts = _once([_settle(bench, cut, stop, radius) for cut in cuts])
    return replace(ways, cuts=settled_cuts, left=left, ridge=ridge)


def _once(cuts: list[points.PointCut]) -> tuple[points.PointCut, ...]:
    """Return cuts without those that were there already: a closed outline ends where it begins."""
    found: dict[tuple[Point2, int, float], points.PointCut] = {}
    for cut in cuts:
        found.setdefault((cut.stop, cut.feed, cut.start), cut)
    return tuple(found.values())


def _ridge(work: AreaWork, left: Region, radius: float) -> float:
    """Return how far metal that is left, and that the cutter could reach, stands over what was cleared."""
    reach = rim_ways.reachable(work.target, work.keep, radius)
    ridges = area.common(left, reach)
    return 0.0 if area.is_empty(ridges) else rim_ways.depth_of(ridges, area.without(reach, area.grown(left, 1e-4)))


def _cut(touch: Touch, feed: int | None, metal: tuple[Region, Region, float]) -> tuple[points.PointCut, int]:
    """Return the short cut that ends at a place, fed along the axis that runs more squarely at the wall."""
    left, keep, radius = metal
    towards = (touch.wall[0] - touch.centre[0], touch.wall[1] - touch.centre[1])
    even = abs(abs(towards[0]) - abs(towards[1])) < 0.02 * radius
    first = feed if even and feed is not None else int(abs(towards[1]) >= abs(towards[0]) - 1e-6)
    for axis in (first, 1 - first):
        if abs(towards[axis]) < _SQUARELY * radius:
            continue
        sign = 1 if towards[axis] > 0 else -1
        back = (-float(sign), 0.0) if axis == 0 else (0.0, -float(sign))
        way = rim_ways.clear_start(left, keep, radius, touch.centre, back)
        if way is not None:
            words = _FEED_WORDS[(axis, sign)]
            return points.PointCut(touch.centre, axis, touch.centre[axis] - sign * way, words), axis
    return points.PointCut(touch.centre, first, touch.centre[first], "plunge at X, Y"), first


def _settle(bench: Bench, cut: points.PointCut, stop: rim_ways.Stop, radius: float) -> points.PointCut:
    """Round a cut to what the machine shows; the stop is found again for the rounded step, and never past it."""
    way = cut.stop[cut.feed] - cut.start
    if abs(way) < 1e-9:
        at = bench.settle("x", cut.stop[0]), bench.settle("y", cut.stop[1])
        return points.PointCut(at, cut.feed, at[cut.feed], cut.group, cut.stop)
    sign = 1.0 if way > 0 else -1.0

    def true_stop(across: float) -> float:
        ends = [cut.start, cut.stop[cut.feed] + sign * radius]
        line = [(end, across) if cut.feed == 0 else (across, end) for end in ends]
        found = stop(line[0], line[1])[cut.feed]
        return found if abs(found - cut.stop[cut.feed]) < _FAR_OFF_MM else cut.stop[cut.feed]

    return points.settle(bench, cut, true_stop)


def _main_steps(bench: Bench, work: AreaWork, cutter: Cutter, ways: _Ways) -> list[Step]:
    """Return the step of rows and walls, after the one that drills its way in where there has to be one."""
    cut = milling(bench, cutter, full_width=work.floor_counts)
    heights = [bench.settle("z", z) for z in pass_heights(work, cut.depth_mm)]
    rows = [settled(bench, p, along_wall=False) for p in by_hole(work, cutter, ways.rows)]
    walls = [
        settled(bench, Pass(wall, False), along_wall=True) for wall in _chained(ways.walls, cutter.diameter_mm / 2)
    ]
    clear = bench.settle("z", work.z_top) + LIFT_MM
    entry = entry_for(bench, work, cutter, rows)
    moves = [_row_move(p, z, clear, entry) for z in heights for p in rows]
    moves += [_wall_move(bench, p, ways, work, (heights[-1], clear, cutter.diameter_mm / 2)) for p in walls]
    made = step(
        work.operation,
        work.title,
        work.features,
        method="table",
        removes=True,
        tool=tool_plan(cutter),
        direction="conventional",
        moves=tuple(moves),
        limits=limits_of(bench, walls),
        z_shown=tuple(bench.shown("z", z) for z in heights),
        where=where_to(bench, rows, walls),
        words=(*work.words, *entry.words, *leads.led_words(bench, rows)),
        **feed_fields(cut),
    )
    return [made] if entry.drilling is None else [entry.drilling, made]


def _row_move(passed: Pass, z: float, clear: float, entry: Entry) -> Move:
    return Move("outside" if passed.outside else entry.kind, z, clear, passed.path, "table", "rough", passed.exact)


def _wall_move(bench: Bench, wall: Pass, ways: _Ways, work: AreaWork, how: tuple[float, float, float]) -> Move:
    """Return the last pass along a wall, led in and out square to it where there is room."""
    z, clear, radius = how
    ends = [_led(bench, wall.path[0], wall.path[1], 0), _led(bench, wall.path[-2], wall.path[-1], 1)]
    stands = area.union([ways.left, work.keep])
    free = [area.distance(stands, end) >= radius - 2e-3 for end in ends]
    path, exact = (
        ((ends[0],) if free[0] else ()) + way + ((ends[1],) if free[1] else ()) for way in (wall.path, wall.exact)
    )
    is_clear = area.distance(_before_walls(ways, work, radius), path[0]) >= radius - 2e-3
    return Move("outside" if is_clear else "plunge", z, clear, path, "table", "last", exact)


def _led(bench: Bench, a: Point2, b: Point2, end: int) -> Point2:
    """Return a place square beside the start (0) or the end (1) of a leg, on the side away from the wall."""
    length = math.dist(a, b)
    x, y = (a, b)[end]
    return (
        bench.settle("x", x + (b[1] - a[1]) / length * _LEAD_MM),
        bench.settle("y", y - (b[0] - a[0]) / length * _LEAD_MM),
    )


def _chained(walls: Sequence[tuple[Point2, Point2]], radius: float) -> list[tuple[Point2, ...]]:
    """Return walls that follow each other round a corner as one way through it; a closed one begins amid a wall."""
    ways: list[tuple[Point2, ...]] = []
    near = rim_ways.CORNER_SHARE * radius
    for a, b in walls:
        corner = _corner((ways[-1][-2], ways[-1][-1]), (a, b), near) if ways else None
        if corner is None:
            ways.append((a, b))
        else:
            ways[-1] = (*ways[-1][:-1], corner, b)
    if len(ways) > 1 or (ways and len(ways[0]) > 3):
        corner = _corner((ways[-1][-2], ways[-1][-1]), (ways[0][0], ways[0][1]), near)
        if corner is not None and len(ways) > 1:
            ways[0] = (*ways.pop()[:-1], corner, *ways[0][1:])
        elif corner is not None:
            (ax, ay), (bx, by) = corner, ways[0][1]
            middle = ((ax + bx) / 2, (ay + by) / 2)
            ways[0] = (middle, *ways[0][1:-1], corner, middle)
    return ways


def _corner(leg: tuple[Point2, Point2], following: tuple[Point2, Point2], near: float) -> Point2 | None:
    """Return where a leg turns into the one that follows, None where they do not meet square to each other."""
    (a, b), (c, d) = leg, following
    across = abs(a[0] - b[0]) < abs(a[1] - b[1])
    if math.dist(b, c) > near or across == (abs(c[0] - d[0]) < abs(c[1] - d[1])):
        return None
    return (a[0], c[1]) if across else (c[0], a[1])


def _before_walls(ways: _Ways, work: AreaWork, radius: float) -> Region:
    return area.without(work.target, rim_ways.swept([p.path for p in ways.rows], radius)) if ways.rows else work.target


def _point_step(bench: Bench, work: AreaWork, cutter: Cutter, ways: _Ways, *, first: bool) -> Step:
    cut = milling(bench, cutter, full_width=False)
    heights = [bench.settle("z", z) for z in heights_down(work.z_top, work.z_floor, cut.depth_mm, 0.0)]
    cuts = list(ways.cuts)
    bound = ways.ridge + _ROUNDING * bench.scales["x"].step_mm
    shown = bench.scales["x"].plain(math.ceil(bound * 100 - 1e-6) / 100).lstrip("+")
    title = work.title if first else f"outline of {work.features[0]}"
    leftover = Leftover("cusp", work.features, bound, f"ridges up to {shown}, for the file")
    return step(
        work.operation,
        title,
        work.features,
        method="table",
        removes=True,
        tool=tool_plan(cutter),
        direction="conventional",
        moves=points.as_moves(cuts, heights, work.z_top),
        points=points.as_pairs(bench, _by_feed(cuts)),
        z_shown=tuple(bench.shown("z", z) for z in heights),
        where="table of points, from clear ground to the stop",
        leftover=(leftover,) if ways.ridge > 1e-3 else (),
        **feed_fields(cut),
    )


def _by_feed(cuts: list[points.PointCut]) -> list[points.PointCut]:
    """Return the cuts as they are printed: one column of the table for each way of feeding."""
    groups = list(dict.fromkeys(cut.group for cut in cuts))
    return sorted(cuts, key=lambda cut: groups.index(cut.group))
