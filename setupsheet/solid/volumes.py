"""What each feature removes from the part, as plain volumes: the one place where a kind gets its shape.

The solid comes from the spec alone. ``which`` picks the nominal part, the one with the least metal
(holes, slots and pockets at their upper limit, bosses at their lower) or the one with the most; planes,
heights and positions are the same in all three. Cuts run out past the stock where they open outwards,
so the same volumes serve for the finished solid and for the stock in process.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from itertools import pairwise
from typing import Any

from setupsheet.part.face import FACE_OF, Face
from setupsheet.part.feature import (
    CornerRadius,
    EdgeChamfer,
    EdgeCut,
    Feature,
    Keep,
    Level,
    Mark,
    Pocket,
    RingGroove,
    RoundBoss,
    RoundedEnd,
    Slot,
)
from setupsheet.part.part import Part
from setupsheet.part.shape import SlotShape
from setupsheet.plane import Point2
from setupsheet.solid import loops
from setupsheet.solid.drawn import Drawn, Which
from setupsheet.solid.hole_volume import hole_volume
from setupsheet.solid.slopes import slopes
from setupsheet.solid.volume import ArcEdge, CircleLoop, LineEdge, Loop, Primitive, Prism, Volume


def feature_volume(feature: Feature, part: Part, which: Which = "nominal") -> Volume:
    """Return what one feature of the part removes; empty for a note."""
    return _KINDS[feature.kind](feature, _drawn(part, which))


def finished_volumes(part: Part, which: Which = "nominal") -> dict[str, Volume]:
    """Return what each feature removes, by id in the order of the spec."""
    drawn = _drawn(part, which)
    return {feature.id: _KINDS[feature.kind](feature, drawn) for feature in part.features}


def envelope_volumes(part: Part) -> dict[Face, Prism]:
    """Return the stock that lies beyond the finished envelope, for each face that has some."""
    drawn = Drawn(part)
    slabs = {}
    for face in Face:
        if (part.stock.box.at(face) - part.box.at(face)) * face.sign > 0:
            slabs[face] = _slab(drawn, face, loops.rectangle(*drawn.rectangle(face.axis)), part.box.at(face))
    return slabs


def kinds() -> tuple[str, ...]:
    """Return the kinds of feature that have a volume."""
    return tuple(_KINDS)


def _drawn(part: Part, which: Which) -> Drawn:
    """Return the sizes to draw, with the shapes of all other features for holes that open in them."""

    @cache
    def roughly() -> dict[str, Volume]:
        alone = Drawn(part, which)
        return {feature.id: _KINDS[feature.kind](feature, alone) for feature in part.features}

    @cache
    def others(id_: str) -> tuple[Primitive, ...]:
        return tuple(shape for key, volume in roughly().items() if key != id_ for shape in volume)

    return Drawn(part, which, others)


def _slab(drawn: Drawn, face: Face, outer: Loop, floor: float, islands: tuple[Loop, ...] = ()) -> Prism:
    """Return everything over an area from a floor out past the stock on the side of ``face``."""
    low, high = sorted((floor, drawn.past_stock(face)))
    return Prism(face.axis, outer, islands, low, high)


def _through(drawn: Drawn, face: Face, outer: Loop) -> Prism:
    low, high = sorted((drawn.past_stock(face), drawn.past_stock(face.opposite)))
    return Prism(face.axis, outer, (), low, high)


def _spare_bosses(prism: Prism, face: Face, drawn: Drawn, *, both_sides: bool) -> Volume:
    """Leave the round bosses of this face standing up to their tops, also those of the opposite one."""
    bosses = [
        boss
        for boss in drawn.part.features
        if isinstance(boss, RoundBoss) and (boss.face is face or (both_sides and boss.face is face.opposite))
    ]
    rings = [(boss, CircleLoop(boss.at, drawn.standing(boss.diameter) / 2)) for boss in bosses]
    rings = [(boss, ring) for boss, ring in rings if _meet(ring, prism.outer)]
    tops = {boss.top.nominal_mm for boss, _ in rings if prism.low < boss.top.nominal_mm < prism.high}
    cuts = [prism.low, *sorted(tops), prism.high]
    slabs = []
    for low, high in pairwise(cuts):
        stand = tuple(ring for boss, ring in rings if (boss.top.nominal_mm - (low + high) / 2) * boss.face.sign > 0)
        slabs.append(Prism(prism.axis, prism.outer, prism.islands + stand, low, high))
    return tuple(slabs)


def _meet(ring: CircleLoop, outer: Loop) -> bool:
    (low, high), (ring_low, ring_high) = loops.bounds(outer), loops.bounds(ring)
    return all(ring_low[i] < high[i] and low[i] < ring_high[i] for i in (0, 1))


def _keeps(keeps: tuple[Keep, ...], drawn: Drawn) -> tuple[Loop, ...]:
    """Return the areas left standing; a named round boss is left out, since it protects itself."""
    bosses = {feature.id for feature in drawn.part.features if isinstance(feature, RoundBoss)}
    return tuple(loops.shape_loop(keep.shape, island=True) for keep in keeps if keep.feature not in bosses)


def _level(level: Level, drawn: Drawn) -> Volume:
    everything = loops.rectangle(*drawn.rectangle(level.face.axis))
    outer = everything if level.area is None else loops.shape_loop(level.area)
    slab = _slab(drawn, level.face, outer, level.height.nominal_mm, _keeps(level.leave, drawn))
    return _spare_bosses(slab, level.face, drawn, both_sides=False)


def _round_boss(boss: RoundBoss, drawn: Drawn) -> Volume:
    circle = CircleLoop(boss.at, drawn.standing(boss.diameter) / 2)
    return (_slab(drawn, boss.face, circle, boss.top.nominal_mm),)


def _pocket(pocket: Pocket, drawn: Drawn) -> Volume:
    wider = drawn.opening(pocket.width) - pocket.width.nominal_mm if pocket.width else 0.0
    outer = loops.shape_loop(pocket.shape, wider)
    keeps = _keeps(pocket.leave, drawn)
    if pocket.floor:
        prism = _slab(drawn, pocket.face, outer, pocket.floor.nominal_mm, keeps)
    else:
        window = _through(drawn, pocket.face, outer)
        prism = Prism(window.axis, outer, keeps, window.low, window.high)
    return _spare_bosses(prism, pocket.face, drawn, both_sides=pocket.floor is None)


def _slot(slot: Slot, drawn: Drawn) -> Volume:
    shape = SlotShape(slot.shape.start, slot.shape.end, drawn.opening(slot.width))
    outer = loops.shape_loop(shape)
    prism = _slab(drawn, slot.face, outer, slot.floor.nominal_mm) if slot.floor else _through(drawn, slot.face, outer)
    return _spare_bosses(prism, slot.face, drawn, both_sides=slot.floor is None)


def _edge_cut(cut: EdgeCut, drawn: Drawn) -> Volume:
    outer = loops.half_plane(cut.line, cut.towards, *drawn.rectangle(cut.face.axis))
    if outer is None:
        return ()
    return _spare_bosses(_through(drawn, cut.face, outer), cut.face, drawn, both_sides=True)


def _corner_radius(corner: CornerRadius, drawn: Drawn) -> Volume:
    """Return what lies between the arc and the corner, out over the rim where the corner is the part's."""
    radius, tip = corner.radius.nominal_mm, []
    for i, axis in enumerate(corner.face.in_plane):
        face = _side(axis, corner.quadrant[i])
        at = corner.centre[i] + corner.quadrant[i] * radius
        tip.append(drawn.past_stock(face) if drawn.is_outside(face, at) else at)
    (u, v), (su, sv) = corner.centre, corner.quadrant
    on_u, on_v = (u + su * radius, v), (u, v + sv * radius)
    far = (tip[0], tip[1])
    walk: tuple[Point2, ...] = (on_u, (far[0], v), far, (u, far[1]), on_v)
    lines = tuple(LineEdge(a, b) for a, b in pairwise(walk))
    arc = ArcEdge(on_v, on_u, corner.centre, su * sv < 0)
    return (_through(drawn, corner.face, loops.chain((*lines, arc))),)


def _rounded_end(end: RoundedEnd, drawn: Drawn) -> Volume:
    """Return what lies beyond the half circle, over the whole width of the stock."""
    along = end.face.in_plane.index(end.side.axis)
    low, high = drawn.rectangle(end.face.axis)
    radius, middle, across = end.radius.nominal_mm, end.centre[along], end.centre[1 - along]
    far = drawn.past_stock(end.side)
    bottom, top = low[1 - along], high[1 - along]
    flat = [
        (middle, across - radius),
        (middle, bottom),
        (far, bottom),
        (far, top),
        (middle, top),
        (middle, across + radius),
    ]
    walk = [(a, b) if along == 0 else (b, a) for a, b in flat]
    lines = tuple(LineEdge(a, b) for a, b in pairwise(walk))
    clockwise = (end.side.sign > 0) == (along == 0)
    arc = ArcEdge(walk[-1], walk[0], end.centre, not clockwise)
    return (_through(drawn, end.face, loops.chain((*lines, arc))),)


def _ring_groove(groove: RingGroove, drawn: Drawn) -> Volume:
    outer = CircleLoop(groove.centre, drawn.opening(groove.outer) / 2)
    inner = CircleLoop(groove.centre, drawn.standing(groove.inner) / 2)
    return (_slab(drawn, groove.face, outer, groove.floor.nominal_mm, (inner,)),)


def _edge_chamfer(chamfer: EdgeChamfer, drawn: Drawn) -> Volume:
    """Return a half plane beyond each bevel: it meets the finished envelope in the bevel alone."""
    found = []
    for slope in slopes(chamfer, drawn.part.box):
        outer = loops.half_plane(slope.line, slope.outward, *drawn.rectangle(slope.axis))
        if outer:
            found.append(_through(drawn, _side(slope.axis, 1), outer))
    return tuple(found)


def _nothing(mark: Mark, drawn: Drawn) -> Volume:  # noqa: ARG001 - the same signature as all kinds
    return ()


def _side(axis: int, sign: int) -> Face:
    return FACE_OF[(axis, sign)]


_KINDS: dict[str, Callable[[Any, Drawn], Volume]] = {
    "hole": hole_volume,
    "level": _level,
    "round boss": _round_boss,
    "pocket": _pocket,
    "slot": _slot,
    "edge cut": _edge_cut,
    "corner radius": _corner_radius,
    "rounded end": _rounded_end,
    "ring groove": _ring_groove,
    "edge chamfer": _edge_chamfer,
    "mark": _nothing,
}
