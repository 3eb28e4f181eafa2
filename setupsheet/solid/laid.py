"""Boxes, shapes and volumes carried between the part frame and a setup frame.

A setup only turns the part by quarter turns, so every setup axis is one part axis with a sign. That
keeps every straight and round shape what it is, and every number exact.
"""

from __future__ import annotations

from dataclasses import dataclass

from setupsheet.part.face import FACE_OF, Box, Face
from setupsheet.part.shape import BoxShape, CircleShape, PolygonShape, Shape, SlotShape
from setupsheet.plane import Point2, Point3
from setupsheet.solid.volume import ArcEdge, CircleLoop, Cone, EdgeLoop, LineEdge, Loop, Primitive, Prism

_OTHERS = ((1, 2), (0, 2), (0, 1))
_CROSS = {(0, 1): (2, 1), (1, 2): (0, 1), (2, 0): (1, 1), (1, 0): (2, -1), (2, 1): (0, -1), (0, 2): (1, -1)}


@dataclass(frozen=True, slots=True)
class Laid:
    """How the part lies in a setup: setup axis i runs along part axis ``axes[i]`` with ``signs[i]``."""

    up: Face
    back: Face
    zero: Point3
    axes: tuple[int, int, int]
    signs: tuple[int, int, int]

    def to_setup(self, point: Point3) -> Point3:
        """Return a part point in setup coordinates."""
        x, y, z = (s * (point[a] - self.zero[a]) for a, s in zip(self.axes, self.signs, strict=True))
        return x, y, z

    def to_part(self, point: Point3) -> Point3:
        """Return a setup point in part coordinates."""
        out = [0.0, 0.0, 0.0]
        for value, axis, sign in zip(point, self.axes, self.signs, strict=True):
            out[axis] = self.zero[axis] + sign * value
        return out[0], out[1], out[2]

    def along(self, setup_axis: int, part_value: float) -> float:
        """Return a part coordinate (along the part axis behind ``setup_axis``) as a setup coordinate."""
        return self.signs[setup_axis] * (part_value - self.zero[self.axes[setup_axis]])

    def face(self, setup_axis: int, sign: int) -> Face:
        """Return the part face that points along a setup axis with a sign ((0, -1): on your left)."""
        return FACE_OF[(self.axes[setup_axis], sign * self.signs[setup_axis])]

    def where(self, face: Face) -> tuple[int, int]:
        """Return the setup axis and sign along which a part face points."""
        index = self.axes.index(face.axis)
        return index, face.sign * self.signs[index]

    def box(self, box: Box) -> Box:
        """Return a part box in setup coordinates."""
        a, b = self.to_setup(box.low), self.to_setup(box.high)
        pairs = [sorted(ends) for ends in zip(a, b, strict=True)]
        return Box((pairs[0][0], pairs[1][0], pairs[2][0]), (pairs[0][1], pairs[1][1], pairs[2][1]))

    def flat(self, at: Point2) -> Point2:
        """Return a point of a face square to Z (its two part axes, alphabetical) as setup X, Y."""
        u, v = _OTHERS[self.axes[2]]
        spread = [0.0, 0.0, 0.0]
        spread[u], spread[v] = at
        return self.along(0, spread[self.axes[0]]), self.along(1, spread[self.axes[1]])

    def shape(self, shape: Shape) -> Shape:
        """Return a shape of a face square to Z in setup X, Y."""
        if isinstance(shape, BoxShape):
            a, b = self.flat(shape.low), self.flat(shape.high)
            low, high = (min(a[0], b[0]), min(a[1], b[1])), (max(a[0], b[0]), max(a[1], b[1]))
            return BoxShape(low, high, shape.corner_radius_mm)
        if isinstance(shape, CircleShape):
            return CircleShape(self.flat(shape.centre), shape.diameter_mm)
        if isinstance(shape, PolygonShape):
            return PolygonShape(tuple(self.flat(corner) for corner in shape.corners), shape.corner_radius_mm)
        return SlotShape(self.flat(shape.start), self.flat(shape.end), shape.width_mm)

    def primitive_to_part(self, primitive: Primitive) -> Primitive:
        """Return a volume given in setup coordinates (any setup axis) in the part frame."""
        axis = self.axes[primitive.axis]
        ends = sorted(self.zero[axis] + self.signs[primitive.axis] * v for v in (primitive.low, primitive.high))
        if isinstance(primitive, Cone):
            radii = (primitive.radius_low, primitive.radius_high)
            low, high = radii if self.signs[primitive.axis] > 0 else radii[::-1]
            return Cone(axis, self._flat_to_part(primitive.axis, primitive.centre), ends[0], ends[1], low, high)
        loops = [self._loop_to_part(primitive.axis, loop) for loop in (primitive.outer, *primitive.islands)]
        return Prism(axis, loops[0], tuple(loops[1:]), ends[0], ends[1])

    def _flat_to_part(self, setup_axis: int, at: Point2) -> Point2:
        spread = [0.0, 0.0, 0.0]
        u, v = _OTHERS[setup_axis]
        spread[u], spread[v] = at
        part = self.to_part((spread[0], spread[1], spread[2]))
        pu, pv = _OTHERS[self.axes[setup_axis]]
        return part[pu], part[pv]

    def _loop_to_part(self, setup_axis: int, loop: Loop) -> Loop:
        if isinstance(loop, CircleLoop):
            return CircleLoop(self._flat_to_part(setup_axis, loop.centre), loop.radius)
        mirrored = self._mirrors(setup_axis)
        edges = [self._edge_to_part(setup_axis, edge, mirrored) for edge in loop.edges]
        return EdgeLoop(tuple(reversed(edges)) if mirrored else tuple(edges))

    def _edge_to_part(self, setup_axis: int, edge: LineEdge | ArcEdge, mirrored: bool) -> LineEdge | ArcEdge:
        a, b = self._flat_to_part(setup_axis, edge.a), self._flat_to_part(setup_axis, edge.b)
        if mirrored:
            a, b = b, a
        if isinstance(edge, LineEdge):
            return LineEdge(a, b)
        return ArcEdge(a, b, self._flat_to_part(setup_axis, edge.centre), edge.ccw)

    def _mirrors(self, setup_axis: int) -> bool:
        """Tell whether the flat map from setup to part coordinates changes the sense of a loop."""
        origin, one, two = (self._flat_to_part(setup_axis, p) for p in ((0.0, 0.0), (1.0, 0.0), (0.0, 1.0)))
        turn = (one[0] - origin[0]) * (two[1] - origin[1]) - (one[1] - origin[1]) * (two[0] - origin[0])
        return turn < 0


def lay(up: Face, back: Face, zero: Point3) -> Laid:
    """Return how the part lies with ``up`` on top and ``back`` away from the reader; zero in the part frame.

    Raises ValueError if the two faces are parallel.
    """
    if up.axis == back.axis:
        raise ValueError(f"the {back.value} face cannot be at the back while the {up.value} face is up")
    across, sense = _CROSS[(back.axis, up.axis)]
    signs = (sense * back.sign * up.sign, back.sign, up.sign)
    return Laid(up, back, zero, (across, back.axis, up.axis), signs)
