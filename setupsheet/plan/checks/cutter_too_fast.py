"""The slowest speed of the machine is still too fast for a cutter.

What: the speed of each step at the cutter's rim against the fastest that its material and the work's bear.
Why at the machine: the cutting edges burn off, in steel within a minute, and the hole or face is spoiled.
What to do: use a smaller cutter, a fly cutter on a small circle, a boring head, or a machine that turns slower.
Source: the table of cutting speeds, each row with its own source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case
from setupsheet.plan.record import Step
from setupsheet.tables import speeds
from setupsheet.tables.unknown import NotInTables

CODE = "cutter-too-fast"
_NAMES = {"face": "mill", "pilot": "drill", "core drill": "drill", "spotface": "counterbore"}
_ASKED = ("mill", "drill", "ream", "counterbore")


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each step whose rim runs too fast at the lowest speed there is."""
    for held, step in case.steps():
        name = _NAMES.get(step.operation, step.operation)
        if step.tool is None or step.method == "boring_head" or name not in _ASKED or not held.machine.speeds_rpm:
            continue
        high = _high(case, step, name)
        runs = speeds.cutting_speed_m_min(step.rpm, step.tool.diameter_mm)
        if high and step.rpm <= min(held.machine.speeds_rpm) and runs > high * 1.05:
            yield At(case, held, step, next(iter(step.features), "")).caution(
                CODE,
                f"{step.rpm} rpm, the slowest there is, runs the {step.tool.label} at {runs:.0f} m/min",
                found=f"{runs:.0f} m/min",
                allowed=f"up to {high:.0f} m/min in {case.part.material}",
                because="the cutting edges burn off",
                try_="short touches with plenty of oil, or a smaller cutter or a boring head",
            )


def _high(case: Case, step: Step, name: str) -> float:
    """Return the fastest cutting speed of the table; 0 where it has none."""
    cutter = case.cutter(step.tool.label) if step.tool else None
    try:
        return speeds.start(case.part.material_group, name, cutter.material if cutter else "hss").high_m_min
    except NotInTables:
        return 0.0
