"""The six faces of a part, named in its main (top) view, and a box that has them."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from setupsheet.plane import Point3


class Face(StrEnum):
    """A face of the part, never of the machine. Left is -X, front is -Y, bottom is -Z."""

    TOP = "top"
    BOTTOM = "bottom"
    LEFT = "left"
    RIGHT = "right"
    FRONT = "front"
    BACK = "back"

    @property
    def axis(self) -> int:
        """0, 1 or 2: the part axis that is square to this face."""
        return {"left": 0, "right": 0, "front": 1, "back": 1, "bottom": 2, "top": 2}[self.value]

    @property
    def sign(self) -> int:
        """+1 where the outward normal points along the axis, -1 where it points against it."""
        return 1 if self.value in ("top", "right", "back") else -1

    @property
    def opposite(self) -> Face:
        """The face on the other side."""
        return FACE_OF[(self.axis, -self.sign)]

    @property
    def in_plane(self) -> tuple[int, int]:
        """The two part axes that lie in this face, in alphabetical order: (x, y), (x, z) or (y, z)."""
        return ((1, 2), (0, 2), (0, 1))[self.axis]


FACE_OF: dict[tuple[int, int], Face] = {(face.axis, face.sign): face for face in Face}


@dataclass(frozen=True, slots=True)
class Box:
    """A box in the part frame, mm; ``low`` and ``high`` are opposite corners."""

    low: Point3
    high: Point3

    def at(self, face: Face) -> float:
        """Return the coordinate of a face along its axis."""
        return (self.high if face.sign > 0 else self.low)[face.axis]

    @property
    def size(self) -> Point3:
        """Extent along x, y, z."""
        return (self.high[0] - self.low[0], self.high[1] - self.low[1], self.high[2] - self.low[2])
