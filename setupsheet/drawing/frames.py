"""From the part's three axes to the two of a view, and where views stand to each other.

A frame says which part direction runs to the right and which runs up on paper; a view's coordinates
are part millimetres in these two directions, before any scale.
"""

from __future__ import annotations

from dataclasses import dataclass

from setupsheet.part.face import Box, Face
from setupsheet.plane import Point2, Point3


@dataclass(frozen=True, slots=True)
class Frame:
    """Directions of paper right (``u``) and paper up (``v``) in the part frame, for a view of ``face``."""

    face: Face
    u: Point3
    v: Point3

    @property
    def u_axis(self) -> int:
        """The part axis (0 x, 1 y, 2 z) that runs across the paper."""
        return next(i for i in range(3) if self.u[i])

    @property
    def v_axis(self) -> int:
        """The part axis that runs up the paper."""
        return next(i for i in range(3) if self.v[i])

    @property
    def u_sign(self) -> int:
        """+1 when the axis grows to the right."""
        return int(self.u[self.u_axis])

    @property
    def v_sign(self) -> int:
        """+1 when the axis grows upwards."""
        return int(self.v[self.v_axis])

    @property
    def towards_reader(self) -> Point3:
        """The direction out of the paper: right cross up."""
        (a, b, c), (d, e, f) = self.u, self.v
        return b * f - c * e, c * d - a * f, a * e - b * d


FRAME: dict[Face, Frame] = {
    Face.TOP: Frame(Face.TOP, (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)),
    Face.BOTTOM: Frame(Face.BOTTOM, (1.0, 0.0, 0.0), (0.0, -1.0, 0.0)),
    Face.FRONT: Frame(Face.FRONT, (1.0, 0.0, 0.0), (0.0, 0.0, 1.0)),
    Face.BACK: Frame(Face.BACK, (-1.0, 0.0, 0.0), (0.0, 0.0, 1.0)),
    Face.RIGHT: Frame(Face.RIGHT, (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)),
    Face.LEFT: Frame(Face.LEFT, (0.0, -1.0, 0.0), (0.0, 0.0, 1.0)),
}


def project(point: Point3, frame: Frame) -> Point2:
    """Return where a part point lies in a view."""
    return (
        sum(a * b for a, b in zip(point, frame.u, strict=True)),
        sum(a * b for a, b in zip(point, frame.v, strict=True)),
    )


def lift(at: Point2, face: Face, along: float) -> Point3:
    """Return the part point of a feature's own coordinates (see part.shape) at ``along`` its axis."""
    point = [along, along, along]
    point[face.in_plane[0]], point[face.in_plane[1]] = at
    return point[0], point[1], point[2]


def seen_at(at: Point2, face: Face, frame: Frame) -> Point2:
    """Return a feature's own coordinates as coordinates of a view that looks along its axis."""
    return project(lift(at, face, 0.0), frame)


def bounds(box: Box, frame: Frame) -> tuple[Point2, Point2]:
    """Return the corners of a part's box in a view."""
    a, b = project(box.low, frame), project(box.high, frame)
    return (min(a[0], b[0]), min(a[1], b[1])), (max(a[0], b[0]), max(a[1], b[1]))


def place_beside_front(face: Face, first_angle: bool) -> tuple[int, int]:
    """Return column and row of a view, the front view at (0, 0), rows counted upwards.

    First angle puts what is seen from a side on the far side, third angle on the near one (ISO 5456-2,
    ASME Y14.3).
    """
    near = {
        Face.FRONT: (0, 0),
        Face.TOP: (0, 1),
        Face.BOTTOM: (0, -1),
        Face.LEFT: (-1, 0),
        Face.RIGHT: (1, 0),
    }
    if face is Face.BACK:
        return 2, 0
    column, row = near[face]
    return (-column, -row) if first_angle else (column, row)
