"""The four sides of a view on paper, each as a ruler along the side and a distance away from it.

Dimensions that stand outside a view are laid out once, in ruler (``s``) and distance (``t``), and turned
to the side they belong to.
"""

from __future__ import annotations

from dataclasses import dataclass

from setupsheet.drawing.boxes import Rect
from setupsheet.plane import Point2

NAMES = ("below", "above", "left", "right")


@dataclass(frozen=True, slots=True)
class Side:
    """A side of the outline box of a view."""

    name: str
    outline: Rect

    @property
    def runs_across(self) -> bool:
        """Whether the ruler runs along paper X."""
        return self.name in ("below", "above")

    @property
    def outward(self) -> int:
        """+1 where away from the view is right or up."""
        return 1 if self.name in ("above", "right") else -1

    @property
    def edge(self) -> float:
        """The coordinate of the side itself."""
        (x0, y0), (x1, y1) = self.outline
        return {"below": y0, "above": y1, "left": x0, "right": x1}[self.name]

    def at(self, s: float, t: float) -> Point2:
        """Return the paper point at ruler ``s`` and distance ``t`` (negative: inside the view)."""
        away = self.edge + self.outward * t
        return (s, away) if self.runs_across else (away, s)

    def depth(self, point: Point2) -> float:
        """Return how far a point lies inside the side (positive inside)."""
        return -self.outward * (point[1 if self.runs_across else 0] - self.edge)

    def ruler(self, point: Point2) -> float:
        """Return a point's place along the ruler."""
        return point[0 if self.runs_across else 1]

    @property
    def away_deg(self) -> float:
        """The direction away from the view."""
        return {"below": 270.0, "above": 90.0, "left": 180.0, "right": 0.0}[self.name]

    @property
    def along_deg(self) -> float:
        """The direction in which the ruler grows."""
        return 0.0 if self.runs_across else 90.0
