"""A through drill runs into a parallel.

What: every drill, reamer or tap whose tip goes below the rest, against the bodies that hold the part.
Why at the machine: the drill is ruined, the parallel is scarred and the part jumps.
What to do: move the parallels, take them out once the part is tight, or lift the part higher.
Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from setupsheet.plan.checks import swept
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case, Clamped
from setupsheet.plan.record import Body, Position, Step
from setupsheet.plan.setup.parallels import BESIDE_MM

CODE = "drill-into-parallel"


def check(case: Case) -> Iterator[Bite]:
    """Yield an error for every hole feature of a setup that reaches a parallel or the vise's bed."""
    met: dict[tuple[int, str], _Met] = {}
    for held, step in case.steps():
        if step.method not in ("quill", "by_hand") or step.tool is None:  # a tap goes down by hand
            continue
        radius = step.tool.diameter_mm / 2
        for at in step.positions:
            for body in _below(held):
                if at.z_to < body.high[2] - 1e-6 and swept.to_box((at.x, at.y), body) < radius + BESIDE_MM:
                    key = (held.setup.number, at.feature)
                    first = met.setdefault(key, _Met(At(case, held, step, at.feature), step, at))
                    first.places[at.label] = None
                    first.bodies[body.name] = None
    yield from (_bite(first) for first in met.values())


@dataclass(frozen=True, slots=True)
class _Met:
    """The first step of a hole feature that meets something below it, and every place and body that is met."""

    at: At
    step: Step
    place: Position
    places: dict[str, None] = field(default_factory=dict)
    bodies: dict[str, None] = field(default_factory=dict)


def _below(held: Clamped) -> list[Body]:
    return [*held.parallels, *(b for b in held.setup.hold.bodies if b.name in ("vise bed", "table"))]


def _bite(met: _Met) -> Bite:
    bodies = " and ".join(f"the {name}" for name in met.bodies)
    drill = met.step.tool.label if met.step.tool else "drill"
    return met.at.error(
        CODE,
        f"the {drill} at {', '.join(sorted(met.places))} runs into {bodies}",
        found=f"tip at Z {met.place.shown['z']}",
        allowed=f"above {bodies}, or clear of {'them' if len(met.bodies) > 1 else 'it'}",
        because="the drill breaks, and the parallel and the part with it",
        try_="move the parallels clear of the hole, or use narrower or higher ones",
    )
