"""Passes that clear an area: rows, and the last way along each wall.

With area.py and rim_ways.py the only file that knows the polygon library. Passes run along X or Y only, because two
handwheels cannot be turned as one. All coordinates are setup X, Y in mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Any

from shapely import affinity
from shapely.geometry import LineString, MultiLineString, Point, Polygon
from shapely.ops import unary_union

from setupsheet.plan.milling import area
from setupsheet.plan.milling.area import Region
from setupsheet.plane import Point2

RUN_OUT_MM = 1.0
"""How far the cutter's edge leaves the metal at the end of a pass. Common practice, no source."""

_EDGE = 1e-6
_AREA = 1e-4
_SKIN = 0.02
"""mm: what lies so near to the skin of a wall that roughing leaves is taken for skin."""
_MISSED = 0.05
"""mm2: a smaller area that no row comes to is the point between a wall and the round of the cutter."""


@dataclass(frozen=True, slots=True)
class Clearing:
    """An area to clear: ``target`` is metal that must go, ``keep`` what must stand (square edges only).

    ``radius`` is the cutter's, ``step_over`` the width of a pass, ``allowance`` what roughing leaves on walls.
    """

    target: Region
    keep: Region
    radius: float
    step_over: float
    allowance: float


@dataclass(frozen=True, slots=True)
class Pass:
    """The way of a cutter's centre in one engagement and whether it starts clear of the metal."""

    path: tuple[Point2, ...]
    outside: bool
    exact: tuple[Point2, ...] = ()
    """The way before it was rounded to the readout; () where it has not been yet."""


def rough_passes(clearing: Clearing) -> tuple[Pass, ...]:
    """Return parallel passes that clear the target up to the allowance on the walls.

    They run along the longer side of the target, each from the end that lies outside the metal.
    """
    x0, y0, x1, y1 = clearing.target.bounds
    if x1 - x0 >= y1 - y0:
        return _along_x(clearing)
    flipped = Clearing(_flip(clearing.target), _flip(clearing.keep), *_rest(clearing))
    return tuple(Pass(tuple((y, x) for x, y in p.path), p.outside) for p in _along_x(flipped))


def uncleared(clearing: Clearing, rough: Iterable[Pass]) -> Region:
    """Return what roughing leaves of a target: the skin on the walls, and where no row could go."""
    ways = MultiLineString([p.path for p in rough])
    return clearing.target.difference(ways.buffer(clearing.radius, quad_segs=32))


def wall_passes(clearing: Clearing, rough: Iterable[Pass]) -> tuple[Pass, ...]:
    """Return the last passes along the walls, the standing metal on the left of the feed (conventional).

    ``rough``: the passes that came before, which decide where a cutter may be let down beside a wall.
    """
    reach = clearing.target.buffer(clearing.radius + RUN_OUT_MM, join_style="mitre")
    after_roughing = Clearing(uncleared(clearing, rough), clearing.keep, *_rest(clearing))
    passes = []
    for polygon in area.polygons(area.grown(clearing.keep, clearing.radius)):
        for ring in (polygon.exterior, *polygon.interiors):
            passes += [_as_pass(path, after_roughing) for path in _legs(ring, clearing, reach)]
    return tuple(passes)


def _legs(ring: Any, clearing: Clearing, reach: Region) -> list[list[Point2]]:
    """Return the runs of a ring's edges that touch the target, joined where they follow each other."""
    runs: list[list[Point2]] = []
    corners = list(ring.simplify(_EDGE).coords)
    for a, b in pairwise(corners):
        piece = LineString([a, b]).intersection(reach)
        for line in area.lines(piece):
            start, end = area.directed(line, a, b)
            if line.length < _EDGE or not _has_skin(start, end, clearing):
                continue
            if runs and math.dist(runs[-1][-1], start) < _EDGE:
                runs[-1].append(end)
            else:
                runs.append([start, end])
    if len(runs) > 1 and math.dist(runs[-1][-1], runs[0][0]) < _EDGE:
        runs[0] = runs.pop()[:-1] + runs[0]
    return runs


def _has_skin(start: Point2, end: Point2, clearing: Clearing) -> bool:
    """Tell whether metal that must go lies against the wall that this run makes (on the left of it).

    A run goes on past a wall's end by the cutter's radius; metal beside that end is not its own.
    """
    length = math.dist(start, end)
    left = (-(end[1] - start[1]) / length, (end[0] - start[0]) / length)
    line = [(x + left[0] * clearing.radius, y + left[1] * clearing.radius) for x, y in (start, end)]
    wall = LineString(line).intersection(clearing.keep.buffer(10 * _EDGE, join_style="mitre"))
    skin = wall.buffer(clearing.allowance / 2, cap_style="flat")
    return bool(skin.intersection(clearing.target).area > _AREA)


def _along_x(clearing: Clearing) -> tuple[Pass, ...]:
    kept = area.grown(clearing.keep, clearing.radius + clearing.allowance)
    near = clearing.target.buffer(clearing.radius, join_style="mitre").difference(kept)
    found = _rows(clearing, kept, _heights(near, clearing))
    left = uncleared(clearing, found).difference(area.grown(clearing.keep, clearing.allowance + _SKIN))
    missed = [piece for piece in area.polygons(left) if piece.area > _MISSED]
    if not missed:
        return found
    return (*found, *_rows(replace(clearing, target=unary_union(missed)), kept, _beside(near, missed, clearing)))


def _rows(clearing: Clearing, kept: Region, heights: Iterable[float]) -> tuple[Pass, ...]:
    """Return the rows at heights, as long as metal lies there and the cutter's centre keeps out of ``kept``."""
    reach = clearing.target.buffer(clearing.radius + RUN_OUT_MM, join_style="mitre").difference(kept)
    reach = reach.buffer(_EDGE / 10)
    passes = []
    for y in heights:
        line = LineString([(-area.FAR_MM, y), (area.FAR_MM, y)]).intersection(reach)
        for piece in area.lines(line):
            swept = piece.buffer(clearing.radius, quad_segs=16)
            if piece.length > _EDGE and swept.intersection(clearing.target).area > _AREA:
                passes.append(_as_pass([(min(piece.xy[0]), y), (max(piece.xy[0]), y)], clearing))
    return tuple(passes)


def _beside(near: Region, missed: Sequence[Polygon], clearing: Clearing) -> list[float]:
    """Return rows along walls for metal that evenly spaced rows pass by: between a wall and the edge of the part."""
    walls = _levels(near)
    reach = clearing.radius - _EDGE
    bounds = [(piece.bounds[1], piece.bounds[3]) for piece in missed]
    return [y for y in walls if any(low < y + reach and y - reach < high for low, high in bounds)]


def _heights(near: Region, clearing: Clearing) -> list[float]:
    """Return the Y of each pass: along every wall, and evenly between, never more than a step over apart."""
    if near.is_empty:
        return []
    walls = _levels(near)
    _, low, _, high = near.bounds
    target_low, target_high = clearing.target.bounds[1], clearing.target.bounds[3]
    open_low, open_high = low < target_low - _EDGE, high > target_high + _EDGE
    first = min(low + clearing.step_over, target_high) if open_low else low
    last = max(high - clearing.step_over, first) if open_high else high
    stops = sorted({y for y in walls if first + _EDGE < y < last - _EDGE} | {first, last})
    heights = [stops[0]]
    for a, b in pairwise(stops):
        count = max(1, math.ceil((b - a) / clearing.step_over - _EDGE))
        heights += [a + (b - a) * (i + 1) / count for i in range(count)]
    return heights


def _as_pass(path: list[Point2], clearing: Clearing) -> Pass:
    clear = clearing.radius - 1e-3
    if clearing.target.distance(Point(path[0])) >= clear:
        return Pass(tuple(path), True)
    if clearing.target.distance(Point(path[-1])) >= clear:
        return Pass(tuple(reversed(path)), True)
    return Pass(tuple(path), False)


def _levels(region: Region) -> list[float]:
    """Return the Y of every edge of a region that runs along X, each once and rising.

    They are not rounded: a row a hair inside what is kept would be cut in two there.
    """
    found: dict[float, float] = {}
    for polygon in area.polygons(region):
        for ring in (polygon.exterior, *polygon.interiors):
            for a, b in pairwise(ring.coords):
                if abs(a[1] - b[1]) < _EDGE:
                    found.setdefault(round(a[1], 6), a[1])
    return sorted(found.values())


def _flip(region: Region) -> Region:
    return affinity.affine_transform(region, (0, 1, 1, 0, 0, 0))


def _rest(clearing: Clearing) -> tuple[float, float, float]:
    return clearing.radius, clearing.step_over, clearing.allowance
