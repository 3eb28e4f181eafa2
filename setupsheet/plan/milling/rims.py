"""Edges that are not straight along an axis: slants, rounded corners and ends, bevelled edges."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise

from setupsheet.finding import Finding
from setupsheet.length import fixed
from setupsheet.part.face import Face
from setupsheet.part.feature import CornerRadius, EdgeChamfer, EdgeCut, Hole, RoundedEnd, Size
from setupsheet.part.shop import Cutter
from setupsheet.plan.bench import Bench, Removed, finished_at, flat_box, metal_above, top_over
from setupsheet.plan.cutting import hole_cut, milling
from setupsheet.plan.draft import Draft, step, tool_plan
from setupsheet.plan.milling import area, points, turned, turned_work
from setupsheet.plan.milling.angle_setting import block_stack, blocks_of, setting
from setupsheet.plan.milling.milling import LIFT_MM, feed_fields, heights_down
from setupsheet.plan.milling.mills import MillNeed, pick_mill
from setupsheet.plan.milling.passes import RUN_OUT_MM
from setupsheet.plan.milling.sides import cut_above, cut_floor, lowest_needed
from setupsheet.plan.record import Leftover, Move
from setupsheet.plane import Point2, angle_of, polar
from setupsheet.solid.volumes import feature_volume

Drafts = tuple[list[Draft], list[Finding]]

_FEED_WORDS = {
    (0, -1): "step Y, feed right to X",
    (0, 1): "step Y, feed left to X",
    (1, -1): "step X, feed away to Y",
    (1, 1): "step X, feed towards you to Y",
}
_BESIDE_MM = 0.05
_EDGE_SAMPLES = 25


def slant_drafts(bench: Bench, removed: Removed, feature: EdgeCut) -> Drafts:
    """Cut a slanted edge by points."""
    line = [bench.laid.flat(p) for p in feature.line]
    ends = area.chord(line[0], line[1], flat_box(bench.envelope))
    if ends is None:
        return [], []
    a, b = ends
    outward = _carried(bench, feature.towards)
    inside, outside = ([_beside(_between(a, b, i / 8), outward, by) for i in range(9)] for by in (-1, 1))

    def plan(cutter: Cutter) -> list[points.PointCut]:
        radius = cutter.diameter_mm / 2
        centres = points.along_line(a, b, outward, radius)
        feed = 0 if abs(outward[0]) > abs(outward[1]) + 1e-9 else 1
        return _cuts(bench, centres, radius, (feed, _sign(outward[feed])), _on_line(centres[0], centres[-1], feed))

    words = (angle_words(bench, feature.id, a, b),) if _is_fine(feature.tolerance) else ()
    return _by_points(bench, removed, _Edge(feature.id, inside, outside, None, words), plan)


def _is_fine(size: Size | None) -> bool:
    """Tell whether limits are written that ridges and a file cannot be trusted with."""
    return size is not None and size.kind == "limits" and size.upper_mm - size.lower_mm < 4 * points.RIDGE_MM - 1e-9


def angle_words(bench: Bench, name: str, a: Point2, b: Point2) -> str:
    """Return the way to a finely toleranced slant: the part set to its angle, and the edge milled as a face.

    A setup with ``tilt:`` gives the sheet for it, with its zero and its checks.
    """
    series = "inch" if bench.scales["x"].axis.unit == "inch" else "mm"
    unit, step = (25.4, 0.0001) if series == "inch" else (1.0, 0.001)
    slant = math.degrees(math.atan2(abs(b[1] - a[1]), abs(b[0] - a[0])))
    found = setting(slant, series)
    stack = found.stack_mm / unit
    blocks = " + ".join(f"{block:g}" for block in block_stack(stack, blocks_of(series), step))
    bar = f"sine bar {found.bar_mm / unit:g}: stack {fixed(stack, 4 if series == 'inch' else 3)}"
    said = f"{bar} = {blocks}" if blocks else bar
    rest = f", 90 less {fixed(slant, 3)}" if found.complement else ""
    angle = f"{fixed(found.angle_deg, 3)} degrees{rest}"
    sheet = f"a setup with tilt: {name} in the spec gives its sheet"
    return f"too fine for points and a file: stand it up, edge level, mill it as a face: set {angle} ({said}); {sheet}"


def corner_drafts(bench: Bench, removed: Removed, feature: CornerRadius) -> Drafts:
    """Round an outside corner by points."""
    outward = _carried(bench, (float(feature.quadrant[0]), float(feature.quadrant[1])))
    start = angle_of((0.0, 0.0), outward) - 45
    return _round(bench, removed, feature, _Sweep(start, 90.0, 0, _sign(outward[0])))


def end_drafts(bench: Bench, removed: Removed, feature: RoundedEnd) -> Drafts:
    """Round a whole end by points."""
    index, sign = bench.laid.where(feature.side)
    start = {(0, 1): -90.0, (1, 1): 0.0, (0, -1): 90.0, (1, -1): 180.0}[(index, sign)]
    return _round(bench, removed, feature, _Sweep(start, 180.0, index, sign))


@dataclass(frozen=True, slots=True)
class _Sweep:
    """A round edge from an angle over a sweep (degrees), fed along an axis from the side of a sign."""

    from_deg: float
    sweep_deg: float
    feed: int
    sign: int


def _round(bench: Bench, removed: Removed, feature: CornerRadius | RoundedEnd, sweep: _Sweep) -> Drafts:
    centre, radius_mm = bench.laid.flat(feature.centre), feature.radius.nominal_mm
    turns = [sweep.from_deg + sweep.sweep_deg * i / 12 for i in range(13)]
    inside, outside = ([polar(centre, radius_mm + by, turn) for turn in turns] for by in (-_BESIDE_MM, _BESIDE_MM))
    if turned.is_on_axis(bench, centre):
        wall = turned.Wall(radius_mm, sweep.from_deg, sweep.sweep_deg)
        return turned_work.edge_drafts(bench, removed, feature, (inside, outside), wall)

    def plan(cutter: Cutter) -> list[points.PointCut]:
        radius = cutter.diameter_mm / 2
        centres = points.round_corner(centre, radius_mm, sweep.from_deg, sweep.sweep_deg, radius)
        on_circle = points.on_circle(centre, radius_mm + radius, sweep.feed, sweep.sign)
        return _cuts(bench, centres, radius, (sweep.feed, sweep.sign), on_circle)

    edge = _Edge(feature.id, inside, outside, (radius_mm, sweep.sweep_deg), _buttons(bench, feature))
    drafts, findings = _by_points(bench, removed, edge, plan)
    return drafts, [*findings, *turned_work.off_axis(bench, feature)]


def _buttons(bench: Bench, feature: CornerRadius | RoundedEnd) -> tuple[str, ...]:
    """Return the way to a finely toleranced round by hand, where a hole through its middle takes a bolt."""
    if not _is_fine(feature.radius):
        return ()
    at = [s.at for f in bench.part.features if isinstance(f, Hole) and f.through for s in f.spots]
    if not any(math.dist(place, feature.centre) < 1e-6 for place in at):
        return ()
    size = bench.scales["x"].plain(2 * feature.radius.nominal_mm).lstrip("+")
    return (f"too fine for points alone: file to hardened buttons Ø {size}, bolted through the drilled hole",)


def _cuts(
    bench: Bench, centres: list[Point2], radius: float, way: tuple[int, int], edge: Callable[[float], float]
) -> list[points.PointCut]:
    """Return the cuts to these centres; ``way`` is the feed axis and the sign of the side it comes from."""
    feed, sign = way
    reach = (bench.stock.high if sign > 0 else bench.stock.low)[feed]
    clear = radius + RUN_OUT_MM
    start = max(reach + clear, *(c[feed] + clear for c in centres))
    if sign < 0:
        start = min(reach - clear, *(c[feed] - clear for c in centres))
    words = _FEED_WORDS[(feed, sign)]
    return [points.settle(bench, points.PointCut(c, feed, start, words), edge) for c in centres]


@dataclass(frozen=True, slots=True)
class _Edge:
    """An edge to cut by points: its feature, points a hair inside and outside, radius and sweep if it is round."""

    id: str
    inside: list[Point2]
    outside: list[Point2]
    arc: tuple[float, float] | None
    words: tuple[str, ...] = ()


def _by_points(bench: Bench, removed: Removed, edge: _Edge, plan: Callable[[Cutter], list[points.PointCut]]) -> Drafts:
    """Return the step that cuts an edge by points, and what its ridges are."""
    id_, xs = edge.id, [p[0] for p in edge.inside]
    need = lowest_needed(bench, removed, edge.inside, edge.outside)
    if need is None:
        return [], []
    floor, findings = cut_floor(bench, need, (min(xs) - 12.0, max(xs) + 12.0), id_)
    top = top_over(bench, removed, area.common(metal_above(bench, removed, floor), flat_box(bench.envelope)))
    cutter = pick_mill(bench, MillNeed(area.nothing(), area.nothing(), top - floor))
    cuts = plan(cutter)
    cut = milling(bench, cutter, full_width=False)
    heights = [bench.settle("z", z) for z in heights_down(top, floor, cut.depth_mm, 0.0)]
    ridge = _ridge(cutter.diameter_mm / 2, cuts, edge.arc)
    shown = bench.scales["x"].plain(math.ceil(ridge * 100) / 100).lstrip("+")
    made = step(
        "mill",
        id_,
        (id_,),
        method="table",
        removes=True,
        tool=tool_plan(cutter),
        direction="conventional",
        moves=points.as_moves(cuts, heights, top),
        points=points.as_pairs(bench, cuts),
        z_shown=tuple(bench.shown("z", z) for z in heights),
        where=f"table of points: {cuts[0].group}",
        words=("saw the corner off first if there is much to go", *edge.words),
        leftover=(Leftover("cusp", (id_,), ridge + 0.005, f"ridges up to {shown}, for the file"),),
        **feed_fields(cut),
    )
    takes = cut_above(bench, feature_volume(bench.part.feature(id_), bench.part), floor)
    return [Draft(made, takes, cutter)], findings


def _ridge(radius: float, cuts: list[points.PointCut], arc: tuple[float, float] | None) -> float:
    if arc is not None:
        return points.round_ridge(arc[0], radius, arc[1] / (len(cuts) - 1))
    return points.line_ridge(radius, max(math.dist(a.stop, b.stop) for a, b in pairwise(cuts)))


def edge_chamfer_drafts(bench: Bench, removed: Removed, feature: EdgeChamfer) -> Drafts:
    """Bevel straight edges with a 90 degree countersink run along them, its point below the bevel.

    An edge that the finished part does not have, because a level takes the top down along it, is passed over.
    """
    del removed
    sides = [side for side in feature.sides if _has_edge(bench, side, feature.size.nominal_mm)]
    if not sides:
        return [], []
    cutter = _bevel_cutter(bench)
    leg, tip = feature.size.nominal_mm, cutter.tip_mm / 2
    beside = tip + 1.0
    top = bench.envelope.high[2]
    z = bench.settle("z", top - leg - 1.0)
    beside += top - leg - 1.0 - z
    moves = [_bevel(bench, side, beside, z) for side in sides]
    shown = bench.shown("z", z)
    cut = hole_cut(bench, cutter, "chamfer", 2 * (beside + leg))
    made = step(
        "chamfer",
        feature.id,
        (feature.id,),
        method="table",
        removes=True,
        tool=tool_plan(cutter),
        direction="conventional",
        moves=tuple(moves),
        z_shown=(shown,),
        where="; ".join(_bevel_words(bench, side, move) for side, move in zip(sides, moves, strict=True)),
        words=("point below the bevel, the cone does the work; light cuts",),
        **feed_fields(cut),
    )
    return [Draft(made, feature_volume(feature, bench.part), cutter)], []


def _has_edge(bench: Bench, side: Face, leg: float) -> bool:
    """Tell whether the finished part stands to its full height anywhere beside an edge, a hair inside its bevel."""
    index, sign = bench.laid.where(side)
    plane = bench.laid.along(index, bench.part.box.at(side)) - sign * (leg + _BESIDE_MM)
    low, high = bench.envelope.low[1 - index], bench.envelope.high[1 - index]
    along = [low + (high - low) * (i + 0.5) / _EDGE_SAMPLES for i in range(_EDGE_SAMPLES)]
    tops = [finished_at(bench, (plane, v) if index == 0 else (v, plane)) for v in along]
    return any(spans and spans[-1][1] > bench.envelope.high[2] - 1e-6 for spans in tops)


def _bevel_cutter(bench: Bench) -> Cutter:
    own = [c for c in bench.shop.cutters if c.kind == "countersink" and abs(c.point_angle_deg - 90) < 1e-6]
    if own:
        return max(own, key=lambda c: (c.diameter_mm, c.label))
    return Cutter("countersink", "countersink 16 x 90", 16.0, owned=False, point_angle_deg=90.0, tip_mm=1.0)


def _bevel(bench: Bench, side: Face, beside: float, z: float) -> Move:
    """Return the pass along one edge, the part on the left of the feed."""
    index, sign = bench.laid.where(side)
    low, high = bench.envelope.low, bench.envelope.high
    names = ("x", "y")
    true = (high if sign > 0 else low)[index] + sign * beside
    plane = bench.scales[names[index]].settle(true)
    run = beside + 8.0
    other = 1 - index
    ends = [bench.settle(names[other], v) for v in (low[other] - run, high[other] + run)]
    forward = (index == 1 and sign < 0) or (index == 0 and sign > 0)
    first, last = ends if forward else ends[::-1]
    path, exact = (((at, first), (at, last)) if index == 0 else ((first, at), (last, at)) for at in (plane, true))
    return Move("outside", z, bench.envelope.high[2] + LIFT_MM, path, "table", "last", exact)


def _bevel_words(bench: Bench, side: Face, move: Move) -> str:
    index, _ = bench.laid.where(side)
    axis = "xy"[index]
    return f"{axis.upper()} {bench.shown(axis, move.path[0][index])}"


def _carried(bench: Bench, vector: Point2) -> Point2:
    (ox, oy), (vx, vy) = bench.laid.flat((0.0, 0.0)), bench.laid.flat(vector)
    return vx - ox, vy - oy


def _on_line(a: Point2, b: Point2, feed: int) -> Callable[[float], float]:
    slope = (b[feed] - a[feed]) / (b[1 - feed] - a[1 - feed])
    return lambda at: a[feed] + slope * (at - a[1 - feed])


def _beside(point: Point2, outward: Point2, sign: int) -> Point2:
    """Return a point a hair outside (+1) or inside (-1) of an edge."""
    return point[0] + sign * outward[0] * _BESIDE_MM, point[1] + sign * outward[1] * _BESIDE_MM


def _between(a: Point2, b: Point2, share: float) -> Point2:
    return a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share


def _sign(value: float) -> int:
    return 1 if value > 0 else -1
