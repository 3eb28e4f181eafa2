"""Rules on a rotary table's arcs: one axis at zero, angles that the table can be set to, texts that say them."""

from __future__ import annotations

import math
import re

from setupsheet.plan.replay.cut import Json, half_angle_rad, tolerance_mm
from setupsheet.plan.replay.sites import name_of
from setupsheet.plane import polar

_WHOLE, _QUARTER = 360.0, 90.0
_SAME = 1e-6
_MULTIPLE = 1e-4
"""Of a step: float noise allowed in a multiple."""
_DECIMAL = re.compile(r"^(\d+(?:\.\d+)?)°$")
_PARTS = re.compile(r"^(\d+)°(\d\d)'(?:(\d\d)\")?$")


def angles_shown(setup: Json, step: Json) -> list[str]:
    """Return what is wrong with a step's arcs as numbers and as texts; no metal is asked."""
    if not step["arcs"]:
        return []
    name = name_of(setup, step)
    angle_step = max((float(readout["angle_step_deg"]) for readout in setup["readout"].values()), default=0.0)
    if angle_step <= 0:
        return [f"{name}: arcs are cut, but nothing in this setup turns by an angle"]
    angle_step = _QUARTER / round(_QUARTER / angle_step)
    said = []
    for arc in step["arcs"]:
        if math.hypot(*arc["centre"]) > _SAME:
            said.append(f"{name}: an arc about X {arc['centre'][0]:g} Y {arc['centre'][1]:g}: the table's axis is zero")
        if abs(arc["from_deg"] - arc["to_deg"]) < _SAME:
            said.append(f"{name}: an arc that turns by nothing")
        for key in ("from", "to"):
            said += _angle(setup, angle_step, arc[f"{key}_deg"], arc.get("shown", {}).get(key, ""), f"{name}: {key}")
    return list(dict.fromkeys(said))


def circles_by_angle(setup: Json) -> list[str]:
    """Return where holes offered as angles of the table do not stand where X and Y put them, or read otherwise."""
    angle_step = max((float(readout["angle_step_deg"]) for readout in setup["readout"].values()), default=0.0)
    said = []
    for circle in setup.get("by_angle", ()):
        name = f"{name_of(setup)}: {circle['feature']} by the table"
        if angle_step <= 0:
            return [f"{name}: nothing in this setup turns by an angle"]
        near = tolerance_mm(setup) + circle["radius"] * half_angle_rad(setup)
        at = {(p["feature"], p["label"]): (p["x"], p["y"]) for step in setup["steps"] for p in step["positions"]}
        step_deg = _QUARTER / round(_QUARTER / angle_step)
        for hole in circle["places"]:
            said += _angle(setup, step_deg, hole["angle_deg"], hole["shown"], f"{name}: {hole['label']}")
            place = polar((0.0, 0.0), circle["radius"], hole["angle_deg"])
            if math.dist(place, at.get((circle["feature"], hole["label"]), place)) > near:
                said.append(
                    f"{name}: {hole['label']} comes {math.dist(place, at[circle['feature'], hole['label']]):.3f} off"
                )
        said += _chord(circle, name, near)
    return said


def _chord(circle: Json, name: str, near: float) -> list[str]:
    first, second = (polar((0.0, 0.0), circle["radius"], hole["angle_deg"]) for hole in circle["places"][:2])
    if abs(math.dist(first, second) - circle["chord"]) <= near:
        return []
    return [f"{name}: the first two stand {math.dist(first, second):.3f} apart, not {circle['chord']:.3f}"]


def reading_deg(text: str) -> float | None:
    """Return the angle that a table's reading says: 12.5°, 12°30', 12°30'15"; None where it is none."""
    decimal, parts = _DECIMAL.match(text), _PARTS.match(text)
    if decimal:
        return float(decimal[1])
    return int(parts[1]) + int(parts[2]) / 60 + int(parts[3] or 0) / 3600 if parts else None


def _angle(setup: Json, step: float, value: float, text: str, what: str) -> list[str]:
    said = []
    if abs(value / step - round(value / step)) > _MULTIPLE:
        said.append(f"{what} {value:g} degrees: no multiple of what the table can be set to ({step:g})")
    reading = reading_deg(text) if text else None
    if text and reading is None:
        said.append(f"{what}: {text} is no reading of a table")
    wanted = value * setup["counts"].get("angle", 1)
    if reading is not None and abs(math.remainder(reading - wanted, _WHOLE)) > step / 2:
        said.append(f"{what}: the sheet shows {text}, but the angle cut is {value:g} degrees")
    return said
