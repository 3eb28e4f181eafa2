"""Milling is planned on a drill press.

What: every step that cuts sideways against the kind of its machine.
Why at the machine: the chuck's taper is only pressed in: side load shakes it loose, and chuck and cutter fly off.
What to do: name a milling machine for that setup, or saw and file.
Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "milling-on-drill-press"


def check(case: Case) -> Iterator[Bite]:
    """Yield an error for each setup that mills on a drill press."""
    for held in case.clamped:
        if held.machine.kind != "drill press":
            continue
        step = next((s for s in held.setup.steps if s.moves or s.rings or s.arcs), None)
        if step is not None:
            yield At(case, held, step, next(iter(step.features), "")).error(
                CODE,
                f"{step.title} is milled, and {held.machine.name} is a drill press",
                found=held.machine.name,
                allowed="a milling machine",
                because="side load shakes the chuck's taper loose, and chuck and cutter fly off",
                try_="write machine: with a milling machine for this setup, or saw and file it",
            )
