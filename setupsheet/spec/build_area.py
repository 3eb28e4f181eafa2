"""Areas that are milled down: level, pocket, slot; and the round boss that stands."""

from __future__ import annotations

from setupsheet.finding import Place
from setupsheet.part.face import Face
from setupsheet.part.feature import Keep, Level, Pocket, RingGroove, RoundBoss, Size, Slot
from setupsheet.part.shape import BoxShape, CircleShape, PolygonShape, Shape, SlotShape
from setupsheet.spec.build_geometry import OF_AXES, read_geometry
from setupsheet.spec.build_point import Points
from setupsheet.spec.build_shape import corner_list, read_area
from setupsheet.spec.desk import Desk
from setupsheet.spec.sizes import read_size
from setupsheet.spec.tree import Mapping, Scalar


def build_boss(desk: Desk, points: Points, node: Mapping, place: Place, face: Face) -> RoundBoss:
    """Return a round boss."""
    return RoundBoss(
        desk.feature,
        place,
        face,
        points.at(node.get("at"), face),
        read_size(desk, node.get("diameter"), node.get("tolerance")),
        read_size(desk, node.get("top")),
        desk.text(node.get("finish")),
        desk.text(node.get("note")),
        read_geometry(desk, node.get("geometry"), OF_AXES),
    )


def build_level(desk: Desk, points: Points, node: Mapping, place: Place, face: Face) -> Level:
    """Return a level; what it leaves standing is put in by ``keeps`` once all features are known."""
    area = node.get("area")
    everything = isinstance(area, Scalar) and area.text.strip() == "all"
    return Level(
        desk.feature,
        place,
        face,
        None if everything else read_area(desk, points, area, face),
        read_size(desk, node.get("to")),
        (),
        desk.text(node.get("finish")),
        desk.text(node.get("note")),
    )


def keeps(desk: Desk, points: Points, node: Mapping, face: Face, shapes: dict[str, Shape]) -> tuple[Keep, ...]:
    """Return what ``leave:`` names or draws; ``shapes`` holds the areas of the features by id."""
    found: list[Keep] = []
    for item in desk.items(node.get("leave")):
        if not isinstance(item, Scalar):
            found.append(Keep(read_area(desk, points, item, face)))
            continue
        name = item.text.strip()
        if name in shapes:
            found.append(Keep(shapes[name], name))
            continue
        desk.wrong(
            "unknown-feature",
            f"leave: {name} is no feature with an area on the {face} face",
            item.place,
            found=name,
            allowed=", ".join(shapes) or "{box: ...}, {circle: ...}",
        )
    return tuple(found)


def build_pocket(desk: Desk, points: Points, node: Mapping, place: Place, face: Face) -> Pocket:
    """Return a pocket or a window; ``depth`` becomes a floor once the surface over it is known."""
    radius = node.get("corner-radius")
    shape = read_area(desk, points, node.get("area"), face)
    if radius:
        shape = _rounded(desk, shape, desk.mm(radius), radius.place)
    floor, depth = read_floor(desk, node, window=True)
    return Pocket(
        desk.feature,
        place,
        face,
        shape,
        0.0,
        floor,
        0.0,
        read_size(desk, node.get("width")) if "width" in node.entries else None,
        (),
        desk.text(node.get("finish")),
        desk.text(node.get("note")),
        depth=depth,
    )


def _rounded(desk: Desk, shape: Shape, radius: float, place: Place) -> Shape:
    """Return the shape with rounded corners; a circle or a slot has none."""
    if isinstance(shape, BoxShape):
        return BoxShape(shape.low, shape.high, radius)
    if isinstance(shape, PolygonShape):
        return PolygonShape(shape.corners, radius)
    desk.wrong(
        "no-corners", "this area has no corners", place, found="corner-radius", allowed="only with box and polygon"
    )
    return shape


def read_floor(desk: Desk, node: Mapping, *, window: bool) -> tuple[Size | None, Size | None]:
    """Return the floor as a height, and the depth, whichever was written."""
    keys = [key for key in ("to", "depth", "through") if key in node.entries]
    if len(keys) != 1 or (keys == ["through"] and not (window and desk.flag(node.get("through")))):
        say = desk.wrong if keys else desk.missing
        say(
            "depth-not-clear",
            "how deep? one of to (a height), depth" + (" and through" if window else ""),
            node.key_place(keys[-1]) if keys else node.place,
            found=" and ".join(keys) or "none of them",
            allowed="to: 4, or depth: 3" + (", or through: true" if window else ""),
        )
        return None, None
    if keys == ["through"]:
        return None, None
    size = read_size(desk, node.get(keys[0]))
    return (size, None) if keys == ["to"] else (size, size)


def build_slot(desk: Desk, points: Points, node: Mapping, place: Place, face: Face) -> Slot:
    """Return a slot by the centres of its round ends and its width."""
    centres = corner_list(desk, points, node.get("centres"), face)
    width = read_size(desk, node.get("width"))
    floor, depth = read_floor(desk, node, window=True)
    start, end = centres if len(centres) == 2 else ((0.0, 0.0), (1.0, 0.0))
    desk.broken |= len(centres) != 2
    shape = SlotShape(start, end, width.nominal_mm)
    finish, note = desk.text(node.get("finish")), desk.text(node.get("note"))
    return Slot(desk.feature, place, face, shape, width, 0.0, floor, 0.0, finish, note, depth=depth)


def area_of(feature: object) -> Shape | None:
    """Return the flat area that a feature covers in its face, None if it has none of its own."""
    if isinstance(feature, Level):
        return feature.area
    if isinstance(feature, RoundBoss):
        return CircleShape(feature.at, feature.diameter.nominal_mm)
    if isinstance(feature, Pocket | Slot):
        return feature.shape
    if isinstance(feature, RingGroove):
        return CircleShape(feature.centre, feature.outer.nominal_mm)
    return None
