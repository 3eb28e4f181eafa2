"""The boring head's bar sweeps into a jaw.

What: the outer sweep of every ring cut (edge inward: the bar stands outside of it) against the jaws, lower than their
tops.
Why at the machine: the bar strikes the jaw at every turn: head, bar and part are wrecked.
What to do: lift the part, or turn it so that the boss lies farther from the jaws.
Source: common practice, no source (clear everything that stands inside the sweep).
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks import swept
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "boring-head-hits-jaw"


def check(case: Case) -> Iterator[Bite]:
    """Yield an error for each step and jaw that meet."""
    for held, step in case.steps():
        if not step.rings or step.tool is None:
            continue
        bar = step.tool.diameter_mm
        sweep = max(r.radius_inner + bar if r.edge == "in" else r.radius_outer for r in step.rings)
        low = min(r.z_to for r in step.rings)
        for jaw in held.jaws:
            away = swept.to_box(step.rings[0].centre, jaw)
            if low < jaw.high[2] - 1e-6 and away < sweep:
                yield At(case, held, step, next(iter(step.features), "")).error(
                    CODE,
                    f"the bar sweeps a radius of {case.size(sweep)}, and the {jaw.name} stands at {case.size(away)}",
                    found=case.size(sweep),
                    allowed=f"less than {case.size(away)}, or above the jaws' tops",
                    because="the bar strikes the jaw at every turn",
                    try_="put the part on higher parallels, so that the floor lies over the jaws",
                )
