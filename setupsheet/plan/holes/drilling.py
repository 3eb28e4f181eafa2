"""Heights for hole-like work: how deep the tip goes, where the full diameter ends, what metal goes.

Depths are below the finished surface of the end that the cutter enters. A through hole goes half a
millimetre past the metal that is there, or stops one millimetre past a floor that a later setup cuts.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from setupsheet.part.feature import Hole, Spot
from setupsheet.plan.bench import Bench, Removed, metal_at
from setupsheet.plan.chain.record import BY_HAND, ChainStep
from setupsheet.plan.draft import tangent_of_half
from setupsheet.plan.record import Leftover, Position
from setupsheet.plane import Point2
from setupsheet.solid.volume import Cone, Primitive

PAST_FLOOR_MM = 1.0
"""How far the full diameter passes a floor that is cut later. Common practice, no source."""

BREAK_THROUGH_MM = 0.5
"""How far the full diameter passes the far side. Common practice, no source."""

REAMER_LEAD = 0.25
"""Part of a reamer's diameter that its lead takes at the end. Common practice, no source."""

_OVER_MM = 1.0
_POINTED = ("spot", "countersink", "chamfer")


@dataclass(frozen=True, slots=True)
class Bore:
    """One place of a hole as it lies in a setup: entry and far surface are finished ones, setup Z."""

    hole: Hole
    spot: Spot
    at: Point2
    entry_z: float
    far_z: float
    from_mouth: bool
    stays_open: bool


def bore_of(bench: Bench, hole: Hole, spot: Spot) -> Bore:
    """Return one place of a hole as it lies in this setup."""
    from_mouth = hole.face is bench.up
    ends = (bench.z(spot.mouth_mm), bench.z(spot.exit_mm))
    entry, far = ends if from_mouth else ends[::-1]
    return Bore(hole, spot, bench.laid.flat(spot.at), entry, far, from_mouth, hole.id in bench.opened_by_others)


def position(bench: Bench, removed: Removed, bore: Bore, chained: ChainStep) -> Position:
    """Return where and how deep a cutter of the chain goes at one place."""
    x, y = bench.settle("x", bore.at[0]), bench.settle("y", bore.at[1])
    spans = _metal_round(bench, removed, bore)
    surface = spans[-1][1] if spans else bore.entry_z
    full, tip = _depths(spans, bore, chained)
    tip = bench.settle("z", tip) if chained.operation not in _POINTED else _not_deeper(bench, tip)
    full = bench.settle("z", max(full, tip))
    shown = {"x": bench.shown("x", x), "y": bench.shown("y", y), "z": bench.shown("z", tip)}
    if full > tip + 1e-9:
        shown["z_full"] = bench.shown("z", full)
    return Position(bore.spot.label, bore.hole.id, x, y, max(surface, tip), tip, full, shown, chained.diameter_mm)


def _metal_round(bench: Bench, removed: Removed, bore: Bore) -> tuple[tuple[float, float], ...]:
    """Return the metal round a hole as one span, from the lowest to the highest that its rim meets; () where is none.

    Just outside the hole, since the hole itself may be there already, by a tap drill's size; on all four sides, since a
    hole near an edge has less metal on one of them.
    """
    size = bore.hole.diameter
    beside = max(size.nominal_mm, size.upper_mm) / 2 + 0.01
    sides = ((beside, 0.0), (0.0, beside), (-beside, 0.0), (0.0, -beside))
    found = [metal_at(bench, removed, (bore.at[0] + across, bore.at[1] + up)) for across, up in sides]
    ends = [(spans[0][0], spans[-1][1]) for spans in found if spans]
    return ((min(low for low, _ in ends), max(high for _, high in ends)),) if ends else ()


def _depths(spans: tuple[tuple[float, float], ...], bore: Bore, chained: ChainStep) -> tuple[float, float]:
    """Return the end of the full diameter and the tip."""
    operation, cutter = chained.operation, chained.cutter
    if operation in _POINTED:
        surface = max(bore.entry_z, spans[-1][1]) if operation == "spot" and spans else bore.entry_z
        return surface, surface - (chained.diameter_mm - cutter.tip_mm) / 2 / tangent_of_half(cutter.point_angle_deg)
    if operation in ("counterbore", "spotface"):
        depth = bore.entry_z - (chained.depth_mm or 0.0)
        return depth, depth
    if operation in BY_HAND:
        return _tap_depth(bore)
    if bore.hole.through:
        full = through_depth(spans, bore)
        full -= REAMER_LEAD * cutter.diameter_mm if operation == "ream" else 0.0
    elif operation == "ream" or chained.depth_kind == "full depth":
        full = bore.far_z
    else:
        full = bore.entry_z - (chained.depth_mm or bore.hole.drill_depth_mm or bore.entry_z - bore.far_z)
    return full, full - _point(chained)


def through_depth(spans: tuple[tuple[float, float], ...], bore: Bore) -> float:
    """Return where the full diameter of a through hole ends: past the metal, or past a later floor."""
    bottom = spans[0][0] if spans else bore.far_z
    if bottom < bore.far_z - PAST_FLOOR_MM - BREAK_THROUGH_MM and not bore.stays_open:
        return bore.far_z - PAST_FLOOR_MM
    return min(bottom, bore.far_z) - BREAK_THROUGH_MM


def stops_short(bench: Bench, removed: Removed, bore: Bore) -> bool:
    """Tell whether a through hole ends in metal that a later setup cuts away."""
    spans = _metal_round(bench, removed, bore)
    return bore.hole.through and bool(spans) and through_depth(spans, bore) > spans[0][0]


def point_left(hole: Hole, chained: ChainStep) -> tuple[Leftover, ...]:
    """Return what a smaller drill's point leaves of the drawn one under a blind hole that is reamed or bored."""
    less = (hole.diameter.nominal_mm - chained.diameter_mm) / 2
    if hole.through or hole.making != "fit" or chained.operation != "drill" or less < 1e-6:
        return ()
    return (Leftover("drill_point", (hole.id,), less + 0.01, "the drill's point stays at the bottom"),)


def _tap_depth(bore: Bore) -> tuple[float, float]:
    pitch = bore.hole.thread.pitch_mm if bore.hole.thread else 1.0
    end = bore.far_z - (5 * pitch if bore.hole.through else 0.0)
    return end, end


def _point(chained: ChainStep) -> float:
    if chained.operation not in ("drill", "pilot", "core drill"):
        return 0.0
    return chained.diameter_mm / 2 / tangent_of_half(chained.cutter.point_angle_deg)


def _not_deeper(bench: Bench, tip: float) -> float:
    """Round a pointed cutter's depth up, so that its mouth never comes out too wide."""
    step = bench.scales["z"].step_mm
    return math.ceil(tip / step - 1e-6) * step


def takes(bench: Bench, bore: Bore, chained: ChainStep, at: Position) -> tuple[Primitive, ...]:
    """Return the metal that a cutter takes at one place, in the part frame."""
    top = max(bore.entry_z, at.z_from) + _OVER_MM
    if chained.operation in BY_HAND:
        return ()
    shapes: list[Primitive] = []
    if chained.operation in _POINTED:
        slope = tangent_of_half(chained.cutter.point_angle_deg)
        tip_radius = chained.cutter.tip_mm / 2
        surface = max(bore.entry_z, at.z_from) if chained.operation == "spot" else bore.entry_z
        mouth = tip_radius + (surface - at.z_to) * slope
        shapes.append(Cone(2, bore.at, at.z_to, surface, tip_radius, mouth))
    else:
        radius = _drawn_radius(bore, chained)
        shapes.append(Cone(2, bore.at, at.z_full, top, radius, radius))
        if at.z_full - at.z_to > 1e-6:
            shapes.append(Cone(2, bore.at, at.z_to, at.z_full, 0.0, radius))
    return tuple(bench.laid.primitive_to_part(shape) for shape in shapes)


def _drawn_radius(bore: Bore, chained: ChainStep) -> float:
    """Return the drawn radius for the finishing cutter, its own for a pilot, a counterbore or a tap drill."""
    if chained.operation in ("counterbore", "spotface") and bore.hole.counterbore:
        return bore.hole.counterbore.diameter.nominal_mm / 2
    if bore.hole.making == "tap":
        return chained.diameter_mm / 2
    return min(chained.diameter_mm, bore.hole.diameter.nominal_mm) / 2


def far_cones(hole: Hole, chained: ChainStep) -> tuple[Primitive, ...]:
    """Return the cones that a chamfer at the named end of a hole takes, in the part frame."""
    slope = tangent_of_half(chained.cutter.point_angle_deg)
    wide = chained.diameter_mm / 2
    depth = (wide - hole.diameter.nominal_mm / 2) / slope
    cones = []
    for spot in hole.spots:
        surface = spot.mouth_mm if chained.end == "mouth" else spot.exit_mm
        inward = -hole.face.sign if chained.end == "mouth" else hole.face.sign
        narrow = wide - depth * slope
        low, high = sorted((surface, surface + inward * depth))
        radii = (narrow, wide) if inward < 0 else (wide, narrow)
        cones.append(Cone(hole.face.axis, spot.at, low, high, *radii))
    return tuple(cones)
