"""The volume of a hole: a stack of cylinders and cones at each of its places (mm).

Drawn sizes (the shop file has no say): a through hole runs out past both surfaces; a blind one ends in
the point of a twist drill below its full diameter; a tapped one is drawn at the basic minor diameter.

Whether a blind hole is drilled, reamed or bored depends on the shop, so it is always drawn with the drill's
point. Boring leaves a flat ring round a smaller point: a little metal stays that the drawing lacks, which the
plan names as a known leftover (``plan.holes.drilling.point_left``) and the replay measures.
"""

from __future__ import annotations

import math

from setupsheet.part.face import Face
from setupsheet.part.feature import Hole, Spot
from setupsheet.plane import Point2, polar
from setupsheet.solid.column import metal
from setupsheet.solid.drawn import CLEAR_MM, Drawn
from setupsheet.solid.extent import bounds
from setupsheet.solid.volume import Cone, Primitive, Volume

POINT_DEG = 118.0
"""Point angle that blind holes are drawn with: the house's drawn size, that of the usual twist drill."""

_Stage = tuple[float, float, float, float]
"""Depths from the mouth (mm, into the metal) and radii: from, to, radius there, radius here."""

_TOUCH = 1e-6
_RIM = 8
"""Places round a hole's edge that are asked for metal where it opens."""


def hole_volume(hole: Hole, drawn: Drawn) -> Volume:
    """Return what a hole or a pattern of holes removes."""
    return tuple(cone for spot in hole.spots for cone in _spot_volume(hole, spot, drawn))


def _spot_volume(hole: Hole, spot: Spot, drawn: Drawn) -> Volume:
    sign = hole.face.sign
    return tuple(
        _cone(
            hole.face.axis,
            spot.at,
            (spot.mouth_mm - sign * stage[0], stage[2]),
            (spot.mouth_mm - sign * stage[1], stage[3]),
        )
        for stage in _stages(hole, spot, drawn)
        if stage[1] - stage[0] > _TOUCH
    )


def _cone(axis: int, centre: Point2, one: tuple[float, float], other: tuple[float, float]) -> Cone:
    (low, radius_low), (high, radius_high) = sorted((one, other))
    return Cone(axis, centre, low, high, radius_low, radius_high)


def _stages(hole: Hole, spot: Spot, drawn: Drawn) -> list[_Stage]:
    radius = drawn.opening(hole.diameter) / 2
    depth = (spot.mouth_mm - spot.exit_mm) * hole.face.sign
    top = -_run_out(hole, spot, drawn, radius, hole.face)
    if hole.through:
        stages = [(top, depth + _run_out(hole, spot, drawn, radius, hole.face.opposite), radius, radius)]
    else:
        full = max(depth, hole.drill_depth_mm or 0.0)
        point = radius / math.tan(math.radians(POINT_DEG / 2))
        stages = [(top, full, radius, radius), (full, full + point, radius, 0.0)]
    if hole.counterbore:
        wide = drawn.opening(hole.counterbore.diameter) / 2
        stages.append((-_run_out(hole, spot, drawn, wide, hole.face), hole.counterbore.depth_mm, wide, wide))
    return stages + _bevels(hole, drawn, radius, depth)


def _bevels(hole: Hole, drawn: Drawn, radius: float, depth: float) -> list[_Stage]:
    """Return the cones of countersink and chamfers; they end in the surface that the hole opens in."""
    asked = [(c.diameter_mm / 2, c.angle_deg, c.end) for c in hole.chamfers]
    if hole.countersink:
        sink = hole.countersink
        asked.append((drawn.opening(sink.diameter) / 2, sink.angle_deg, sink.end))
    wide, floor = radius, 0.0
    if hole.counterbore:
        wide, floor = drawn.opening(hole.counterbore.diameter) / 2, hole.counterbore.depth_mm
    stages: list[_Stage] = []
    for outer, angle_deg, end in asked:
        start, inner = (0.0, wide) if outer > wide else (floor, radius)
        if end == "exit":
            inner = radius
        height = (outer - inner) / math.tan(math.radians(angle_deg / 2))
        if height > _TOUCH:
            stages.append(
                (start, start + height, outer, inner) if end == "mouth" else (depth - height, depth, inner, outer)
            )
    return stages


def _run_out(hole: Hole, spot: Spot, drawn: Drawn, radius: float, face: Face) -> float:
    """Return how far the cut goes past the surface on the side of ``face``.

    Past the stock where that surface is the finished part's outside; a clear step where it is the
    floor of something else, unless metal stands higher at the hole's edge or lies close beyond.
    """
    surface = (spot.mouth_mm if face is hole.face else spot.exit_mm) * face.sign
    end, step = surface, CLEAR_MM
    if drawn.others and not drawn.is_outside(face, surface * face.sign):
        end, step = _metal_end(drawn.others(hole.id), spot.at, radius, face, surface, drawn)
    if drawn.is_outside(face, end * face.sign):
        return drawn.past_stock(face) * face.sign - surface
    return end + step - surface


def _metal_end(
    others: tuple[Primitive, ...], at: Point2, radius: float, face: Face, surface: float, drawn: Drawn
) -> tuple[float, float]:
    """Return where the metal under a surface ends all round the hole's edge, and how far to go past it.

    ``surface`` and the first result are coordinates that grow out of the face.
    """
    near = _near(others, face.axis, at, radius)
    rim = [at, *(polar(at, radius * 0.999, 360 / _RIM * i) for i in range(_RIM))]
    spans = [
        sorted((low * face.sign, high * face.sign))
        for point in rim
        for low, high in metal(drawn.part.box, near, face.axis, point)
    ]
    end = max([surface, *(high for low, high in spans if low < surface - _TOUCH)])
    gaps = [low - end for low, _ in spans if low > end + _TOUCH]
    return end, min([CLEAR_MM, *(gap / 2 for gap in gaps)])


def _near(shapes: tuple[Primitive, ...], axis: int, at: Point2, radius: float) -> list[Primitive]:
    """Return the shapes that reach into the square round the hole."""
    first, second = (i for i in range(3) if i != axis)
    found = []
    for shape in shapes:
        box = bounds(shape)
        if all(box.low[i] <= c + radius and box.high[i] >= c - radius for i, c in ((first, at[0]), (second, at[1]))):
            found.append(shape)
    return found
