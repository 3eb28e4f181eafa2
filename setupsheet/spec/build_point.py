"""Points: named ones, coordinates, and offsets from another point; always part coordinates.

On top and bottom a point is ``[x, y]``; on a side face its axes are named (``{x: 12, z: 8}``). An
angle is counter-clockwise from +X in the main view, on a side face as seen facing it.
"""

from __future__ import annotations

from fractions import Fraction

from setupsheet.part.face import Face
from setupsheet.plane import Point2
from setupsheet.spec import arithmetic
from setupsheet.spec.desk import Desk
from setupsheet.spec.tree import Mapping, Node, Scalar, Sequence
from setupsheet.tables.near import nearest

Exact = tuple[Fraction, Fraction]

AXES = ("x", "y", "z")
_NOWHERE: Exact = (Fraction(0), Fraction(0))
_MIRRORED = (Face.BACK, Face.LEFT)
"""Faces whose first axis runs to the left for somebody who faces them."""


def sense(face: Face) -> int:
    """Return -1 where the face's first axis runs to the left for somebody who faces it, else 1."""
    return -1 if face in _MIRRORED else 1


def axes(face: Face) -> tuple[str, str]:
    """Return the names of the two part axes in a face."""
    first, second = face.in_plane
    return AXES[first], AXES[second]


class Points:
    """Finds points by name, each worked out once; a circle of names is a finding."""

    def __init__(self, desk: Desk, points: Node | None, features: Node | None) -> None:
        self.desk = desk
        self.nodes = points if isinstance(points, Mapping) else None
        self.features = features if isinstance(features, Mapping) else None
        self.known: dict[str, Exact] = {}
        self.open: list[str] = []
        self.used: set[str] = set()

    def all(self) -> dict[str, Point2]:
        """Return every named point in mm."""
        found: dict[str, Point2] = {}
        for name, entry in self.nodes.entries.items() if self.nodes else ():
            found[name] = _floats(self._by_name(name, entry.key, Face.TOP))
        return found

    def at(self, node: Node | None, face: Face) -> Point2:
        """Return the point that a node stands for, in the face's plane, mm."""
        return _floats(self.exact(node, face))

    def exact(self, node: Node | None, face: Face) -> Exact:
        """Return the point that a node stands for, exactly."""
        if isinstance(node, Scalar) and not node.empty:
            return self._named(node, face)
        if isinstance(node, Sequence):
            return self._pair(node, face)
        if isinstance(node, Mapping):
            return self._offset(node, face) if "from" in node.entries else self._axes(node, face)
        self.desk.broken = True
        return _NOWHERE

    def name(self, node: Node | None) -> str:
        """Return the name by which a point was given, '' if it was written out."""
        return node.text.strip() if isinstance(node, Scalar) else ""

    def _named(self, node: Scalar, face: Face) -> Exact:
        name = node.text.strip()
        self.used.add(name)
        if self.nodes and name in self.nodes.entries:
            if face.axis != 2:
                self.desk.wrong(
                    "point-on-side-face",
                    f"{name} is a point of the main view; on the {face} face both axes are named",
                    node.place,
                    found=name,
                    allowed="{" + f"{axes(face)[0]}: 12, {axes(face)[1]}: 8" + "}",
                )
                return _NOWHERE
            return self._by_name(name, node, face)
        feature = self.features.get(name) if self.features else None
        if isinstance(feature, Mapping) and "at" in feature.entries:
            return self._by_name(name, node, face)
        known = (*(self.nodes.entries if self.nodes else ()), *(self.features.entries if self.features else ()))
        near = nearest(name, [word for word in known if word != self.desk.feature])
        self.desk.wrong(
            "unknown-point",
            f"{name} is no point, nor a feature that stands at one",
            node.place,
            found=name,
            allowed=", ".join(self.nodes.entries) if self.nodes else "[x, y]",
            try_=f"write {near}" if near else "add it under points:",
        )
        return _NOWHERE

    def _by_name(self, name: str, node: Scalar, face: Face) -> Exact:
        if name in self.known:
            return self.known[name]
        if name in self.open:
            chain = " -> ".join((*self.open[self.open.index(name) :], name))
            self.desk.wrong("points-in-a-circle", f"{chain}: each is measured from the other", node.place, found=chain)
            return _NOWHERE
        self.open.append(name)
        own = self.nodes.get(name) if self.nodes else None
        if own is None and self.features:
            feature = self.features.get(name)
            own = feature.get("at") if isinstance(feature, Mapping) else None
        self.known[name] = self.exact(own, face)
        self.open.remove(name)
        return self.known[name]

    def _pair(self, node: Sequence, face: Face) -> Exact:
        first, second = axes(face)
        if face.axis != 2:
            self.desk.wrong(
                "axes-not-named",
                f"on the {face} face a list does not say which axis is which",
                node.place,
                found="a list",
                allowed="{" + f"{first}: 12, {second}: 8" + "}",
                try_=f"name the axes {first} and {second}",
            )
            return _NOWHERE
        if len(node.items) != 2:
            self.desk.broken = True
            return _NOWHERE
        return self.desk.length(node.items[0]).exact_mm, self.desk.length(node.items[1]).exact_mm

    def _axes(self, node: Mapping, face: Face) -> Exact:
        first, second = axes(face)
        if set(node.entries) != {first, second}:
            self.desk.wrong(
                "wrong-axes",
                f"a point on the {face} face has {first} and {second}",
                node.place,
                found=", ".join(node.entries),
                allowed=f"{first}, {second}",
                try_="name the face by from: if it is another one",
            )
            return _NOWHERE
        return self.desk.length(node.get(first)).exact_mm, self.desk.length(node.get(second)).exact_mm

    def _offset(self, node: Mapping, face: Face) -> Exact:
        start = self.exact(node.get("from"), face)
        if "radius" in node.entries or "angle" in node.entries:
            radius = self.desk.length(node.get("radius")).exact_mm
            angle = node.get("angle")
            degrees = self.desk.exact(angle) if isinstance(angle, Scalar) else Fraction(0)
            self.desk.broken |= not isinstance(angle, Scalar)
            across = radius * arithmetic.cos(degrees) * sense(face)
            return start[0] + across, start[1] + radius * arithmetic.sin(degrees)
        return self.moved(start, node, face)

    def moved(self, start: Exact, node: Mapping, face: Face) -> Exact:
        """Return ``start`` moved by ``dx``, ``dy``, ``dz`` of a mapping, as far as they lie in the face."""
        step = self.step(node, face)
        return start[0] + step[0], start[1] + step[1]

    def step(self, node: Mapping, face: Face) -> Exact:
        """Return the vector that ``dx``, ``dy``, ``dz`` of a mapping give in the face."""
        allowed = tuple(f"d{axis}" for axis in axes(face))
        for key in ("dx", "dy", "dz"):
            if key in node.entries and key not in allowed:
                self.desk.wrong(
                    "wrong-axes",
                    f"{key} leads out of the {face} face",
                    node.key_place(key),
                    found=key,
                    allowed=" and ".join(allowed),
                )
        first, second = (
            self.desk.length(node.get(key)).exact_mm if key in node.entries else Fraction(0) for key in allowed
        )
        return first, second


def _floats(point: Exact) -> Point2:
    return float(point[0]), float(point[1])
