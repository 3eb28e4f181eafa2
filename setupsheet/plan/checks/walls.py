"""How much metal stands beside a hole: looked at on circles round it, over the height that is drilled."""

from __future__ import annotations

from collections.abc import Callable

from setupsheet.plan.checks import limits, swept
from setupsheet.plan.checks.case import Case, Clamped
from setupsheet.plan.checks.near import Spans
from setupsheet.plan.record import Position, Step
from setupsheet.plane import Point2

_HAIR_MM = 0.02
_NO_MATTER_MM = 0.6
"""A height of thin wall that a broken edge takes anyway."""


def thin_when_drilled(case: Case, held: Clamped, step: Step, at: Position) -> bool:
    """Tell whether the wall beside a hole is thinner than the limit at the moment when it is drilled."""
    if step.tool is None:
        return False
    gone = held.gone_at(step)
    return thin(lambda place: case.metal(held, gone, place), at, step.tool.diameter_mm / 2)


def thin(metal: Callable[[Point2], Spans], at: Position, radius: float) -> bool:
    """Tell whether metal stands right beside a hole of a radius and none a little farther out, at some height.

    ``metal`` gives what stands over a place; only what lies between the hole's start and end counts.
    """
    least, centre = limits.mm("least wall at a hole"), (at.x, at.y)
    outside = swept.ring(centre, radius + least - _HAIR_MM)
    for near, far in zip(swept.ring(centre, radius + _HAIR_MM), outside, strict=True):
        beyond = metal(far)
        beside = _within(metal(near), at.z_full, at.z_from) if _open(beyond, at) else ()
        if sum(high - low - _covered(beyond, low, high) for low, high in beside) > _NO_MATTER_MM:
            return True
    return False


def _open(spans: Spans, at: Position) -> bool:
    """Tell whether metal is missing somewhere over the height of a hole."""
    return at.z_from - at.z_full - _covered(spans, at.z_full, at.z_from) > _NO_MATTER_MM


def _covered(spans: Spans, low: float, high: float) -> float:
    return sum(b - a for a, b in _within(spans, low, high))


def _within(spans: Spans, low: float, high: float) -> Spans:
    return tuple((max(a, low), min(b, high)) for a, b in spans if b > low and a < high)
