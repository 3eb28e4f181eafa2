"""How far cutters reach out of what holds them; 0 where the shop file tells no length."""

from __future__ import annotations

from setupsheet.plan.checks import limits
from setupsheet.plan.checks.case import Case
from setupsheet.plan.record import ToolPlan


def out_of_holder(tool: ToolPlan) -> float:
    """Return how far a cutter can hang out of its chuck or collet; 0 where its length is not known."""
    return tool.stickout_mm if tool.holder_diameter_mm else 0.0


def flutes(case: Case, tool: ToolPlan) -> float:
    """Return how long a drill's flutes are; the jobber length where nobody gave it, 0 where that is not known."""
    cutter = case.cutter(tool.label)
    own = cutter.flute_length_mm if cutter else 0.0
    return own or limits.flute_mm(tool.diameter_mm)
