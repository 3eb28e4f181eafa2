"""A part set to an angle: stood up square as ``laid.py`` has it, then turned about the machine's Y.

Y stays what it was, so that everything drawn out along it stays an outline in X and Z.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from setupsheet.plane import Point2, Point3
from setupsheet.solid import frame
from setupsheet.solid.frame import Matrix
from setupsheet.solid.laid import Laid


@dataclass(frozen=True, slots=True)
class Tilted:
    """How the part lies: ``upright`` with its zero, then ``turn_deg`` about Y (minus raises the right end)."""

    upright: Laid
    turn_deg: float

    @property
    def matrix(self) -> Matrix:
        """The motion from the part frame to the setup frame; it leaves the zero at the origin."""
        upright = frame.part_to_setup(self.upright.up, self.upright.back, self.upright.zero)
        return frame.compose(about_y(self.turn_deg), upright)

    def to_setup(self, point: Point3) -> Point3:
        """Return a part point in setup coordinates."""
        return frame.apply(self.matrix, point)

    def to_part(self, point: Point3) -> Point3:
        """Return a setup point in part coordinates."""
        return frame.apply(frame.inverse(self.matrix), point)

    def flat(self, at: Point2) -> Point2:
        """Return a point seen from the front (its two part axes, alphabetical) as setup X, Z."""
        x, _, z = self.to_setup(self.spread(at))
        return x, z

    def spread(self, at: Point2) -> Point3:
        """Return the part point over a point seen from the front, at the zero of Y."""
        point = list(self.upright.zero)
        for axis, value in zip(self.upright.back.in_plane, at, strict=True):
            point[axis] = value
        return point[0], point[1], point[2]


def about_y(degrees: float) -> Matrix:
    """Return the turn about Y."""
    cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return ((cos, 0.0, sin, 0.0), (0.0, 1.0, 0.0, 0.0), (-sin, 0.0, cos, 0.0), (0.0, 0.0, 0.0, 1.0))
