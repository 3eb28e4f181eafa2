"""Rules on levels, pockets, slots, grooves and bosses."""

from __future__ import annotations

from setupsheet.part.feature import EdgeCut, Feature, Level, Pocket, RingGroove, RoundBoss, Size, Slot
from setupsheet.part.shape import BoxShape, CircleShape, PolygonShape
from setupsheet.plane import Point2, distance
from setupsheet.spec.build_area import area_of
from setupsheet.spec.case import NOISE, Case, along
from setupsheet.spec.shape_edge import bounds, edge_distance, outline_points


def _floor(feature: Feature) -> Size | None:
    if isinstance(feature, Level):
        return feature.height
    if isinstance(feature, Pocket | Slot | RingGroove):
        return feature.floor
    return feature.top if isinstance(feature, RoundBoss) else None


def height_out_of_part(case: Case) -> None:
    """Test that a floor or a boss's top lies between the finished face and the face opposite."""
    for feature in case.part.features:
        floor = _floor(feature)
        if floor is None:
            continue
        face = feature.face
        above = (floor.nominal_mm - case.box.at(face)) * face.sign
        raw = case.part.stock.box.at(face)
        low, high = (case.shown(case.box.at(side)) for side in (face.opposite, face))
        what = "top" if isinstance(feature, RoundBoss) else "floor"
        shown = case.shown(floor.nominal_mm)
        if above > NOISE:
            stock = "the stock" if (floor.nominal_mm - raw) * face.sign > NOISE else f"the finished {face} face"
            case.wrong(
                feature.id,
                "height-above-part",
                f"{case.shown(above)} above the finished {face} face lies the {what}, at {along(face)} {shown}",
                case.place(feature, "to", "top", "depth"),
                found=f"{floor.written} (over {stock})",
                allowed=f"{along(face)} from {low} to {high}",
                try_="heights count from the origin, not from the stock's top",
            )
        elif (floor.nominal_mm - case.box.at(face.opposite)) * face.sign < NOISE:
            case.wrong(
                feature.id,
                "height-below-part",
                f"the {what} at {along(face)} {shown} leaves no metal under it",
                case.place(feature, "to", "top", "depth"),
                found=floor.written,
                allowed=f"{along(face)} between {low} and {high}",
                try_="through: true for a window",
            )


def area_outside_part(case: Case) -> None:
    """Test that an area has to meet the part."""
    for feature in case.part.features:
        shape = area_of(feature)
        if shape is None or isinstance(feature, RoundBoss):
            continue
        low, high = bounds(shape)
        first, second = feature.face.in_plane
        box = case.part.stock.box
        if (
            high[0] <= box.low[first]
            or low[0] >= box.high[first]
            or high[1] <= box.low[second]
            or low[1] >= box.high[second]
        ):
            case.wrong(
                feature.id,
                "area-outside-part",
                "the area lies wholly beside the part",
                case.place(feature, "area", "centres", "at"),
                found=f"{case.shown(low[0])} to {case.shown(high[0])}, {case.shown(low[1])} to {case.shown(high[1])}",
                allowed=", ".join(
                    f"{case.shown(box.low[axis])} to {case.shown(box.high[axis])}" for axis in (first, second)
                ),
            )


_ON_EDGE_MM = 0.01
"""A wall thinner than this cannot be made: the pocket ends on the edge."""


def pocket_ends_on_edge(case: Case) -> None:
    """Test that no rounded side of a pocket ends on an edge of the part: metal of no thickness would stand there."""
    for pocket in case.each(Pocket):
        shape = pocket.shape
        if not isinstance(shape, CircleShape) and not (isinstance(shape, BoxShape) and shape.corner_radius_mm):
            continue
        ends = bounds(shape)
        for index, axis in enumerate(pocket.face.in_plane):
            for end, edge, out in ((ends[0], case.box.low[axis], -1), (ends[1], case.box.high[axis], 1)):
                if abs(end[index] - edge) < _ON_EDGE_MM:
                    _ends_on_edge(case, pocket, "xyz"[axis], edge, out)


def _ends_on_edge(case: Case, pocket: Pocket, axis: str, edge: float, out: int) -> None:
    shape, shown = pocket.shape, case.shown(edge)
    past = edge + out * 2 * shape.corner_radius_mm if isinstance(shape, BoxShape) else 0.0
    case.wrong(
        pocket.id,
        "pocket-ends-on-edge",
        f"the round of {pocket.id} ends on the edge of the part, at {axis} {shown}: a feather edge would stand there",
        case.place(pocket, "area"),
        found=f"{axis} {shown}",
        allowed="an end inside the part, or one well past its edge",
        try_=f"{axis} {case.shown(past)} in place of {shown} opens it to that side"
        if isinstance(shape, BoxShape)
        else "make it smaller, or move it",
        because="metal of no thickness cannot be milled, and its edge cuts fingers",
    )


def level_without_effect(case: Case) -> None:
    """Test that a level that a deeper one takes away altogether was meant to be left standing."""
    levels = list(case.each(Level))
    for level in levels:
        if level.area is None or (level.height.nominal_mm - case.box.at(level.face)) * level.face.sign > -NOISE:
            continue
        points = [
            point
            for point in outline_points(level.area, 0.01)
            if all(edge_distance(point, keep.shape) > 0 for keep in level.leave)
        ]
        if not points or any(
            abs(case.surfaces.at(level.face, point) - level.height.nominal_mm) < NOISE for point in points
        ):
            continue
        deeper = _deeper_at(case, level, points[0])
        case.wrong(
            level.id,
            "level-without-effect",
            f"nothing of {level.id} at {case.shown(level.height.nominal_mm)} is left: {deeper} goes deeper there",
            level.place,
            found=f"{deeper} cuts it away",
            allowed="the deeper one leaves this area standing",
            try_=f"add leave: [{level.id}] to {deeper}",
        )


def _deeper_at(case: Case, level: Level, point: Point2) -> str:
    surface = case.surfaces.at(level.face, point)
    for feature in case.part.features:
        floor = _floor(feature)
        if (
            floor is not None
            and feature.face is level.face
            and feature.id != level.id
            and abs(floor.nominal_mm - surface) < NOISE
        ):
            return feature.id
    return "another feature"


def pocket_corner(case: Case) -> None:
    """Test that an inside corner has a radius: no milling cutter makes a sharp one."""
    for pocket in case.each(Pocket):
        shape = pocket.shape
        if not isinstance(shape, BoxShape | PolygonShape):
            continue
        largest = _largest_radius(shape)
        radius = shape.corner_radius_mm
        place = case.place(pocket, "corner-radius")
        if radius <= 0:
            case.wrong(
                pocket.id,
                "corner-radius-missing",
                f"the corners need a radius; up to {case.shown(largest)} fits",
                place,
                found="sharp inside corners",
                allowed=f"corner-radius: up to {case.shown(largest)}",
                try_=f"corner-radius: {case.shown(min(largest, _usual(largest))).split()[0]}",
                because="a milling cutter is round",
            )
        elif radius > largest + NOISE:
            case.wrong(
                pocket.id,
                "corner-radius-too-large",
                f"a radius of {case.shown(radius)} does not fit; the shortest side takes {case.shown(largest)}",
                place,
                found=case.shown(radius),
                allowed=f"up to {case.shown(largest)}",
            )


def _largest_radius(shape: BoxShape | PolygonShape) -> float:
    """Return the radius at which the shortest side of an area is used up."""
    if isinstance(shape, BoxShape):
        return min(shape.high[0] - shape.low[0], shape.high[1] - shape.low[1]) / 2
    corners = shape.corners
    return min(distance(a, b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True)) / 2


def _usual(largest: float) -> float:
    """Return a radius that leaves room for a cutter to move: three quarters of the largest, on half millimetres."""
    return max(0.5, int(largest * 1.5) / 2)


def boss_cut(case: Case) -> None:
    """Test that a round boss stands: no pocket, slot or edge cut may enter it."""
    for boss in case.each(RoundBoss):
        radius = boss.diameter.nominal_mm / 2
        for feature in case.part.features:
            if feature.face.axis != boss.face.axis:
                continue
            into = _reach_into(feature, boss, radius)
            if into <= NOISE or (isinstance(feature, Pocket | Slot) and _below(feature, boss)):
                continue
            case.wrong(
                feature.id,
                "boss-cut",
                f"{feature.id} goes {case.shown(into)} into the boss {boss.id}",
                case.place(feature, "area", "centres", "line", "distance", "to"),
                found=f"{case.shown(into)} inside its {case.shown(2 * radius)} cylinder",
                allowed="0: a round boss is left standing",
                try_="move the cut, or make the boss smaller",
            )


def _reach_into(feature: Feature, boss: RoundBoss, radius: float) -> float:
    """Return how far a feature reaches into a boss, mm; 0 or less where it stays clear."""
    if isinstance(feature, EdgeCut):
        start = feature.line[0]
        gap = (start[0] - boss.at[0]) * feature.towards[0] + (start[1] - boss.at[1]) * feature.towards[1]
        return radius - gap
    if isinstance(feature, Pocket | Slot) and feature.face is boss.face:
        return radius - edge_distance(boss.at, feature.shape) if not _around(feature, boss) else 0.0
    return 0.0


def _around(feature: Pocket | Slot, boss: RoundBoss) -> bool:
    """Tell whether a pocket runs round the boss and leaves it standing."""
    return isinstance(feature, Pocket) and any(keep.feature == boss.id for keep in feature.leave)


def _below(feature: Pocket | Slot, boss: RoundBoss) -> bool:
    """Tell whether a floor is no deeper than the boss's top."""
    return feature.floor is not None and (feature.floor.nominal_mm - boss.top.nominal_mm) * boss.face.sign > -NOISE


def boss_outside_part(case: Case) -> None:
    """Test that a boss stands inside the finished envelope."""
    for boss in case.each(RoundBoss):
        radius = boss.diameter.nominal_mm / 2
        first, second = boss.face.in_plane
        gaps = (
            boss.at[0] - case.box.low[first],
            case.box.high[first] - boss.at[0],
            boss.at[1] - case.box.low[second],
            case.box.high[second] - boss.at[1],
        )
        if min(gaps) < radius - NOISE:
            case.wrong(
                boss.id,
                "boss-outside-part",
                f"{case.shown(radius - min(gaps))} of the boss stands over the finished envelope",
                case.place(boss, "at"),
                found=f"centre {case.shown(min(gaps))} from a side",
                allowed=f"at least {case.shown(radius)}",
            )


def pocket_width(case: Case) -> None:
    """Test that a width written beside an area has to be the area's width."""
    for pocket in case.each(Pocket):
        if pocket.width is None:
            continue
        low, high = bounds(pocket.shape)
        spans = (high[0] - low[0], high[1] - low[1])
        if all(abs(span - pocket.width.nominal_mm) > 1e-3 for span in spans):
            shown = " and ".join(case.shown(span) for span in spans)
            case.wrong(
                pocket.id,
                "width-differs",
                f"width {pocket.width.written}, but the area measures {shown}",
                case.place(pocket, "width"),
                found=pocket.width.written,
                allowed=shown,
            )
