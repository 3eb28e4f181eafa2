"""Rules on a rotary table's arcs: one axis at zero, angles that the table can be set to, texts that say them."""

from __future__ import annotations

import math
import re

from setupsheet.plan.replay.cut import Json
from setupsheet.plan.replay.sites import name_of

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
