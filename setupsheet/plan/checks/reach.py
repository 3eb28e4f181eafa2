"""How far cutters reach out of what holds them; 0 where the shop file tells no length."""

from __future__ import annotations

from setupsheet.plan.checks import limits
from setupsheet.plan.checks.case import Case
from setupsheet.plan.record import ToolPlan


def out_of_holder(case: Case, tool: ToolPlan) -> float:
    """Return how far a cutter can stand out with its shank still held; jobber lengths for drills without their own."""
    cutter = case.cutter(tool.label)
    overall = cutter.overall_length_mm if cutter else 0.0
    if not overall and tool.kind == "drill":
        overall = limits.drill_length_mm(tool.diameter_mm)
    if not overall:
        return 0.0
    held = "held in a chuck" if tool.kind != "end mill" else "held in a collet"
    return max(0.0, overall - limits.mm(held))


def flutes(case: Case, tool: ToolPlan) -> float:
    """Return how long a drill's flutes are; the jobber length where nobody gave it, 0 where that is not known."""
    cutter = case.cutter(tool.label)
    own = cutter.flute_length_mm if cutter else 0.0
    return own or limits.flute_mm(tool.diameter_mm)
