"""What a drawing must say of each feature: one function a kind, from the part alone.

``completeness.py`` compares this list with the ink; nothing here knows what was drawn.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from setupsheet.drawing.corners import bounds_of, coordinates, is_on, round_size, sharp_corners
from setupsheet.part.face import Face
from setupsheet.part.feature import (
    BoltCircle,
    CornerRadius,
    EdgeChamfer,
    EdgeCut,
    Feature,
    Hole,
    Level,
    Mark,
    Pocket,
    RingGroove,
    RoundBoss,
    RoundedEnd,
    Slot,
)
from setupsheet.part.geometry import FaceAsked
from setupsheet.part.part import Part
from setupsheet.part.shape import BoxShape
from setupsheet.plane import Point2

AXES = "xyz"


@dataclass(frozen=True, slots=True)
class Need:
    """One size: of which feature, what it is, and its value in mm, degrees or as a count.

    A place (``what`` is x, y or z) is met by any dimension of that axis with that value, whichever
    feature carries it; every other size by a dimension of the same feature only.
    """

    feature: str
    what: str
    value: float

    @property
    def is_place(self) -> bool:
        """Whether this is a coordinate of the part."""
        return self.what in ("x", "y", "z")


def given(sizes: tuple[Need, ...]) -> tuple[tuple[str, str, float], ...]:
    """Return sizes as a dimension of the ink carries them."""
    return tuple((need.feature, need.what, need.value) for need in dict.fromkeys(sizes))


def needs(part: Part) -> tuple[Need, ...]:
    """Return every size of the part, in the order of its features."""
    found = [*_envelope(part)]
    for feature in part.features:
        found += [need for need in NEEDS[feature.kind](feature, part) if not _is_origin(need)]
    for asked in part.faces:
        found += face_needs(asked)
    return tuple(dict.fromkeys(found))


def _is_origin(need: Need) -> bool:
    return need.is_place and abs(need.value) < 1e-9


def _envelope(part: Part) -> list[Need]:
    """Return the three overall sizes."""
    return [Need("part", f"overall {AXES[axis]}", part.box.size[axis]) for axis in range(3)]


def place(face: Face, at: Point2, feature: str) -> list[Need]:
    """Return the two coordinates of a point that lies in a face."""
    return [Need(feature, AXES[axis], value) for axis, value in zip(face.in_plane, at, strict=True)]


def _height(face: Face, value: float, feature: str) -> Need:
    return Need(feature, AXES[face.axis], value)


def _area(part: Part, face: Face, shape: Any, feature: str) -> list[Need]:
    bounds = bounds_of(part, face)
    found = [Need(feature, AXES[face.in_plane[axis]], value) for axis, value in coordinates(shape, bounds)]
    size, corners = round_size(shape), sharp_corners(shape)
    seen = not corners or any(is_on(corner, bounds) for corner in corners)
    return [*found, Need(feature, size[0], size[1])] if size and seen else found


def _hole(hole: Hole, _part: Part) -> list[Need]:
    found = _hole_places(hole)
    found.append(Need(hole.id, "thread", hole.thread.major_mm) if hole.thread else _diameter(hole))
    if len(hole.spots) > 1:
        found.append(Need(hole.id, "count", len(hole.spots)))
    if not hole.through:
        found.append(Need(hole.id, "depth", hole.depth_mm or 0.0))
        if hole.thread and hole.drill_depth_mm:
            found.append(Need(hole.id, "drill depth", hole.drill_depth_mm))
    return found + _hole_mouths(hole)


def _diameter(hole: Hole) -> Need:
    return Need(hole.id, "diameter", hole.diameter.nominal_mm)


def _hole_mouths(hole: Hole) -> list[Need]:
    found: list[Need] = []
    if hole.counterbore:
        found.append(Need(hole.id, "counterbore diameter", hole.counterbore.diameter.nominal_mm))
        found.append(Need(hole.id, "counterbore depth", hole.counterbore.depth_mm))
    if hole.countersink:
        found.append(Need(hole.id, "countersink diameter", hole.countersink.diameter.nominal_mm))
        found.append(Need(hole.id, "countersink angle", hole.countersink.angle_deg))
    found += [Need(hole.id, f"chamfer {c.end}", c.diameter_mm) for c in hole.chamfers]
    if hole.position:
        found.append(Need(hole.id, "position", hole.position.zone_mm))
    return found + geometry_needs(hole)


def geometry_needs(feature: Hole | RoundBoss) -> list[Need]:
    """Return the zones of a feature's geometrical tolerances."""
    return [Need(feature.id, geometry.what, geometry.zone_mm) for geometry in feature.geometry]


def face_needs(asked: FaceAsked) -> tuple[Need, ...]:
    """Return what the drawing says of an outer face: its finish, its geometrical tolerances."""
    id_ = f"{asked.face} face"
    finish = (Need(id_, "note", 0.0),) if asked.finish else ()
    return (*finish, *(Need(id_, geometry.what, geometry.zone_mm) for geometry in asked.geometry))


def _hole_places(hole: Hole) -> list[Need]:
    pattern = hole.pattern
    if isinstance(pattern, BoltCircle):
        found = place(hole.face, pattern.centre, hole.id)
        found += [Need(hole.id, "pcd", pattern.pcd_mm), Need(hole.id, "start", pattern.start_deg % 360)]
        return found
    return [need for spot in hole.spots for need in place(hole.face, spot.at, hole.id)]


def _level(level: Level, part: Part) -> list[Need]:
    found = [_height(level.face, level.height.nominal_mm, level.id)]
    if level.area is not None:
        found += _area(part, level.face, level.area, level.id)
    for keep in level.leave:
        if not keep.feature:
            found += _area(part, level.face, keep.shape, level.id)
    return found


def _round_boss(boss: RoundBoss, _part: Part) -> list[Need]:
    return [
        *place(boss.face, boss.at, boss.id),
        Need(boss.id, "diameter", boss.diameter.nominal_mm),
        _height(boss.face, boss.top.nominal_mm, boss.id),
        *geometry_needs(boss),
    ]


def _pocket(pocket: Pocket, part: Part) -> list[Need]:
    found = _area(part, pocket.face, pocket.shape, pocket.id)
    for keep in pocket.leave:
        if not keep.feature:
            found += _area(part, pocket.face, keep.shape, pocket.id)
    if toleranced_side(pocket) is not None and pocket.width is not None:
        found.append(Need(pocket.id, "width", pocket.width.nominal_mm))
    if pocket.floor is not None:
        found.append(_height(pocket.face, pocket.floor.nominal_mm, pocket.id))
    return found


def toleranced_side(pocket: Pocket) -> int | None:
    """Return which side of a box pocket (0 or 1) has the width that the author wrote, None if none has."""
    if pocket.width is None or not isinstance(pocket.shape, BoxShape):
        return None
    low, high = pocket.shape.low, pocket.shape.high
    return next((k for k in (1, 0) if abs(high[k] - low[k] - pocket.width.nominal_mm) < 1e-6), None)


def _slot(slot: Slot, part: Part) -> list[Need]:
    found = [Need(slot.id, "width", slot.width.nominal_mm)]
    low, high = bounds_of(part, slot.face)
    ends = (slot.shape.start, slot.shape.end)
    closed = [p for p in ends if all(low[i] < p[i] < high[i] for i in (0, 1))]
    for point in closed:
        found += place(slot.face, point, slot.id)
    if not closed:
        across = 1 if abs(ends[1][0] - ends[0][0]) > 1e-9 else 0
        found.append(place(slot.face, ends[0], slot.id)[across])
    if slot.floor is not None:
        found.append(_height(slot.face, slot.floor.nominal_mm, slot.id))
    return found


def _edge_cut(cut: EdgeCut, _part: Part) -> list[Need]:
    if cut.distance is not None:
        return [Need(cut.id, "distance", cut.distance.nominal_mm)]
    (a, b), i = cut.line, cut.face.in_plane
    if cut.side is not None:
        along = i.index(cut.side.axis)
        return [Need(cut.id, AXES[cut.side.axis], a[along])]
    return [*place(cut.face, a, cut.id), *place(cut.face, b, cut.id)]


def _corner_radius(corner: CornerRadius, _part: Part) -> list[Need]:
    return [Need(corner.id, "radius", corner.radius.nominal_mm)]


def _rounded_end(end: RoundedEnd, _part: Part) -> list[Need]:
    return [Need(end.id, "radius", end.radius.nominal_mm), *place(end.face, end.centre, end.id)]


def _ring_groove(groove: RingGroove, _part: Part) -> list[Need]:
    return [
        *place(groove.face, groove.centre, groove.id),
        Need(groove.id, "inner diameter", groove.inner.nominal_mm),
        Need(groove.id, "outer diameter", groove.outer.nominal_mm),
        _height(groove.face, groove.floor.nominal_mm, groove.id),
    ]


def _edge_chamfer(chamfer: EdgeChamfer, _part: Part) -> list[Need]:
    return [Need(chamfer.id, "chamfer", chamfer.size.nominal_mm)]


def _mark(mark: Mark, _part: Part) -> list[Need]:
    return [Need(mark.id, "note", 0.0)]


NEEDS: dict[str, Callable[[Any, Part], list[Need]]] = {
    "hole": _hole,
    "level": _level,
    "round boss": _round_boss,
    "pocket": _pocket,
    "slot": _slot,
    "edge cut": _edge_cut,
    "corner radius": _corner_radius,
    "rounded end": _rounded_end,
    "ring groove": _ring_groove,
    "edge chamfer": _edge_chamfer,
    "mark": _mark,
}
"""One row a kind of feature."""


def feature_of(part: Part, id_: str) -> Feature | None:
    """Return the feature with this id, None for the part itself."""
    return next((feature for feature in part.features if feature.id == id_), None)
