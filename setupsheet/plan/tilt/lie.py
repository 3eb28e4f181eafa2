"""How the part of a setup at an angle lies: its frame, its outline from the front, the heights that count."""

from __future__ import annotations

from dataclasses import dataclass

from setupsheet.part.feature import Hole
from setupsheet.part.part import Part, SetupAsked
from setupsheet.plan.bench import Removed
from setupsheet.plan.milling import area
from setupsheet.plan.milling.area import Region
from setupsheet.plan.setup.hold import body_box
from setupsheet.plan.tilt.section import over, section
from setupsheet.plane import Point2
from setupsheet.solid.slopes import Slope
from setupsheet.solid.tilted import Tilted


@dataclass(frozen=True, slots=True)
class Lie:
    """A part at an angle: ``metal`` is its outline now in setup X and Z, ``done`` that of the finished part.

    ``work`` holds the level faces with their heights, the highest first; ``y`` is where the metal begins and ends.
    """

    part: Part
    asked: SetupAsked
    tilted: Tilted
    metal: Region
    done: Region
    work: tuple[tuple[Slope, float], ...]
    y: tuple[float, float]

    @property
    def low(self) -> float:
        """Height of the corner on which the part stands."""
        return area.bounds(self.metal)[0][1]

    @property
    def top(self) -> float:
        """Height of the highest metal."""
        return area.bounds(self.metal)[1][1]

    @property
    def x(self) -> tuple[float, float]:
        """Where the metal begins and ends along X."""
        (x0, _), (x1, _) = area.bounds(self.metal)
        return x0, x1

    @property
    def floor(self) -> float:
        """Height of the lowest face to be milled; the top where nothing is."""
        return self.work[-1][1] if self.work else self.top

    @property
    def top_after(self) -> float:
        """Height of the highest metal when the work is done."""
        return min(self.top, area.bounds(self.done)[1][1]) if self.work else self.top


def lie_of(
    part: Part, asked: SetupAsked, tilted: Tilted, removed: Removed, rest: tuple[Removed, tuple[Slope, ...]]
) -> Lie:
    """Return how the part lies; ``rest``: what the finished part lacks of its envelope, and the level faces."""
    finished, slopes = rest
    body = body_box(part, tilted.upright, removed)
    work = sorted(((slope, tilted.flat(slope.line[0])[1]) for slope in slopes), key=lambda row: -row[1])
    metal = section(part.stock.box, removed, tilted)
    done = area.common(metal, section(part.box, finished, tilted))
    return Lie(part, asked, tilted, metal, done, tuple(work), (body.low[1], body.high[1]))


def metal_over(lie: Lie, low: float, high: float) -> tuple[float, float] | None:
    """Return from where to where along X metal stands between two heights; None if there is none."""
    region = over(lie.metal, low, high)
    if area.is_empty(region):
        return None
    (x0, _), (x1, _) = area.bounds(region)
    return x0, x1


def hole_at(lie: Lie, name: str) -> tuple[Hole, Point2] | None:
    """Return a single hole that runs along Y, and where its middle is in X and Z."""
    hole = next((f for f in lie.part.features if isinstance(f, Hole) and f.id == name), None)
    if hole is None or hole.face.axis != lie.tilted.upright.axes[1] or len(hole.spots) != 1:
        return None
    return hole, lie.tilted.flat(hole.spots[0].at)
