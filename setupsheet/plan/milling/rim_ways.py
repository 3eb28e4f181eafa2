"""Where a round cutter's centre runs along what must stand: straight walls, and the rest as points.

The second file that knows the polygon library (area.py is the first). A wall runs along X or Y and is cut in
one move; a slanted or round stretch is a row of points, each the end of one short cut along X or Y. All in mm,
setup X, Y.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from shapely.geometry import LineString, Point, box
from shapely.ops import unary_union

from setupsheet.plan.milling import area
from setupsheet.plan.milling.area import Region
from setupsheet.plan.milling.passes import Clearing, Pass
from setupsheet.plane import Point2

WALL_LEAST_MM = 0.3
"""Shorter straight stretches along an axis are cut by points like their neighbours."""

SHARP_RAD = 0.25
"""A way that turns by more than this (15 degrees) from one hair to the next has a corner there."""

TURN_RAD = math.pi / 4
"""A round stretch has a point at least at each eighth of a turn, however short it is."""

CORNER_SHARE = 0.01
"""Curves shorter than this part of the cutter's radius are where two walls meet in a corner of that very radius.

The polygon library draws such a corner not quite sharp.
"""

CLEAR_STARTS_MM = tuple(0.5 * i for i in range(1, 31))
"""How far before its end a short cut may start, tried in this order."""

Stop = Callable[[Point2, Point2], Point2]
"""From a start towards a far end: the place at which a cutter's centre has to stop."""

_ARC = 64
"""Corners of a quarter turn of a cutter's way round a corner: less than 0.001 mm off for a 12 mm cutter."""
_NEAR = 1e-3
_STRAIGHT_MM = 2e-4
_TURN_SHARE = 0.3
"""A stretch of way, as part of the cutter's radius, in which the cutter turns about one point of the wall."""


@dataclass(frozen=True, slots=True)
class Touch:
    """A place of the cutter's centre and the point of the wall that it touches from there."""

    centre: Point2
    wall: Point2


@dataclass(frozen=True, slots=True)
class Rim:
    """The way of a cutter's centre: ``walls`` with the metal on the left, ``curves`` as rows of close places."""

    walls: tuple[tuple[Point2, Point2], ...]
    curves: tuple[tuple[Touch, ...], ...]


def rim_of(target: Region, keep: Region, radius: float) -> Rim:
    """Return the way of the cutter's centre along every edge of ``keep`` that metal of ``target`` lies against."""
    forbidden = keep.buffer(radius, quad_segs=_ARC)
    room = target.buffer(_NEAR)
    walls: list[tuple[Point2, Point2]] = []
    curves: list[tuple[Touch, ...]] = []
    for polygon in area.polygons(forbidden):
        for ring in (polygon.exterior, *polygon.interiors):
            run: list[Point2] = []
            for a, b in _from_a_wall([(float(x), float(y)) for x, y in ring.simplify(1e-6).coords]):
                if not _is_wall(a, b):
                    run = run or [a]
                    run.append(b)
                    continue
                curves += _curves(run, keep, room, radius)
                run = []
                walls += _wall(a, b, radius, room)
            curves += _curves(run, keep, room, radius)
    return Rim(tuple(walls), tuple(curves))


def _from_a_wall(corners: list[Point2]) -> list[tuple[Point2, Point2]]:
    """Return the edges of a ring, beginning with a wall where there is one, so that no curve is cut in two."""
    edges = list(pairwise(corners))
    first = next((i for i, (a, b) in enumerate(edges) if _is_wall(a, b)), 0)
    return edges[first:] + edges[:first]


def _is_wall(a: Point2, b: Point2) -> bool:
    return min(abs(a[0] - b[0]), abs(a[1] - b[1])) < _STRAIGHT_MM and math.dist(a, b) > WALL_LEAST_MM


def _wall(a: Point2, b: Point2, radius: float, room: Region) -> list[tuple[Point2, Point2]]:
    """Return the part of a wall's way beside which metal lies (the wall is on the left of a-b)."""
    length = math.dist(a, b)
    left = (-(b[1] - a[1]) / length * radius, (b[0] - a[0]) / length * radius)
    face = LineString([(p[0] + left[0], p[1] + left[1]) for p in (a, b)])
    shares = [face.project(Point(p)) for line in area.lines(face.intersection(room)) for p in line.coords]
    if not shares or max(shares) - min(shares) < 10 * _NEAR:
        return []
    start, end = max(0.0, min(shares) - _NEAR), min(length, max(shares) + _NEAR)
    return [_straight(_at(a, b, start / length), _at(a, b, end / length))]


def _straight(a: Point2, b: Point2) -> tuple[Point2, Point2]:
    """Return a wall exactly along its axis, free of the polygon library's noise (sizes are whole tenths of a um)."""
    across = int(abs(a[0] - b[0]) > abs(a[1] - b[1]))
    value = round((a[across] + b[across]) / 2, 4)
    return ((a[0], value), (b[0], value)) if across else ((value, a[1]), (value, b[1]))


def _at(a: Point2, b: Point2, share: float) -> Point2:
    return a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share


def _curves(run: list[Point2], keep: Region, room: Region, radius: float) -> list[tuple[Touch, ...]]:
    """Return the stretches of a run that touch metal; where the cutter only turns about a corner there is none."""
    if len(run) < 2 or sum(math.dist(a, b) for a, b in pairwise(run)) < CORNER_SHARE * radius:
        return []
    fine = LineString(run).segmentize(min(0.06, max(LineString(run).length / 8, 0.005)))
    edge = keep.boundary
    touches = [_touch((float(x), float(y)), edge) for x, y in fine.coords]
    used = [room.distance(Point(t.wall)) < _NEAR for t in touches]
    turning = _turning(touches)
    found: list[tuple[Touch, ...]] = []
    here: list[Touch] = []
    for touch, is_used, turns in zip(touches, used, turning, strict=True):
        if is_used and not turns:
            here.append(touch)
            continue
        found += _split(here)
        here = []
    return found + _split(here)


def _split(way: list[Touch]) -> list[tuple[Touch, ...]]:
    """Cut a way in two where it turns sharply: such a corner has to be a point of the table itself."""
    cuts = [0]
    for i in range(1, len(way) - 1):
        a, b, c = (way[k].centre for k in (i - 1, i, i + 1))
        turn = math.atan2(c[1] - b[1], c[0] - b[0]) - math.atan2(b[1] - a[1], b[0] - a[0])
        if min(math.dist(a, b), math.dist(b, c)) > 1e-3 and abs(math.remainder(turn, math.tau)) > SHARP_RAD:
            cuts.append(i)
    ends = [*cuts, len(way) - 1]
    return [tuple(way[a : b + 1]) for a, b in pairwise(ends) if b > a]


def _touch(centre: Point2, edge: Region) -> Touch:
    at = edge.interpolate(edge.project(Point(centre)))
    return Touch(centre, (float(at.x), float(at.y)))


def _turning(touches: Sequence[Touch]) -> list[bool]:
    """Mark the places between the ends of each stretch that touches one and the same corner of the wall."""
    marks = [False] * len(touches)
    start = 0
    for i in range(1, len(touches) + 1):
        if i < len(touches) and math.dist(touches[i].wall, touches[start].wall) < 10 * _NEAR:
            continue
        way = sum(math.dist(a.centre, b.centre) for a, b in pairwise(touches[start:i]))
        if way > _TURN_SHARE * math.dist(touches[start].centre, touches[start].wall):
            for k in range(start + 1, i - 1):
                marks[k] = True
        start = i
    return marks


def sampled(curve: Sequence[Touch], spacing: float) -> list[Touch]:
    """Return places along a curve, both ends and evenly between, never more than ``spacing`` apart.

    A wall that turns has more of them, see ``TURN_RAD``.
    """
    ways = [0.0]
    for a, b in pairwise(curve):
        ways.append(ways[-1] + math.dist(a.centre, b.centre))
    turns = [math.atan2(t.wall[1] - t.centre[1], t.wall[0] - t.centre[0]) for t in curve]
    turned = abs(sum(math.remainder(b - a, math.tau) for a, b in pairwise(turns)))
    count = max(1, math.ceil(ways[-1] / spacing - 1e-9), math.ceil(turned / TURN_RAD - 1e-6))
    return [_nearest(ways, curve, ways[-1] * i / count) for i in range(count + 1)]


def _nearest(ways: Sequence[float], curve: Sequence[Touch], wanted: float) -> Touch:
    """Return the place whose way along the curve is nearest to the one wanted."""
    return min(zip(ways, curve, strict=True), key=lambda pair: abs(pair[0] - wanted))[1]


def stop_beside(keep: Region, radius: float) -> Stop:
    """Return a function: from a start, along a unit step, how far a cutter's centre may go until it touches.

    It is given the start and the farthest end, both on one line along X or Y, and returns the end.
    """
    edge = keep.buffer(radius, quad_segs=_ARC).boundary

    def stop(start: Point2, far: Point2) -> Point2:
        met = LineString([start, far]).intersection(edge)
        places = [(float(x), float(y)) for g in getattr(met, "geoms", [met]) for x, y in g.coords]
        return min(places, key=lambda p: math.dist(p, start)) if places else far

    return stop


def swept(paths: Sequence[Sequence[Point2]], radius: float) -> Region:
    """Return what a round cutter clears on its ways; a way of one place is a plunge."""
    ways = [Point(path[0]) if len(path) == 1 else LineString(path) for path in paths]
    return unary_union([way.buffer(radius, quad_segs=48) for way in ways])


def clear_start(left: Region, keep: Region, radius: float, end: Point2, back: Point2) -> float | None:
    """Return how far back from ``end`` (along the unit step ``back``) a cutter stands clear of metal; None: nowhere."""
    for way in CLEAR_STARTS_MM:
        disc = Point((end[0] + back[0] * way, end[1] + back[1] * way)).buffer(radius - 2e-3, quad_segs=24)
        if disc.intersection(left).area < 1e-4 and disc.intersection(keep).area < 1e-4:
            return way
    return None


def depth_of(left: Region, cleared: Region) -> float:
    """Return how far metal that is left reaches from what was cleared; 0 for none, inf where nothing was."""
    if left.is_empty:
        return 0.0
    if cleared.is_empty:
        return math.inf
    fine = left.segmentize(0.05)
    points = [xy for polygon in area.polygons(fine) for xy in polygon.exterior.coords]
    return max((float(cleared.distance(Point(xy))) for xy in points), default=0.0)


def reachable(target: Region, keep: Region, radius: float) -> Region:
    """Return what a round cutter that keeps clear of ``keep`` can clear at all."""
    free = box(*target.buffer(4 * radius).bounds).difference(keep.buffer(radius - 1e-6, quad_segs=_ARC))
    return free.buffer(radius, quad_segs=_ARC)


def joined(clearing: Clearing, passes: Sequence[Pass]) -> tuple[Pass, ...]:
    """Return passes that would plunge one by one as few long ways: from one row to the next without lifting."""
    kept = clearing.keep.buffer(clearing.radius + clearing.allowance - 1e-3, quad_segs=16)
    ways: list[list[Point2]] = []
    outside: list[Pass] = []
    for passed in passes:
        if passed.outside:
            outside.append(passed)
            continue
        link = _link(ways[-1], passed.path, kept) if ways else None
        if link is None:
            ways.append(list(passed.path))
        else:
            ways[-1] += link
    return (*outside, *(Pass(tuple(way), False) for way in ways))


def _link(way: list[Point2], row: tuple[Point2, ...], kept: Region) -> list[Point2] | None:
    """Return how a way goes on into the next row by legs along X and Y, None where metal stands between."""
    along = 0 if abs(row[0][1] - row[-1][1]) < 1e-9 else 1
    last, ends = way[-1], sorted((row[0], row[-1]), key=lambda p: math.dist(p, way[-1]))
    before = sorted((way[-2][along], last[along])) if len(way) > 1 else [last[along]] * 2
    low, high = max(before[0], min(p[along] for p in row)), min(before[1], max(p[along] for p in row))
    if low > high:
        return None
    cross = min(max(last[along], low), high)
    corner = [(cross, level) if along == 0 else (level, cross) for level in (last[1 - along], row[0][1 - along])]
    if LineString(corner).intersects(kept):
        return None
    legs = [last, *corner, *ends]
    return [b for a, b in pairwise(legs) if math.dist(a, b) > 1e-9]
