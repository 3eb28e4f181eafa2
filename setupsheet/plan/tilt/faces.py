"""A slanted edge or bevel that lies level, milled as a flat face: passes from the highest metal down."""

from __future__ import annotations

from itertools import pairwise

from setupsheet.length import fixed
from setupsheet.part.feature import EdgeChamfer, EdgeCut
from setupsheet.part.shop import Cutter
from setupsheet.plan.bench import Bench
from setupsheet.plan.cutting import Cut, milling
from setupsheet.plan.draft import Draft, step, tool_plan
from setupsheet.plan.milling import area, passes
from setupsheet.plan.milling.milling import FLOOR_MM, LIFT_MM, feed_fields, heights_down, settled, where_to
from setupsheet.plan.milling.mills import MillNeed, pick_mill
from setupsheet.plan.milling.passes import Clearing, Pass
from setupsheet.plan.record import Ask, Move
from setupsheet.plan.sizes import between
from setupsheet.plan.tilt.lie import Lie, metal_over
from setupsheet.plan.tilt.zero import Mark
from setupsheet.plane import Point2
from setupsheet.solid.slopes import Slope
from setupsheet.solid.volumes import feature_volume

_SAW_MM = 6.0
"""More metal than this over a face is sawn off first. Common practice, no source."""


def face_drafts(bench: Bench, lie: Lie, pin: Mark) -> list[Draft]:
    """Return a step for each level face, the highest first; one cutter does them all."""
    drafts = []
    top = lie.top
    cutter: Cutter | None = None
    for slope, floor in lie.work:
        span = metal_over(lie, floor, top)
        if span is None or top - floor < 1e-6:
            continue
        target = area.rectangle((span[0], lie.y[0]), (span[1], lie.y[1]))
        cutter = cutter or pick_mill(bench, MillNeed(target, area.nothing(), 0.0))
        drafts.append(_face(bench, lie, (slope, floor, top), cutter, pin))
        top = floor
    return drafts


def _face(bench: Bench, lie: Lie, what: tuple[Slope, float, float], cutter: Cutter, pin: Mark) -> Draft:
    slope, floor, top = what
    cut = milling(bench, cutter, full_width=True)
    heights = [bench.settle("z", z) for z in heights_down(top, floor, cut.depth_mm, FLOOR_MM)]
    clear = bench.settle("z", lie.top) + LIFT_MM
    lines = _lines(bench, lie, (floor, top), cutter, cut)
    moves: list[Move] = []
    for above, z in pairwise([top, *heights]):
        why = "last" if z == heights[-1] else "rough"
        there = _there(bench, lines, metal_over(lie, z, above), cutter.diameter_mm / 2 + passes.RUN_OUT_MM)
        moves += [Move("outside", z, clear, path, "angle_setting", why) for path in there]
    id_ = slope.feature.id
    made = step(
        "mill",
        f"{id_}, level",
        (id_,),
        method="table",
        removes=True,
        tool=tool_plan(cutter),
        direction="conventional",
        moves=tuple(moves),
        z_shown=tuple(bench.shown("z", z) for z in heights),
        where=where_to(bench, lines, []),
        words=(*(("saw the corner off first",) if top - floor > _SAW_MM else ()), "run out clear at both ends"),
        checks=_asks(bench, lie, slope, floor, pin),
        **feed_fields(cut),
    )
    return Draft(made, feature_volume(slope.feature, bench.part), cutter)


def _lines(bench: Bench, lie: Lie, heights: tuple[float, float], cutter: Cutter, cut: Cut) -> list[Pass]:
    """Return the passes over the whole face; all heights share their lines, so that a few readings do."""
    span = metal_over(lie, *heights)
    assert span is not None
    target = area.rectangle((span[0], lie.y[0]), (span[1], lie.y[1]))
    clearing = Clearing(target, area.nothing(), cutter.diameter_mm / 2, cut.width_mm, 0.0)
    return [settled(bench, p, along_wall=False) for p in passes.rough_passes(clearing)]


def _there(
    bench: Bench, lines: list[Pass], span: tuple[float, float] | None, clear: float
) -> list[tuple[Point2, Point2]]:
    """Return the passes at one height: as far as metal stands there, and clear of it at both ends."""
    if span is None:
        return []
    low, high = bench.settle("x", span[0] - clear), bench.settle("x", span[1] + clear)
    found = []
    for line in lines:
        (ax, ay), (bx, by) = line.path[0], line.path[-1]
        if abs(ax - bx) > 1e-7:
            found.append(((low, ay), (high, by)) if ax < bx else ((high, ay), (low, by)))
        elif low < ax < high:
            found.append(((ax, ay), (bx, by)))
    return found


def _asks(bench: Bench, lie: Lie, slope: Slope, floor: float, pin: Mark) -> tuple[Ask, ...]:
    """Return what to check: the angle, and the place over a pin or the width of a bevel."""
    part, feature = bench.part, slope.feature
    asks = []
    if part.tolerance.angle_deg > 0:
        angle, slack = (
            fixed(v, 2).rstrip("0").rstrip(".") for v in (abs(lie.tilted.turn_deg), part.tolerance.angle_deg)
        )
        up = lie.tilted.upright.up.value
        asks.append(Ask(f"angle of {feature.id} to {up}, by protractor", f"{angle}° ± {slack}°"))
    if isinstance(feature, EdgeChamfer):
        low, high = (size * 2**0.5 for size in (feature.size.lower_mm, feature.size.upper_mm))
        asks.append(Ask(f"width of the flat {feature.id}", between(low, high, part.unit)))
    if isinstance(feature, EdgeCut) and pin.pin_mm and feature.tolerance is not None:
        over = floor - pin.at[1] + pin.pin_mm / 2
        low, high = over + feature.tolerance.lower_mm, over + feature.tolerance.upper_mm
        asks.append(Ask(f"over the pin in {pin.hole} to {feature.id}", between(low, high, part.unit)))
    return tuple(asks)
