"""What a check looks at: the plan, the part, the shop, and the metal that stands before each step.

A check asks here and never works geometry out for itself. Coordinates are those of the setup named.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from setupsheet.finding import Place
from setupsheet.part.face import Box, Face
from setupsheet.part.feature import Feature, Hole
from setupsheet.part.part import Part, SetupAsked
from setupsheet.part.shop import Cutter, Machine, Shop, Vise
from setupsheet.plan.checks.near import Near, Spans
from setupsheet.plan.record import Body, Plan, Position, Setup, Step
from setupsheet.plan.sizes import length
from setupsheet.plane import Point2
from setupsheet.solid.laid import Laid
from setupsheet.solid.volume import Primitive

Removed = tuple[Primitive, ...]
_OTHERS = ((1, 2), (0, 2), (0, 1))
_FEW = (0.04, 0.27, 0.53, 0.72, 0.96)
_MANY = (0.03, 0.17, 0.29, 0.41, 0.53, 0.66, 0.79, 0.9, 0.97)
"""Shares of a face's length and width, none of them on its middle lines or edges."""


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

    def gone_at(self, step: Step) -> int:
        """Return how many volumes are gone when a step begins."""
        return len(self.gone_before) + sum(len(volume) for volume in self.takes[: step.number - 1])

    def gone_by(self, step: Step) -> int:
        """Return how many volumes are gone when a step ends."""
        return len(self.gone_before) + sum(len(volume) for volume in self.takes[: step.number])

    @property
    def gone_first(self) -> int:
        """How many volumes are gone when the setup begins."""
        return len(self.gone_before)

    @property
    def gone_last(self) -> int:
        """How many volumes are gone when the setup ends."""
        return len(self.gone_before) + sum(len(volume) for volume in self.takes)

    @property
    def jaws(self) -> tuple[Body, ...]:
        """The jaws, fixed one first; none on the table."""
        return tuple(body for body in self.setup.hold.bodies if body.name in ("fixed jaw", "moving jaw"))

    @property
    def raised(self) -> tuple[Body, ...]:
        """What stands beside the part and may be struck from above: jaws, clamps and their bolts."""
        clamps = (body for body in self.setup.hold.bodies if body.name.startswith(("clamp ", "bolt ")))
        return (*self.jaws, *clamps)

    @property
    def parallels(self) -> tuple[Body, ...]:
        """What lies under the part as parallels or packing."""
        return tuple(body for body in self.setup.hold.bodies if body.name.startswith(("parallel", "packing")))

    @property
    def rest_z(self) -> float:
        """Height of what the part rests on."""
        return self.setup.hold.jaw_top_z - self.setup.hold.grip_mm

    @property
    def in_vise(self) -> bool:
        """Whether jaws hold the part."""
        return self.setup.hold.in_ == "vise"


@dataclass(frozen=True, slots=True)
class Case:
    """Everything a check may ask. ``body`` is the stock less all work in its order, ``drawn`` the finished part."""

    part: Part
    shop: Shop
    plan: Plan
    clamped: tuple[Clamped, ...]
    body: Near
    drawn: Near

    def steps(self) -> Iterator[tuple[Clamped, Step]]:
        """Yield every step with its setup, in order of work."""
        for held in self.clamped:
            for step in held.setup.steps:
                yield held, step

    def drilled(self, *operations: str) -> Iterator[tuple[Clamped, Step, Position, Hole]]:
        """Yield every place that the named operations go to."""
        for held, step in self.steps():
            if step.operation in operations:
                for at in step.positions:
                    hole = self.feature(at.feature)
                    if isinstance(hole, Hole):
                        yield held, step, at, hole

    def feature(self, id_: str) -> Feature | None:
        """Return a feature by its id, or None."""
        return next((f for f in self.part.features if f.id == id_), None)

    def place_of(self, id_: str) -> Place | None:
        """Return where a feature is written."""
        feature = self.feature(id_)
        return feature.place if feature else None

    def made_at(self, id_: str) -> tuple[Clamped, Step] | None:
        """Return the last step that works on a feature."""
        rows = [(held, step) for held, step in self.steps() if id_ in step.features]
        return rows[-1] if rows else None

    def cutter(self, label: str) -> Cutter | None:
        """Return the shop's cutter with this label."""
        return next((c for c in self.shop.cutters if c.label == label), None)

    def vise(self, held: Clamped) -> Vise | None:
        """Return the vise of a setup."""
        return self.shop.vises[0] if held.in_vise and self.shop.vises else None

    def size(self, value_mm: float) -> str:
        """Return a length with its unit, as the part's author counts."""
        return f"{length(value_mm, self.part.unit)} {self.part.unit.short}"

    def metal(self, held: Clamped, gone: int, at: Point2, axis: int = 2) -> Spans:
        """Return the intervals of metal along a setup axis, rising; ``at``: the other two, in their order."""
        return _asked(self.body, held.laid, at, axis, gone)

    def finished(self, held: Clamped, at: Point2, axis: int = 2) -> Spans:
        """Return the intervals of metal of the finished part along a setup axis, rising."""
        return _asked(self.drawn, held.laid, at, axis, None)

    def finished_in(self, face: Face) -> int | None:
        """Return the number of the setup that leaves a face finished; 0 as bought, None if none does."""
        if face in self.part.stock.as_bought:
            return 0
        places = list(self._on(face, _FEW))
        for held in self.clamped:
            if all(self._stands_at(face, at, held.gone_last) for at in places):
                return held.setup.number
        return None

    def left_on(self, face: Face, gone: int | None = None) -> float:
        """Return which share of a finished face still has metal beyond it."""
        places = list(self._on(face, _FEW))
        if not places:
            return 0.0
        return sum(not self._stands_at(face, at, gone) for at in places) / len(places)

    def share_of(self, face: Face) -> float:
        """Return which share of a face of the envelope the finished part still has."""
        return sum(1 for _ in self._on(face, _MANY)) / len(_MANY) ** 2

    def _on(self, face: Face, shares: tuple[float, ...]) -> Iterator[Point2]:
        """Yield places over a face of the envelope, at these shares of its length and width, where it still is."""
        plane = self.part.box.at(face)
        for at in _grid(self.part.box, face, shares):
            spans = self.drawn.metal(face.axis, at)
            if spans and abs((spans[-1][1] if face.sign > 0 else spans[0][0]) - plane) < 1e-3:
                yield at

    def _stands_at(self, face: Face, at: Point2, gone: int | None) -> bool:
        spans = self.body.metal(face.axis, at, gone)
        end = (spans[-1][1] if face.sign > 0 else spans[0][0]) if spans else self.part.box.at(face)
        return (end - self.part.box.at(face)) * face.sign < 1e-3


def _grid(box: Box, face: Face, shares: tuple[float, ...]) -> Iterator[Point2]:
    u, v = face.in_plane
    for s in shares:
        for t in shares:
            yield box.low[u] + s * box.size[u], box.low[v] + t * box.size[v]


def _asked(near: Near, laid: Laid, at: Point2, axis: int, gone: int | None) -> Spans:
    spread = [0.0, 0.0, 0.0]
    for index, value in zip(_OTHERS[axis], at, strict=True):
        spread[index] = value
    point = laid.to_part((spread[0], spread[1], spread[2]))
    along = laid.axes[axis]
    u, v = _OTHERS[along]
    spans = near.metal(along, (point[u], point[v]), gone)
    ends = [sorted((laid.along(axis, low), laid.along(axis, high))) for low, high in spans]
    return tuple(sorted((low, high) for low, high in ends))
