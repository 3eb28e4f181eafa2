"""A through drill runs into a parallel.

What: every drill, reamer or tap whose tip goes below the rest, against the bodies that hold the part.
Why at the machine: the drill is ruined, the parallel is scarred and the part jumps.
What to do: move the parallels, take them out once the part is tight, or lift the part higher.
Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks import swept
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case, Clamped
from setupsheet.plan.record import Body, Position, Step

CODE = "drill-into-parallel"

_BESIDE_MM = 0.1
"""A gap that nobody sets a parallel to. Common practice, no source."""


def check(case: Case) -> Iterator[Bite]:
    """Yield an error for every hole that reaches a parallel or the vise's bed."""
    for held, step in case.steps():
        if step.method not in ("quill", "by_hand") or step.tool is None:  # a tap goes down by hand
            continue
        radius = step.tool.diameter_mm / 2
        for at in step.positions:
            for body in _below(held):
                if at.z_to < body.high[2] - 1e-6 and swept.to_box((at.x, at.y), body) < radius + _BESIDE_MM:
                    yield _bite(At(case, held, step, at.feature), step, at, body)


def _below(held: Clamped) -> list[Body]:
    return [*held.parallels, *(b for b in held.setup.hold.bodies if b.name in ("vise bed", "table"))]


def _bite(at: At, step: Step, place: Position, body: Body) -> Bite:
    return at.error(
        CODE,
        f"the {step.tool.label if step.tool else 'drill'} at {place.label} runs into the {body.name}",
        found=f"tip at Z {place.shown['z']}",
        allowed=f"above the {body.name}, or clear of it",
        because="the drill breaks, and the parallel and the part with it",
        try_="move the parallels clear of the hole, or use narrower or higher ones",
    )
