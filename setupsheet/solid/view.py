"""View frames: from where a body is looked at, as a motion from part to view coordinates.

View coordinates are X right, Y up on paper, Z towards the reader. A setup frame is such a view too: from
above, with the side away from the reader up on paper.
"""

from __future__ import annotations

import math

from setupsheet.part.face import Face
from setupsheet.plane import Point3
from setupsheet.solid.frame import Matrix, part_to_setup

_USUAL_UP = {
    Face.TOP: Face.BACK,
    Face.BOTTOM: Face.FRONT,
    Face.FRONT: Face.TOP,
    Face.BACK: Face.TOP,
    Face.LEFT: Face.TOP,
    Face.RIGHT: Face.TOP,
}
ISOMETRIC: Point3 = (-1.0, -1.0, 1.0)
"""From the front left, above: the three faces of the main picture foreshorten alike."""


def face_view(face: Face, up: Face | None = None) -> Matrix:
    """Return the view of a face; ``up`` is the part face that points up on paper (default: the usual one)."""
    return part_to_setup(face, up or _USUAL_UP[face], (0.0, 0.0, 0.0))


def oblique_view(towards_reader: Point3 = ISOMETRIC, up: Point3 = (0.0, 0.0, 1.0)) -> Matrix:
    """Return a view along any direction; ``up`` points up on paper as far as it can.

    Raises ValueError where the two directions are parallel or nothing.
    """
    z = _unit(towards_reader)
    x = _unit(_cross(up, z))
    y = _cross(z, x)
    return ((*x, 0.0), (*y, 0.0), (*z, 0.0), (0.0, 0.0, 0.0, 1.0))


def _unit(v: Point3) -> Point3:
    length = math.sqrt(v[0] ** 2 + v[1] ** 2 + v[2] ** 2)
    if length < 1e-12:
        raise ValueError("a view needs a direction, and an up direction that is not along it")
    return (v[0] / length, v[1] / length, v[2] / length)


def _cross(a: Point3, b: Point3) -> Point3:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])
