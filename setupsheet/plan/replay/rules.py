"""Rules on the numbers of steps: what a pair of hands can do, in which order, with which cutter."""

from __future__ import annotations

import math
from itertools import pairwise

from setupsheet.plan.replay.cut import Json, largest_radius, tolerance_mm
from setupsheet.plan.replay.frames import in_part
from setupsheet.plan.replay.sites import name_of
from setupsheet.plane import Point3

_SAME = 1e-6
REAM_STOCK_MM = (0.02, 0.8)
"""mm on the diameter that a reamer may find; common practice, no source."""


def numbers(plan: Json) -> list[str]:
    """Return the objections that need no metal."""
    said: list[str] = []
    for setup in plan["setups"]:
        said += _order(setup) + _one_place(setup) + _reaming_stock(setup)
        for step in setup["steps"]:
            said += _by_hand(setup, step) + _stops(setup, step) + _points(setup, step) + _cutter(setup, step)
    return said + _over_setups(plan)


def _order(setup: Json) -> list[str]:
    said = []
    for place, step in enumerate(setup["steps"], 1):
        if step["number"] != place:
            said.append(f"{name_of(setup)}: step {step['number']} stands in place {place}")
        for earlier in step.get("depends_on", ()):
            if earlier >= step["number"]:
                said.append(f"{name_of(setup, step)} needs step {earlier}, which comes no earlier")
    return said


def _by_hand(setup: Json, step: Json) -> list[str]:
    """Object to ways of the table that are along no axis: one handwheel is turned at a time, at an angle too."""
    said = []
    for move in step["moves"]:
        if move["by"] not in ("table", "angle_setting"):
            continue
        for a, b in zip(move["path"], move["path"][1:], strict=False):
            if abs(a[0] - b[0]) > _SAME and abs(a[1] - b[1]) > _SAME:
                said.append(
                    f"{name_of(setup, step)}: from X {a[0]:g} Y {a[1]:g} to X {b[0]:g} Y {b[1]:g} is along no axis: "
                    "two handwheels cannot be turned as one"
                )
    return said


def _stops(setup: Json, step: Json) -> list[str]:
    """Object to a stop that no cut reaches, in a step that is given as cuts: one of the two is wrong."""
    said = []
    for limit in step["limits"]:
        index = "xyz".index(limit["axis"].lower())
        reached = [point[index] for move in step["moves"] for point in move["path"]] if index < 2 else []
        if reached and all(abs(value - limit["value"]) > _SAME for value in reached):
            said.append(f"{name_of(setup, step)}: no cut ends at the stop {limit['axis'].upper()} {limit['value']:g}")
    return said


def _points(setup: Json, step: Json) -> list[str]:
    """Object when a table of points and the cuts are not the same points."""
    if not step["points"] or not (step["moves"] or step["positions"]):
        return []
    there = {_key(x, y) for move in step["moves"] for x, y in move["path"]}
    there |= {_key(p["x"], p["y"]) for p in step["positions"]}
    said = []
    for pair in step["points"]:
        along_x = pair["step_axis"].lower() == "x"
        x, y = (pair["step"], pair["stop"]) if along_x else (pair["stop"], pair["step"])
        if _key(x, y) not in there:
            said.append(f"{name_of(setup, step)}: the point X {x:g} Y {y:g} of the table is not cut")
    return said


def _key(x: float, y: float) -> tuple[float, float]:
    return round(x, 5) + 0.0, round(y, 5) + 0.0


def _cutter(setup: Json, step: Json) -> list[str]:
    """Object when a cutter's size and half section disagree, or a step that cuts has no cutter."""
    tool = step["tool"]
    if tool is None:
        if step["removes"] and (step["positions"] or step["moves"] or step["arcs"]):
            return [f"{name_of(setup, step)} ({step['operation']}) cuts without a cutter"]
        return []
    used = step["positions"] or step["moves"] or step["arcs"]
    if used and tool["profile"] and not _right_shape(tool):
        return [f"{name_of(setup, step)}: the half section of {tool['label']} is not that of a {tool['kind']}"]
    if used and tool["profile"] and abs(2 * largest_radius(tool) - tool["diameter_mm"]) > 0.0005:
        return [
            f"{name_of(setup, step)}: {tool['label']} is {tool['diameter_mm']:g} in diameter, "
            f"its half section {2 * largest_radius(tool):g}"
        ]
    return []


def _right_shape(tool: Json) -> bool:
    """Tell whether a half section is straight, or has the point that the cutter is said to have."""
    points = [(float(r), float(h)) for r, h in tool["profile"]]
    if tool["kind"] in ("end mill", "reamer") and tool["corner_radius_mm"] == 0:
        return all(r in (0.0, largest_radius(tool)) for r, _ in points)
    if tool["kind"] not in ("drill", "spot drill", "countersink") or not 0 < tool["point_angle_deg"] < 180:
        return True
    wide = 2 * math.tan(math.radians(tool["point_angle_deg"] / 2))
    slope = next(((b[0] - a[0]) * 2 - (b[1] - a[1]) * wide for a, b in pairwise(points) if b[1] > a[1]), 0.0)
    return abs(slope) < 0.001


def _one_place(setup: Json) -> list[str]:
    """Object when steps on one hole stand at different X, Y."""
    said = []
    first: dict[tuple[str, str], tuple[float, float, int]] = {}
    for step in setup["steps"]:
        for p in step["positions"]:
            key = (p["feature"], p["label"])
            if not any(key):
                continue
            x, y, number = first.setdefault(key, (p["x"], p["y"], step["number"]))
            plunged = number == step["number"]
            if not plunged and math.hypot(p["x"] - x, p["y"] - y) > _SAME:
                said.append(
                    f"{name_of(setup, step)}: {p['label'] or p['feature']} is at X {p['x']:g} Y {p['y']:g}, "
                    f"in step {number} at X {x:g} Y {y:g}"
                )
    return said


def _reaming_stock(setup: Json) -> list[str]:
    """Object unless a reamer finds a little metal all round: not none, not a drill's share."""
    said = []
    drilled: dict[tuple[str, str], float] = {}
    for step in setup["steps"]:
        if step["tool"] is None:
            continue
        size = 2 * largest_radius(step["tool"])
        for p in step["positions"]:
            key = (p["feature"], p["label"])
            if "ream" in step["operation"] and key in drilled:
                stock = size - drilled[key]
                if not REAM_STOCK_MM[0] <= stock <= REAM_STOCK_MM[1]:
                    said.append(f"{name_of(setup, step)}: {stock:.3f} mm to ream at {p['label'] or p['feature']}")
            if step["removes"] and _makes_full_size(step):
                drilled[key] = max(drilled.get(key, 0.0), size)
    return said


def _makes_full_size(step: Json) -> bool:
    """Tell whether a step makes the hole over its depth, not only its mouth."""
    work = step["operation"]
    mouth_only = any(word in work for word in ("spot", "centre", "counter"))
    return not mouth_only and any(word in work for word in ("drill", "bore", "pilot"))


def _over_setups(plan: Json) -> list[str]:
    """Object when a hole worked from both sides stands at two places of the part."""
    said = []
    first: dict[tuple[str, str], tuple[Point3, Point3, float, str]] = {}
    for setup in plan["setups"]:
        near = tolerance_mm(setup)
        axis: Point3 = tuple(setup["part_to_setup"][2][:3])
        for step in setup["steps"]:
            for p in step["positions"]:
                key = (p["feature"], p["label"])
                here = in_part(setup, (p["x"], p["y"], 0.0))
                place, along, other, name = first.setdefault(key, (here, axis, near, name_of(setup, step)))
                gap = [b - a for a, b in zip(place, here, strict=True)]
                up = sum(g * w for g, w in zip(gap, along, strict=True))
                aside = math.sqrt(max(0.0, sum(g * g for g in gap) - up * up))
                parallel = abs(abs(sum(a * b for a, b in zip(along, axis, strict=True))) - 1) < _SAME
                if any(key) and parallel and aside > near + other and not name.startswith(name_of(setup) + " "):
                    said.append(
                        f"{name_of(setup, step)}: {p['label'] or p['feature']} stands {aside:.3f} mm "
                        f"beside its place in {name}"
                    )
    return said
