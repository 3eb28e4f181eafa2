"""The second pass over the features: what can only be known once all of them are there.

What a level leaves standing, the floor of a feature whose depth was written, and the finished surface
at each mouth and exit.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from setupsheet.length import default_places, plain
from setupsheet.part.face import Box, Face
from setupsheet.part.feature import Feature, Hole, Keep, Level, Pocket, RingGroove, RoundBoss, Size, Slot, Spot
from setupsheet.part.shape import CircleShape
from setupsheet.plane import Point2
from setupsheet.spec.build_area import area_of, keeps
from setupsheet.spec.build_point import Points
from setupsheet.spec.desk import Desk
from setupsheet.spec.heights import Surfaces, deepest
from setupsheet.spec.shape_edge import outline_points
from setupsheet.spec.tree import Mapping, Node, Scalar

_NOISE = 1e-6


@dataclass(frozen=True, slots=True)
class Draft:
    """A feature as far as it could be built, and the text it came from."""

    feature: Feature
    node: Mapping


def finish(desk: Desk, points: Points, box: Box, drafts: list[Draft]) -> tuple[Feature, ...]:
    """Return the finished features in the order written."""
    standing = [_with_leave(desk, points, draft, drafts) for draft in drafts]
    first = Surfaces(box, (draft.feature for draft in standing if not _measured_by_depth(draft.feature)))
    sunk = [_sink(desk, first, draft) for draft in standing]
    final = Surfaces(box, (draft.feature for draft in sunk))
    return tuple(_open(desk, final, draft) for draft in sunk)


def _with_leave(desk: Desk, points: Points, draft: Draft, drafts: list[Draft]) -> Draft:
    """Put in what a level or a pocket leaves standing: what its text names, and every round boss."""
    feature = draft.feature
    if not isinstance(feature, Level | Pocket):
        return draft
    desk.feature = feature.id
    same_face = [
        other.feature for other in drafts if other.feature.face is feature.face and other.feature.id != feature.id
    ]
    shapes = {other.id: shape for other in same_face if (shape := area_of(other)) is not None}
    found = keeps(desk, points, draft.node, feature.face, shapes) if "leave" in draft.node.entries else ()
    named = {keep.feature for keep in found}
    bosses = (boss for boss in same_face if isinstance(boss, RoundBoss) and boss.id not in named)
    if isinstance(feature, Level):
        found += tuple(Keep(CircleShape(boss.at, boss.diameter.nominal_mm), boss.id) for boss in bosses)
    return Draft(replace(feature, leave=found), draft.node)


def _measured_by_depth(feature: Feature) -> bool:
    return isinstance(feature, Pocket | Slot | RingGroove) and feature.depth is not None


def _sink(desk: Desk, surfaces: Surfaces, draft: Draft) -> Draft:
    """Turn a depth into a floor, measured from the finished surface over the area."""
    feature = draft.feature
    if not isinstance(feature, Pocket | Slot | RingGroove):
        return draft
    desk.feature = feature.id
    shape = area_of(feature)
    inside = (
        [point for point in outline_points(shape, 0.001) if _over(surfaces.box, feature.face, point)] if shape else []
    )
    heights = sorted(
        {round(surfaces.at(feature.face, point, feature.id), 6) for point in inside}, reverse=feature.face.sign > 0
    )
    mouth = _mouth(desk, draft, heights or [surfaces.box.at(feature.face)], feature.depth is not None)
    floor = feature.floor
    if feature.depth is not None and floor is not None:
        floor = _below(mouth, feature.face, feature.depth)
    if isinstance(feature, RingGroove):
        return Draft(replace(feature, mouth_mm=mouth, floor=floor or feature.floor), draft.node)
    exit_mm = surfaces.box.at(feature.face.opposite)
    if floor is None and inside:
        exit_mm = deepest(feature.face, (surfaces.at(feature.face.opposite, point) for point in inside))
    return Draft(replace(feature, mouth_mm=mouth, floor=floor, exit_mm=exit_mm), draft.node)


def _below(mouth: float, face: Face, depth: Size) -> Size:
    """Return the floor that lies ``depth`` in from a mouth, with the depth's own limits."""
    ends = sorted((mouth - face.sign * depth.lower_mm, mouth - face.sign * depth.upper_mm))
    nominal = round(mouth - face.sign * depth.nominal_mm, 9)
    return replace(depth, nominal_mm=nominal, lower_mm=round(ends[0], 9), upper_mm=round(ends[1], 9))


def _over(box: Box, face: Face, point: Point2) -> bool:
    first, second = face.in_plane
    return (
        box.low[first] - _NOISE <= point[0] <= box.high[first] + _NOISE
        and box.low[second] - _NOISE <= point[1] <= box.high[second] + _NOISE
    )


def _mouth(desk: Desk, draft: Draft, heights: list[float], must_be_one: bool) -> float:
    """Return the height of a mouth: as written by ``height:``, else the one surface that is there."""
    written = draft.node.get("height")
    if written is not None:
        return _written_height(desk, written, heights)
    if len(heights) > 1 and must_be_one:
        texts = list(dict.fromkeys(_shown(desk, height) for height in heights))
        shown = " and ".join(texts) if len(texts) < 4 else f"from {texts[0]} to {texts[-1]}"
        desk.wrong(
            "mouth-on-two-heights",
            f"the mouth lies on heights {shown} {desk.unit.short}; from which one does the depth count?",
            draft.node.place,
            found=shown,
            allowed="one height",
            try_=f"write height: {texts[0]}, or move the feature",
        )
    return heights[0]


def _shown(desk: Desk, height_mm: float) -> str:
    """Return a height in the spec's unit."""
    return plain(height_mm / float(desk.unit.mm), default_places(desk.unit))


def _written_height(desk: Desk, node: Node, heights: list[float]) -> float:
    height = desk.mm(node)
    if isinstance(node, Scalar) and all(abs(height - found) > 1e-3 for found in heights):
        desk.wrong(
            "no-surface-at-height",
            f"no finished surface lies at {node.text} here",
            node.place,
            found=node.text,
            allowed=" or ".join(f"{_shown(desk, found)} {desk.unit.short}" for found in heights[:4]),
            try_=f"write height: {_shown(desk, heights[0])}",
        )
    return height


def _open(desk: Desk, surfaces: Surfaces, draft: Draft) -> Feature:
    """Put the finished surfaces into the spots of a hole."""
    feature = draft.feature
    if not isinstance(feature, Hole):
        return feature
    desk.feature = feature.id
    spots: list[Spot] = []
    told = False
    for spot in feature.spots:
        before = len(desk.findings)
        spots.append(_spot(desk, surfaces, draft, feature, spot, quiet=told))
        told = told or len(desk.findings) > before
    return replace(feature, spots=tuple(spots))


def _spot(desk: Desk, surfaces: Surfaces, draft: Draft, hole: Hole, spot: Spot, *, quiet: bool) -> Spot:
    face = hole.face
    radius = mouth_radius(hole)
    heights = list(surfaces.under(face, spot.at, radius))
    sloped = surfaces.on_bevel(face, spot.at, radius)
    if sloped and draft.node.get("height") is None and not quiet:
        desk.wrong(
            "mouth-on-slope",
            f"{spot.label} opens in a bevel; from which height does its depth count?",
            draft.node.place,
            found="a sloping surface",
            allowed="a height",
            try_=f"write height: {heights[0]:g}, or move the hole",
        )
    mouth = heights[0] if quiet else _mouth(desk, draft, heights, must_be_one=not sloped)
    if hole.through:
        ends = surfaces.under(face.opposite, spot.at, hole.diameter.nominal_mm / 2)
        return Spot(spot.label, spot.at, mouth, deepest(face, ends))
    return Spot(spot.label, spot.at, mouth, round(mouth - face.sign * (hole.depth_mm or 0.0), 9))


def mouth_radius(hole: Hole) -> float:
    """Return the radius of a hole's largest circle at its mouth, mm."""
    sizes = [hole.diameter.nominal_mm]
    if hole.counterbore:
        sizes.append(hole.counterbore.diameter.nominal_mm)
    if hole.countersink and hole.countersink.end == "mouth":
        sizes.append(hole.countersink.diameter.nominal_mm)
    sizes += [chamfer.diameter_mm for chamfer in hole.chamfers if chamfer.end == "mouth"]
    return max(sizes) / 2
