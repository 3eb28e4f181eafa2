"""A step before it has its number, and small helps to write one.

Every maker of steps (milling, holes, boss) returns drafts: the step, the metal it takes in the part
frame, and whether its cutter is new. Numbers, touch-offs and dependencies are added in sequence.py.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from setupsheet.part.part import Part
from setupsheet.part.shop import Cutter
from setupsheet.plan.bench import Bench
from setupsheet.plan.checks import limits
from setupsheet.plan.record import Step, ToolPlan
from setupsheet.plane import Point2, Point3
from setupsheet.solid import extent
from setupsheet.solid.volume import Primitive, Volume


@dataclass(frozen=True, slots=True)
class Draft:
    """A step without number, and the volumes (part frame) that it takes away."""

    step: Step
    takes: tuple[Primitive, ...] = ()
    cutter: Cutter | None = None


def step(operation: str, title: str, features: tuple[str, ...], **more: object) -> Step:
    """Return a step with everything empty that is not given."""
    empty: dict[str, object] = {
        "method": "none",
        "removes": False,
        "tool": None,
        "rpm": 0,
        "rpm_words": "",
        "feed_mm_per_min": 0.0,
        "feed_s_per_turn": 0.0,
        "touch_off": None,
        "direction": "",
    }
    return Step(number=0, operation=operation, title=title, features=features, **{**empty, **more})  # type: ignore[arg-type]


def tool_plan(cutter: Cutter, profile: tuple[Point2, ...] | None = None) -> ToolPlan:
    """Return the cutter as the plan lists it, with its half section."""
    flute = cutter.flute_length_mm or 3 * cutter.diameter_mm
    shank = cutter.shank_diameter_mm or cutter.diameter_mm
    stickout, holder = hangs_out(cutter)
    return ToolPlan(
        cutter.kind,
        cutter.label,
        cutter.owned,
        cutter.diameter_mm,
        _point_angle(cutter),
        cutter.corner_radius_mm,
        flute,
        shank,
        stickout or flute + 2 * cutter.diameter_mm,
        profile or half_section(cutter, flute),
        holder,
    )


def hangs_out(cutter: Cutter) -> tuple[float, float]:
    """Return how far a cutter can hang out of what holds it and how wide that is; 0 and 0 if its length is not known.

    A drill whose length nobody gave is a jobber drill.
    """
    overall = cutter.overall_length_mm
    if not overall and cutter.kind == "drill":
        overall = limits.drill_length_mm(cutter.diameter_mm)
    collet = cutter.kind == "end mill"
    out = overall - limits.mm("held in a collet" if collet else "held in a chuck")
    return (out, limits.mm("collet holder diameter" if collet else "drill chuck diameter")) if out > 0 else (0.0, 0.0)


def half_section(cutter: Cutter, flute_mm: float) -> tuple[Point2, ...]:
    """Return the half section of a cutter, [radius, height above tip], from the tip up."""
    radius = cutter.diameter_mm / 2
    if cutter.kind in ("drill", "spot drill", "countersink", "centre drill"):
        tip = cutter.tip_mm / 2
        rise = (radius - tip) / tangent_of_half(cutter.point_angle_deg)
        start = ((0.0, 0.0), (tip, 0.0)) if tip > 0 else ((0.0, 0.0),)
        return (*start, (radius, rise), (radius, max(flute_mm, rise + 0.5)))
    return ((0.0, 0.0), (radius, 0.0), (radius, flute_mm))


def tangent_of_half(angle_deg: float) -> float:
    """Return the tangent of half a point angle."""
    return math.tan(math.radians(angle_deg / 2))


def _point_angle(cutter: Cutter) -> float:
    pointed = cutter.kind in ("drill", "spot drill", "countersink", "centre drill")
    return cutter.point_angle_deg if pointed else 180.0


def where_words(bench: Bench, at: Point2) -> str:
    """Return a place as the machine shows it: 'X +20.285 Y -5.435'."""
    return f"X {bench.shown('x', at[0])} Y {bench.shown('y', at[1])}"


def region_of(part: Part, volume: Volume) -> tuple[Point3, Point3]:
    """Return the box (part frame) in which a volume meets the finished envelope: where hand work stands."""
    boxes = [extent.bounds(shape) for shape in volume]
    low = [max(part.box.low[i], min(box.low[i] for box in boxes)) for i in range(3)]
    high = [min(part.box.high[i], max(box.high[i] for box in boxes)) for i in range(3)]
    return (low[0], low[1], low[2]), (high[0], high[1], high[2])
