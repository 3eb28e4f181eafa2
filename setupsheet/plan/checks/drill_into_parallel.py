"""A through drill runs into a parallel.

What: every drill, reamer or tap whose tip goes below the rest, against the bodies that hold the part.
Why at the machine: the drill is ruined, the parallel is scarred and the part jumps.
What to do: move the parallels, take them out once the part is tight, or lift the part higher.
Source: planning rules M37 and M38 (common practice, no source).
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from setupsheet.finding import Finding, error
from setupsheet.plan.checks.case import Case, Clamped
from setupsheet.plan.record import Body, Position, Step

CODE = "drill-into-parallel"


def check(case: Case) -> Iterator[Finding]:
    """Yield an error for every hole that reaches a parallel or the vise's bed."""
    for held, step in case.steps():
        if step.method != "quill" or step.tool is None:
            continue
        for at in step.positions:
            for body in _below(held):
                if _meets(at, step, body):
                    yield _finding(case, held, step, at, body)


def _below(held: Clamped) -> list[Body]:
    return [b for b in held.setup.hold.bodies if b.name.startswith("parallel") or b.name in ("vise bed", "table")]


def _meets(at: Position, step: Step, body: Body) -> bool:
    """Tell whether the drill's tip at its depth lies in or over the edge of a body."""
    if at.z_to >= body.high[2] - 1e-6:
        return False
    radius = step.tool.diameter_mm / 2 if step.tool else 0.0
    away_x = max(body.low[0] - at.x, 0.0, at.x - body.high[0])
    away_y = max(body.low[1] - at.y, 0.0, at.y - body.high[1])
    return math.hypot(away_x, away_y) < radius


def _finding(case: Case, held: Clamped, step: Step, at: Position, body: Body) -> Finding:
    return error(
        CODE,
        f"setup {held.setup.number} step {step.number}: the {step.tool.label if step.tool else 'drill'} at {at.label} "
        f"runs into the {body.name}",
        case.place_of(at.feature),
        feature=at.feature,
        found=f"tip at Z {at.shown['z']}",
        allowed=f"above the {body.name}, or clear of it",
        because="the drill breaks, and the parallel and the part with it",
        try_="move the parallels clear of the hole, or use narrower or higher ones",
    )
