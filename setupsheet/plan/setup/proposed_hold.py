"""How a proposed setup is held: how deep the jaws grip, which end hangs out, whether the vise opens far enough."""

from __future__ import annotations

from setupsheet.finding import Place
from setupsheet.part.face import Face
from setupsheet.part.feature import CornerRadius, EdgeCut, Feature, Level, Pocket, RoundedEnd, Slot
from setupsheet.part.part import HoldAsked, Part, Rest
from setupsheet.part.shape import BoxShape, CircleShape, PolygonShape, Shape, SlotShape
from setupsheet.part.shop import Shop
from setupsheet.plan.milling.sides import OVER_JAW_MM, PAST_MM
from setupsheet.plan.setup.hold import LEAST_GRIP_MM
from setupsheet.plane import Point2
from setupsheet.solid.laid import Laid

OVER_JAWS_MM = 2.0
"""How far the lowest open floor stays over the jaws. Common practice, no source."""

BETWEEN_MM = 2 * OVER_JAW_MM + PAST_MM
"""Sides that are cut from both ends meet where neither grip hides them: over the jaws twice, and once past."""

UNDER_MM = 10.0
"""Height of the packing under a part on the table. Common practice, no source."""

PAST_END_MM = 15.0
"""How far past a rounded or cut end the jaws stop: a cutter of 12, and clear of it. Common practice, no source."""

_SLANTED = 1e-6
"""Below this share an edge does not face along an axis."""


def hold_for(part: Part, shop: Shop, laid: Laid, here: tuple[Feature, ...], low_grip: bool) -> HoldAsked | None:
    """Return how a setup is held, None where the shop has nothing to choose from.

    ``here`` is what is cut in it; ``low_grip`` tells that the sides are cut too, so that the jaws stay low.
    """
    place = Place(part.source_file)
    notches = _deep_notches(part, shop, laid, here)
    out = {face: mm for face, mm in _ends(part, laid, here).items() if laid.where(face)[0] == 0}
    for notch in notches.values():
        for face, reach in notch.items():
            out[face] = max(out.get(face, 0.0), reach + PAST_END_MM)
    overhang = out if len(out) == 1 else {}
    over_jaws = tuple(f for f in here if not (overhang and f.id in notches))
    grip = _grip(part, shop, laid, over_jaws, low_grip)
    return HoldAsked("vise", grip, None, overhang, place) if grip or overhang else None


def hanging_out(part: Part, end: Face, held: HoldAsked | None) -> HoldAsked:
    """Return a hold with one end of the stock past the jaws, so far that a cutter goes right down beside it."""
    out = part.stock.remove_mm.get(end, 0.0) + PAST_END_MM
    grip = held.grip_mm if held else None
    return HoldAsked("vise", grip, None, {end: out}, Place(part.source_file))


def on_packing(place: Place) -> HoldAsked:
    """Return a hold on the table, high enough that drills come out in the open."""
    return HoldAsked("table", None, Rest("packing", "", UNDER_MM), {}, place)


def deepest_grip(shop: Shop) -> float:
    """Return how deep the jaws grip on the lowest parallels, 0 without a vise."""
    if not shop.vises:
        return 0.0
    return shop.vises[0].jaw_height_mm - min((p.height_mm for p in shop.parallels), default=0.0)


def least_grip(shop: Shop) -> float:
    """Return the lowest grip that the shop's parallels give and that holds a part."""
    if not shop.vises:
        return LEAST_GRIP_MM
    grips = [shop.vises[0].jaw_height_mm - parallel.height_mm for parallel in shop.parallels]
    return min((grip for grip in grips if grip >= LEAST_GRIP_MM - 1e-6), default=LEAST_GRIP_MM)


def edges_by_end(part: Part, laid: Laid, here: tuple[Feature, ...]) -> dict[Face, tuple[str, ...]]:
    """Return the ids of the edges that have to hang out, by the end of the part that they are at."""
    found: dict[Face, list[str]] = {}
    for feature in here:
        if isinstance(feature, CornerRadius | RoundedEnd | EdgeCut) and feature.face.axis == laid.up.axis:
            for face, _ in _reach(part, feature):
                if laid.where(face)[0] == 0:
                    found.setdefault(face, []).append(feature.id)
    return {face: tuple(ids) for face, ids in found.items()}


def fits_vise(shop: Shop, width_mm: float) -> bool:
    """Tell whether the vise opens that far."""
    return bool(shop.vises) and width_mm <= shop.vises[0].opening_mm


def _grip(part: Part, shop: Shop, laid: Laid, here: tuple[Feature, ...], low_grip: bool) -> float | None:
    """Return the deepest grip that the shop's parallels give without the jaws standing in the way; else nearest."""
    if not shop.vises or not shop.parallels:
        return None
    height = part.box.size[laid.up.axis]
    most = height - _open_depth(part, laid, here) - OVER_JAWS_MM
    least = max(LEAST_GRIP_MM, height / 3)
    grips = [shop.vises[0].jaw_height_mm - parallel.height_mm for parallel in shop.parallels]
    fit = sorted(grip for grip in grips if least - 1e-6 <= grip <= most + 1e-6)
    both = min((height - BETWEEN_MM) / 2, most)
    if low_grip and fit and fit[0] > both:
        fit = [max((grip for grip in grips if LEAST_GRIP_MM - 1e-6 <= grip <= both + 1e-6), default=fit[0])]
    if fit:
        return fit[0] if low_grip else next((g for g in fit if g >= height / 2), fit[-1])
    usable = [grip for grip in grips if 0 < grip <= most + 1e-6]
    return min(usable, key=lambda grip: abs(grip - least)) if usable else None


def _open_depth(part: Part, laid: Laid, here: tuple[Feature, ...]) -> float:
    """Return how far below the finished top the deepest floor lies that runs out over a side at the jaws."""
    top = part.box.at(laid.up)
    depths = [0.0]
    for feature in here:
        if isinstance(feature, Level | Pocket | Slot) and feature.face is laid.up:
            shape = feature.area if isinstance(feature, Level) else feature.shape
            floor = feature.height if isinstance(feature, Level) else feature.floor
            bottom = floor.nominal_mm if floor else part.box.at(laid.up.opposite)
            if shape is None or _meets_jaws(part, laid, shape):
                depths.append(abs(top - bottom))
    return max(depths)


def _deep_notches(part: Part, shop: Shop, laid: Laid, here: tuple[Feature, ...]) -> dict[str, dict[Face, float]]:
    """Return the openings at an end that leave no jaw room below them: by id, the end and how far in they reach."""
    most = part.box.size[laid.up.axis] - least_grip(shop) - OVER_JAWS_MM
    found = {}
    for feature in here:
        if isinstance(feature, Pocket | Slot) and feature.face is laid.up and _meets_jaws(part, laid, feature.shape):
            ends = _ends_met(part, laid, feature.shape)
            if len(ends) == 1 and _open_depth(part, laid, (feature,)) > most + 1e-6:
                found[feature.id] = ends
    return found


def _ends_met(part: Part, laid: Laid, shape: Shape) -> dict[Face, float]:
    """Return the ends of the part, along the jaws, that an area runs out over, and how far in from them it reaches."""
    at = [point[0] for point in _extent(laid.shape(shape))]
    box = laid.box(part.box)
    reach = {
        -1: (min(at) <= box.low[0] + 1e-6, max(at) - box.low[0]),
        1: (max(at) >= box.high[0] - 1e-6, box.high[0] - min(at)),
    }
    faces = {laid.where(face): face for face in Face}
    return {faces[(0, sign)]: inward for sign, (met, inward) in reach.items() if met}


def _meets_jaws(part: Part, laid: Laid, shape: Shape) -> bool:
    """Tell whether an area runs out over one of the two sides that the jaws hold."""
    ends = [point[1] for point in _extent(laid.shape(shape))]
    box = laid.box(part.box)
    return min(ends) <= box.low[1] + 1e-6 or max(ends) >= box.high[1] - 1e-6


def _extent(shape: Shape) -> tuple[tuple[float, float], ...]:
    """Return points between which a shape lies."""
    if isinstance(shape, BoxShape):
        return shape.low, shape.high
    if isinstance(shape, PolygonShape):
        return shape.corners
    centres, half = ((shape.start, shape.end), shape.width_mm / 2) if isinstance(shape, SlotShape) else _round(shape)
    return tuple((x + side * half, y + side * half) for x, y in centres for side in (-1, 1))


def _round(circle: CircleShape) -> tuple[tuple[tuple[float, float], ...], float]:
    return (circle.centre,), circle.diameter_mm / 2


def _ends(part: Part, laid: Laid, here: tuple[Feature, ...]) -> dict[Face, float]:
    """Return the ends of the part that edge work goes right down at, and how far they have to hang out."""
    found: dict[Face, float] = {}
    for feature in here:
        if isinstance(feature, CornerRadius | RoundedEnd | EdgeCut) and feature.face.axis == laid.up.axis:
            for face, reach in _reach(part, feature):
                found[face] = max(found.get(face, 0.0), reach + PAST_END_MM)
    return found


def _reach(part: Part, feature: CornerRadius | RoundedEnd | EdgeCut) -> list[tuple[Face, float]]:
    """Return at which faces an edge feature takes metal, and how far in from them."""
    axes = feature.face.in_plane
    if isinstance(feature, RoundedEnd):
        at = feature.centre[axes.index(feature.side.axis)]
        return [(feature.side, abs(part.box.at(feature.side) - at))]
    towards: tuple[float, float]
    inner: tuple[Point2, ...]
    if isinstance(feature, CornerRadius):
        towards, inner = feature.quadrant, (feature.centre,)
    else:
        towards, inner = feature.towards, feature.line
    rows = []
    for index, axis in enumerate(axes):
        if abs(towards[index]) > _SLANTED:
            face = next(f for f in Face if f.axis == axis and f.sign == (1 if towards[index] > 0 else -1))
            edge = part.box.at(face)
            rows.append((face, max(abs(edge - point[index]) for point in inner)))
    return rows
