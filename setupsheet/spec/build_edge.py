"""Cuts that make the outline: edge cut, corner radius, rounded end, edge chamfer; and marks."""

from __future__ import annotations

from setupsheet.finding import Place
from setupsheet.part.face import Box, Face
from setupsheet.part.feature import CornerRadius, EdgeChamfer, EdgeCut, Mark, RoundedEnd, Size
from setupsheet.plane import Point2, distance
from setupsheet.spec.build_point import Points
from setupsheet.spec.desk import Desk
from setupsheet.spec.sizes import read_size, size_of
from setupsheet.spec.tree import Mapping, Node, Scalar

Line = tuple[Point2, Point2]


def build_edge_cut(desk: Desk, points: Points, node: Mapping, place: Place, face: Face, box: Box) -> EdgeCut:
    """Return an edge cut: a slanted line, or a side at a coordinate or at a distance from a point."""
    if "line" in node.entries and "side" not in node.entries:
        line, towards, side = _slanted(desk, points, node, face)
        distance_size = None
    else:
        line, towards, side, distance_size = _straight(desk, points, node, face, box)
    measured_from = points.name(node.get("from")) or ("point" if distance_size else "")
    return EdgeCut(
        desk.feature,
        place,
        Face.TOP if face.axis == 2 else face,
        line,
        towards,
        side,
        _tolerance(desk, node.get("tolerance")),
        distance_size,
        measured_from,
        desk.text(node.get("finish")),
        desk.text(node.get("note")),
    )


def _tolerance(desk: Desk, node: Node | None) -> Size | None:
    """Return the ± about a finished line, as a size about 0."""
    scalar = desk.scalar(node) if node else None
    if not scalar:
        return None
    written = scalar.text.strip()
    sign = "" if written[0] in "±+-" else "±"
    size = size_of(desk, f"0 {sign}{written}", scalar)
    return Size(0.0, size.lower_mm, size.upper_mm, sign + written, "limits")


def _slanted(desk: Desk, points: Points, node: Mapping, face: Face) -> tuple[Line, Point2, Face | None]:
    ends = [points.at(item, face) for item in desk.items(node.get("line"))]
    side = _towards(desk, node.get("remove"), face)
    if len(ends) != 2 or side is None:
        desk.broken = True
        return ((0.0, 0.0), (1.0, 0.0)), (0.0, 1.0), None
    length = distance(ends[0], ends[1])
    if length < 1e-6:
        desk.wrong(
            "no-line",
            "both ends of the line are one point",
            node.key_place("line"),
            found="a point",
            allowed="two points",
        )
        return ((0.0, 0.0), (1.0, 0.0)), (0.0, 1.0), None
    across = (-(ends[1][1] - ends[0][1]) / length, (ends[1][0] - ends[0][0]) / length)
    share = across[0] * side[0] + across[1] * side[1]
    if abs(share) < 1e-6:
        found = desk.text(node.get("remove"))
        desk.wrong(
            "side-not-clear",
            f"{found} lies along the line",
            node.key_place("remove"),
            found=found,
            allowed="a side of the line",
        )
    towards = across if share > 0 else (-across[0], -across[1])
    return (ends[0], ends[1]), towards, None


def _towards(desk: Desk, node: Node | None, face: Face) -> Point2 | None:
    """Return the direction that ``back right`` names in the face, None if a word names none."""
    scalar = desk.scalar(node)
    if not scalar:
        return None
    found = [0.0, 0.0]
    for word in scalar.text.split():
        named = Face(word) if word in tuple(Face) else None
        if named is None or named.axis not in face.in_plane:
            sides = ", ".join(side for side in Face if side.axis in face.in_plane)
            desk.wrong("no-such-side", f"{word} is no side here", scalar.place, found=scalar.text, allowed=sides)
            return None
        found[face.in_plane.index(named.axis)] += named.sign
    return found[0], found[1]


def _straight(
    desk: Desk, points: Points, node: Mapping, face: Face, box: Box
) -> tuple[Line, Point2, Face | None, Size | None]:
    side = read_side(desk, node.get("side"), face)
    index = face.in_plane.index(side.axis)
    size: Size | None = None
    if "distance" in node.entries:
        size = read_size(desk, node.get("distance"))
        at = points.at(node.get("from"), face)[index] + side.sign * size.nominal_mm
    elif "to" in node.entries:
        at = desk.mm(node.get("to"))
    else:
        desk.wrong(
            "place-not-clear",
            "where does the edge lie?",
            node.place,
            found="neither distance: nor to:",
            allowed="from: and distance:, or to: (a coordinate), or line: and remove:",
        )
        at = box.at(side)
    other = face.in_plane[1 - index]
    low, high = box.low[other], box.high[other]
    line: Line = ((at, low), (at, high)) if index == 0 else ((low, at), (high, at))
    towards = (float(side.sign), 0.0) if index == 0 else (0.0, float(side.sign))
    return line, towards, side, size


def read_side(desk: Desk, node: Node | None, face: Face) -> Face:
    """Return the part's side that a cut makes; it has to lie square to ``face``."""
    word = desk.text(node)
    if word in tuple(Face) and Face(word).axis in face.in_plane:
        return Face(word)
    if isinstance(node, Scalar) and word in tuple(Face):
        sides = ", ".join(side for side in Face if side.axis in face.in_plane)
        desk.wrong(
            "no-such-side", f"the {word} side is not square to the {face} face", node.place, found=word, allowed=sides
        )
    desk.broken = True
    return next(side for side in Face if side.axis in face.in_plane)


def build_corner(desk: Desk, points: Points, node: Mapping, place: Place, face: Face, box: Box) -> CornerRadius:
    """Return a rounded outside corner; without ``at:`` its centre lies in the corner by the radius."""
    radius = read_size(desk, node.get("radius"), node.get("tolerance"))
    corner = desk.text(node.get("corner"))
    quadrant = _towards(desk, node.get("corner"), face) or (1.0, 1.0)
    if 0.0 in quadrant and not desk.broken:
        corners = "front left, front right, back left, back right" if face.axis == 2 else "two sides"
        desk.wrong("no-such-corner", f"{corner} is no corner", node.key_place("corner"), found=corner, allowed=corners)
    signs = (1 if quadrant[0] > 0 else -1, 1 if quadrant[1] > 0 else -1)
    if "at" in node.entries:
        centre = points.at(node.get("at"), face)
    else:
        edges = [(box.high if sign > 0 else box.low)[axis] for sign, axis in zip(signs, face.in_plane, strict=True)]
        centre = (edges[0] - signs[0] * radius.nominal_mm, edges[1] - signs[1] * radius.nominal_mm)
        desk.opened("at", f"{centre[0]:g}, {centre[1]:g} mm", "the radius touches both sides")
    return CornerRadius(desk.feature, place, face, centre, radius, signs, corner, desk.text(node.get("note")))


def build_rounded_end(desk: Desk, points: Points, node: Mapping, place: Place, face: Face) -> RoundedEnd:
    """Return an end that is rounded about a point."""
    return RoundedEnd(
        desk.feature,
        place,
        face,
        points.at(node.get("at"), face),
        read_size(desk, node.get("radius"), node.get("tolerance")),
        read_side(desk, node.get("side"), face),
        desk.text(node.get("note")),
    )


def build_edge_chamfer(desk: Desk, node: Mapping, place: Place, face: Face) -> EdgeChamfer:
    """Return a bevel along edges of a face; ``sides: all`` means its four edges."""
    written = node.get("sides")
    if desk.text(written) == "all" if isinstance(written, Scalar) else False:
        sides = tuple(side for side in Face if side.axis in face.in_plane)
    else:
        sides = tuple(read_side(desk, item, face) for item in desk.items(written))
    size = read_size(desk, node.get("size"), node.get("tolerance"))
    return EdgeChamfer(desk.feature, place, face, sides, size, desk.text(node.get("note")))


def build_mark(desk: Desk, points: Points, node: Mapping, place: Place, face: Face) -> Mark:
    """Return words for the maker at a place of the part."""
    return Mark(desk.feature, place, face, points.at(node.get("at"), face), desk.text(node.get("note")))
