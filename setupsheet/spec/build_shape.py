"""Flat areas as they are written: box, circle, polygon, slot."""

from __future__ import annotations

from itertools import pairwise

from setupsheet.finding import Place
from setupsheet.part.face import Face
from setupsheet.part.shape import BoxShape, CircleShape, PolygonShape, Shape, SlotShape
from setupsheet.plane import Point2
from setupsheet.spec.build_point import Points, axes
from setupsheet.spec.desk import Desk
from setupsheet.spec.tree import Mapping, Node, Sequence

_STAND_IN = CircleShape((0.0, 0.0), 1.0)


def read_area(desk: Desk, points: Points, node: Node | None, face: Face) -> Shape:
    """Return the one area written at a node ``{box: ...}``, ``{circle: ...}``, ``{polygon: ...}``, ``{slot: ...}``."""
    mapping = desk.mapping(node)
    kinds = [key for key in mapping.entries if key in _READERS]
    if len(kinds) != 1:
        if isinstance(node, Mapping):
            desk.wrong(
                "area-not-clear",
                "an area is one box, circle, polygon or slot",
                mapping.place,
                found=", ".join(mapping.entries) or "nothing",
                allowed="{box: {x: [0, 20], y: [0, 10]}}, {circle: {at: [10, 10], diameter: 8}}",
            )
        desk.broken = True
        return _STAND_IN
    return _READERS[kinds[0]](desk, points, mapping.get(kinds[0]), face)


def _box(desk: Desk, _points: Points, node: Node | None, face: Face) -> Shape:
    mapping = desk.mapping(node)
    first, second = axes(face)
    for axis in ("x", "y", "z"):
        if axis in mapping.entries and axis not in (first, second):
            place = mapping.key_place(axis)
            desk.wrong(
                "wrong-axes", f"{axis} does not lie in the {face} face", place, found=axis, allowed=f"{first}, {second}"
            )
    low_a, high_a = _range(desk, mapping, first)
    low_b, high_b = _range(desk, mapping, second)
    radius = mapping.get("corner-radius")
    return BoxShape((low_a, low_b), (high_a, high_b), desk.mm(radius) if radius else 0.0)


def _range(desk: Desk, mapping: Mapping, axis: str) -> tuple[float, float]:
    """Return the lower and the upper end of a box along an axis."""
    node = mapping.get(axis)
    if not isinstance(node, Sequence) or len(node.items) != 2:
        if node is None:
            desk.wrong(
                "value-missing",
                f"the box has no {axis}",
                mapping.place,
                found=", ".join(mapping.entries),
                allowed=f"{axis}: [0, 20]",
            )
        desk.broken = True
        return 0.0, 1.0
    low, high = desk.mm(node.items[0]), desk.mm(node.items[1])
    if low >= high:
        desk.wrong(
            "range-backwards",
            f"{axis}: the first value has to be the smaller one",
            node.place,
            found=f"{low:g} and {high:g} mm",
            allowed="from the smaller to the larger",
        )
    return low, high


def _circle(desk: Desk, points: Points, node: Node | None, face: Face) -> Shape:
    mapping = desk.mapping(node)
    return CircleShape(points.at(mapping.get("at"), face), desk.mm(mapping.get("diameter")))


def _polygon(desk: Desk, points: Points, node: Node | None, face: Face) -> Shape:
    radius = node.get("corner-radius") if isinstance(node, Mapping) else None
    listed = node.get("corners") if isinstance(node, Mapping) else node
    corners = corner_list(desk, points, listed, face)
    if len(corners) < 3:
        desk.broken = True
        return _STAND_IN
    place = node.place if node else None
    if _corners_off(desk, corners, place):
        return _STAND_IN
    if crosses_itself(corners):
        desk.wrong(
            "polygon-crosses-itself",
            "two sides of the polygon cross",
            place,
            found=f"{len(corners)} corners",
            allowed="corners in order round the area",
            try_="write the corners as you would walk round the area, each one once",
        )
    return PolygonShape(corners, desk.mm(radius) if radius else 0.0)


def _corners_off(desk: Desk, corners: tuple[Point2, ...], place: Place | None) -> bool:
    """Say so where a corner stands twice behind itself, or where all corners lie on one line."""
    twice = next((n for n, (a, b) in enumerate(pairwise((*corners, corners[0])), 1) if a == b), 0)
    if twice:
        last = twice == len(corners)
        desk.wrong(
            "corner-twice",
            f"corner {twice} and the {'first' if last else 'next'} are one point",
            place,
            found=f"corner {twice} of {len(corners)}",
            allowed="each corner once; the polygon closes itself",
            try_="leave out the last corner" if last else f"leave out corner {twice}",
        )
        return True
    flat = all(abs(_turn(corners[0], b, c)) < 1e-9 for b, c in pairwise(corners[1:]))
    if flat:
        desk.wrong(
            "no-amount",
            "all corners lie on one line",
            place,
            found=f"{len(corners)} corners on a line",
            allowed="corners round an area",
            try_="look at x and y of each corner",
        )
    return flat


def corner_list(desk: Desk, points: Points, node: Node | None, face: Face) -> tuple[Point2, ...]:
    """Return a list of points."""
    return tuple(points.at(item, face) for item in desk.items(node))


def crosses_itself(corners: tuple[Point2, ...]) -> bool:
    """Tell whether two sides of a closed polygon that are not neighbours cross."""
    sides = list(zip(corners, corners[1:] + corners[:1], strict=True))
    for i, (a, b) in enumerate(sides):
        for j in range(i + 2, len(sides)):
            if i == 0 and j == len(sides) - 1:
                continue
            c, d = sides[j]
            if _turn(a, b, c) * _turn(a, b, d) < 0 and _turn(c, d, a) * _turn(c, d, b) < 0:
                return True
    return False


def _turn(a: Point2, b: Point2, c: Point2) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _slot(desk: Desk, points: Points, node: Node | None, face: Face) -> Shape:
    mapping = desk.mapping(node)
    centres = corner_list(desk, points, mapping.get("centres"), face)
    if len(centres) != 2:
        desk.broken = True
        return _STAND_IN
    return SlotShape(centres[0], centres[1], desk.mm(mapping.get("width")))


_READERS = {"box": _box, "circle": _circle, "polygon": _polygon, "slot": _slot}
