"""What a check looks at: the plan, the part, the shop, and the metal that stands before each step.

A check asks here and never works geometry out for itself. Coordinates are those of the setup named.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from setupsheet.finding import Place
from setupsheet.part.face import Box
from setupsheet.part.feature import Feature
from setupsheet.part.part import Part, SetupAsked
from setupsheet.part.shop import Machine, Shop
from setupsheet.plan.record import Plan, Setup, Step
from setupsheet.plane import Point2
from setupsheet.solid import column
from setupsheet.solid.laid import Laid
from setupsheet.solid.volume import Primitive

Removed = tuple[Primitive, ...]
Spans = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Clamped:
    """One setup as planned: its record, what was asked, how the part lies, the metal gone before it.

    ``takes`` are the volumes (part frame) that each of its steps takes, step by step.
    """

    setup: Setup
    asked: SetupAsked
    machine: Machine
    laid: Laid
    gone_before: Removed
    takes: tuple[Removed, ...]

    def gone_at(self, step: Step) -> Removed:
        """Return what is gone when a step begins."""
        taken = (shape for volume in self.takes[: step.number - 1] for shape in volume)
        return (*self.gone_before, *taken)

    @property
    def gone_after(self) -> Removed:
        """Return what is gone when the setup ends."""
        return (*self.gone_before, *(shape for volume in self.takes for shape in volume))


@dataclass(frozen=True, slots=True)
class Case:
    """Everything a check may ask."""

    part: Part
    shop: Shop
    plan: Plan
    clamped: tuple[Clamped, ...]
    finished: Removed

    def steps(self) -> Iterator[tuple[Clamped, Step]]:
        """Yield every step with its setup, in order of work."""
        for held in self.clamped:
            for step in held.setup.steps:
                yield held, step

    def feature(self, id_: str) -> Feature | None:
        """Return a feature by its id, or None."""
        return next((f for f in self.part.features if f.id == id_), None)

    def place_of(self, id_: str) -> Place | None:
        """Return where a feature is written."""
        feature = self.feature(id_)
        return feature.place if feature else None

    def metal(self, held: Clamped, gone: Removed, at: Point2) -> Spans:
        """Return the intervals of metal over a point of a setup, rising, in its Z."""
        return _in_setup(held.laid, self.part.stock.box, gone, at)

    def finished_metal(self, held: Clamped, at: Point2) -> Spans:
        """Return the intervals of metal of the finished part over a point of a setup, rising, in its Z."""
        return _in_setup(held.laid, self.part.box, self.finished, at)


def _in_setup(laid: Laid, box: Box, gone: Removed, at: Point2) -> Spans:
    point = laid.to_part((at[0], at[1], 0.0))
    u, v = laid.up.in_plane
    spans = column.metal(box, gone, laid.up.axis, (point[u], point[v]))
    ends = [sorted((laid.along(2, low), laid.along(2, high))) for low, high in spans]
    return tuple(sorted((low, high) for low, high in ends))
