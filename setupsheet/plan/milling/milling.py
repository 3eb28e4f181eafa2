"""Milling: areas taken down in passes, with what stands left standing, as moves along X or Y.

One engine for faces, outlines, levels, pockets and straight edge cuts: an area of metal that must go, what
must stand, from which height to which. Roughing leaves an allowance on walls; the last pass along each
wall runs at full depth with the metal on the left of the feed, which is conventional milling.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from setupsheet.part.shop import Cutter
from setupsheet.plan.bench import Bench
from setupsheet.plan.cutting import Cut, milling
from setupsheet.plan.draft import step, tool_plan
from setupsheet.plan.milling import leads, passes
from setupsheet.plan.milling.area import Region
from setupsheet.plan.milling.passes import Clearing, Pass
from setupsheet.plan.record import Limit, Move, Step
from setupsheet.plane import Point2

WALL_MM = 0.2
"""What roughing leaves on a wall for the last pass. Common practice, no source."""

RUB = 1 / 3
"""A first pass thinner than this part of the depth rubs more than it cuts: all are made even. Common practice, no
source."""

FLOOR_MM = 0.1
"""What roughing leaves on a floor that takes more than one pass. Common practice, no source."""

LIFT_MM = 2.0
"""How far the cutter is lifted clear between passes. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class AreaWork:
    """An area to mill. ``target`` and ``keep`` are regions of the setup plane; heights are setup Z."""

    operation: str
    title: str
    features: tuple[str, ...]
    target: Region
    keep: Region
    z_top: float
    z_floor: float
    words: tuple[str, ...] = ()
    floor_counts: bool = True
    """False for a side cut, whose lower end is open: it needs no finishing pass on a floor."""
    holes: tuple[tuple[Point2, float], ...] = ()
    """Middle and radius of each hole that is open down to the floor before anything is milled."""


def mill_area(bench: Bench, work: AreaWork, cutter: Cutter) -> Step:
    """Return the step that mills an area with a cutter."""
    cut = milling(bench, cutter, full_width=work.floor_counts)
    heights = [bench.settle("z", z) for z in pass_heights(work, cut.depth_mm)]
    clearing = Clearing(work.target, work.keep, cutter.diameter_mm / 2, cut.width_mm, WALL_MM)
    rows = passes.rough_passes(clearing)
    led = leads.led_in(clearing, rows)
    rough = [settled(bench, p, along_wall=False) for p in led]
    walls = [settled(bench, p, along_wall=True) for p in passes.wall_passes(clearing, led)]
    clear = bench.settle("z", work.z_top) + LIFT_MM
    moves = [_move(p, z, clear, "rough") for z in heights for p in rough]
    moves += [_move(p, heights[-1], clear, "last") for p in walls]
    return step(
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
        where=where_to(bench, [settled(bench, p, along_wall=False) for p in rows], walls),
        words=(*work.words, *leads.led_words(bench, led), *_move_over(bench, rough, walls, cut)),
        **feed_fields(cut),
    )


def _move_over(bench: Bench, rough: list[Pass], walls: list[Pass], cut: Cut) -> tuple[str, ...]:
    """Say how an area between walls is cleared, where the stops alone do not tell."""
    if not walls or len(rough) <= len(stops_of(walls)):
        return ()
    width = bench.scales["x"].plain(cut.width_mm).lstrip("+")
    return (f"between the stops move over {width} at most each pass; run out clear where nothing stands",)


def feed_fields(cut: Cut) -> dict[str, object]:
    """Return the speed and feed of a cut as fields of a step."""
    return {
        "rpm": cut.rpm,
        "rpm_words": cut.rpm_words,
        "feed_mm_per_min": cut.feed_mm_per_min,
        "feed_s_per_turn": cut.feed_s_per_turn,
        "feed_shown": cut.feed_shown,
    }


def pass_heights(work: AreaWork, depth_mm: float) -> list[float]:
    """Return the height of each pass from the top down; the last one is the floor."""
    return heights_down(work.z_top, work.z_floor, depth_mm, FLOOR_MM if work.floor_counts else 0.0)


def heights_down(z_top: float, z_floor: float, depth_mm: float, finish_mm: float) -> list[float]:
    """Return passes no deeper than ``depth_mm`` down to a floor.

    With ``finish_mm`` the floor gets a last thin pass and the others count up from it in whole depths, so
    that the readings are round numbers, unless the first would only rub; without, all passes are equal.
    """
    total = z_top - z_floor
    if total <= depth_mm + 1e-9:
        return [z_floor]
    if finish_mm:
        steps = math.ceil((total - finish_mm) / depth_mm - 1e-9)
        if total - finish_mm - (steps - 1) * depth_mm < RUB * depth_mm:
            depth_mm = (total - finish_mm) / steps
        return [*(z_floor + finish_mm + depth_mm * i for i in reversed(range(steps))), z_floor]
    count = math.ceil(total / depth_mm - 1e-9)
    return [z_top - total * i / count for i in range(1, count + 1)]


def _move(passed: Pass, z: float, clear: float, why: str) -> Move:
    return Move("outside" if passed.outside else "plunge", z, clear, passed.path, "table", why, passed.exact)


def settled(bench: Bench, passed: Pass, *, along_wall: bool) -> Pass:
    """Round a path to what the machine shows; a wall pass on the side away from the metal that stands."""
    path = passed.path
    if not along_wall:
        return Pass(tuple((bench.settle("x", x), bench.settle("y", y)) for x, y in path), passed.outside, path)
    xs, ys = [bench.settle("x", x) for x, _ in path], [bench.settle("y", y) for _, y in path]
    for index, (a, b) in enumerate(pairwise(path)):
        if abs(a[0] - b[0]) < 1e-7:
            stands = a[0] + (1.0 if b[1] < a[1] else -1.0)
            xs[index] = xs[index + 1] = bench.scales["x"].settle_away(a[0], stands)
        else:
            stands = a[1] + (1.0 if b[0] > a[0] else -1.0)
            ys[index] = ys[index + 1] = bench.scales["y"].settle_away(a[1], stands)
    if len(path) > 2 and math.dist(path[0], path[-1]) < 1e-7:
        first_vertical = abs(path[0][0] - path[1][0]) < 1e-7
        xs[0 if not first_vertical else -1] = xs[-1 if not first_vertical else 0]
        ys[-1 if not first_vertical else 0] = ys[0 if not first_vertical else -1]
    return Pass(tuple(zip(xs, ys, strict=True)), passed.outside, path)


@dataclass(frozen=True, slots=True)
class Stop:
    """A line that the cutter's centre must not cross: ``axis`` at ``value``, metal on the ``side`` given."""

    axis: str
    value: float
    side: str


def stops_of(walls: list[Pass]) -> tuple[Stop, ...]:
    """Return the stops that wall passes run along, each once, in the order of the passes."""
    found: dict[Stop, None] = {}
    for passed in walls:
        for a, b in pairwise(passed.path):
            found[_stop(a, b)] = None
    return tuple(found)


def _stop(a: Point2, b: Point2) -> Stop:
    if abs(a[0] - b[0]) < 1e-7:
        return Stop("x", a[0], "right" if b[1] < a[1] else "left")
    return Stop("y", a[1], "away" if b[0] > a[0] else "near")


_SIDE_WORDS = {
    "right": "metal on your right",
    "left": "metal on your left",
    "away": "metal behind",
    "near": "metal in front",
}


def limits_of(bench: Bench, walls: list[Pass]) -> tuple[Limit, ...]:
    """Return where the cutter's centre has to stop, as printed: the stop, and the one for roughing."""
    return tuple(
        Limit(
            stop.axis,
            stop.value,
            stop.side,
            bench.shown(stop.axis, stop.value),
            _SIDE_WORDS[stop.side],
            bench.shown(stop.axis, _rough_stop(bench, stop)),
        )
        for stop in stops_of(walls)
    )


def _rough_stop(bench: Bench, stop: Stop) -> float:
    """Return the stop for roughing, which leaves the allowance on the wall."""
    away = {"right": -WALL_MM, "away": -WALL_MM, "left": WALL_MM, "near": WALL_MM}[stop.side]
    return bench.settle(stop.axis, stop.value + away)


def where_to(bench: Bench, rough: list[Pass], walls: list[Pass]) -> str:
    """Return where the passes of an area without walls run; walls have limits of their own."""
    return "" if walls else _extent(bench, rough)


def _extent(bench: Bench, rough: list[Pass]) -> str:
    if not rough:
        return ""
    lines = sorted({p.path[0][1] for p in rough})
    axis = "y"
    if len({p.path[0][0] for p in rough}) > 1 and all(abs(p.path[0][0] - p.path[-1][0]) < 1e-7 for p in rough):
        lines, axis = sorted({p.path[0][0] for p in rough}), "x"
    return f"passes at {axis.upper()} " + ", ".join(bench.shown(axis, value) for value in lines)
