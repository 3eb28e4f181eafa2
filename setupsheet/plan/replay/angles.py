"""Rules on setups at an angle: the stack turns the bar by what is said, and the part lies as the bar sets it."""

from __future__ import annotations

import math

from setupsheet.plan.replay.cut import Json, half_angle_rad, tolerance_mm
from setupsheet.plan.replay.sites import name_of

_EXACT_DEG = 1e-6
_STACK_MM = 0.002
"""By how much a stack may miss the sine: the step of a set of blocks (.0001 in is 0.00254 mm), half of it each way."""
_FINEST_MM = 0.00254
"""The coarsest step of a set of gauge blocks, .0001 in."""
_STEEPEST_DEG = 45.0
_NORMALS = {
    "right": (1, 0, 0),
    "left": (-1, 0, 0),
    "back": (0, 1, 0),
    "front": (0, -1, 0),
    "top": (0, 0, 1),
    "bottom": (0, 0, -1),
}


def angles(setup: Json) -> list[str]:
    """Return what is wrong with how a setup's part is set to its angle."""
    told = setup.get("angle_setting")
    rows = [row[:3] for row in setup["part_to_setup"][:3]]
    tilted = any(1e-9 < abs(value) < 1 - 1e-9 for row in rows for value in row)
    if told is None:
        return [f"{name_of(setup)} lies at an angle, but nothing says how it is set"] if tilted else []
    return [*_lies(setup, told, rows), *_bar(setup, told), *_step(setup, told)]


def _lies(setup: Json, told: Json, rows: list[list[float]]) -> list[str]:
    """Object unless the face on the bar leans by the bar's angle, its raised side over the raised roll."""
    normal = _NORMALS[told["rests_on"]]
    x, y, z = (sum(a * b for a, b in zip(row, normal, strict=True)) for row in rows)
    lean = math.degrees(math.atan2(x, -z))
    wanted = told["set_deg"] if told["roll"] == "right" else -told["set_deg"]
    near = math.degrees(half_angle_rad(setup))
    said = []
    if abs(y) > 1e-9 or abs(lean - wanted) > max(near, _EXACT_DEG):
        said.append(
            f"{name_of(setup)}: the {told['rests_on']} face on a bar at {told['set_deg']:.4f} degrees, {told['roll']} "
            f"roll up, does not lie as part_to_setup has it ({lean:.4f})"
        )
    tilt = 90 - told["set_deg"] if told["complement"] else told["set_deg"]
    upright = told["raised"] if not told["complement"] else {"left": "right", "right": "left"}[told["raised"]]
    if abs(tilt - told["tilt_deg"]) > _EXACT_DEG or upright != told["roll"]:
        said.append(f"{name_of(setup)}: set to {told['set_deg']:.4f} degrees, said to tilt {told['tilt_deg']:.4f}")
    if told["set_deg"] > _STEEPEST_DEG + _EXACT_DEG:
        said.append(f"{name_of(setup)}: {told['set_deg']:.4f} degrees are set where their complement is finer")
    return said


def _bar(setup: Json, told: Json) -> list[str]:
    """Object unless the stack is the bar's length times the sine, and the blocks make it up."""
    if told["bar_mm"] <= 0:
        return []
    stack = told["bar_mm"] * math.sin(math.radians(told["set_deg"]))
    said = []
    if abs(stack - told["stack_mm"]) > _STACK_MM:
        said.append(
            f"{name_of(setup)}: a stack of {told['stack_mm']:.4f} mm under a bar of {told['bar_mm']:g} mm does not "
            f"make {told['set_deg']:.4f} degrees: that takes {stack:.4f}"
        )
    blocks = sum(told["blocks_mm"])
    if told["blocks_mm"] and abs(blocks - told["stack_mm"]) > 1e-6:
        said.append(f"{name_of(setup)}: the blocks make {blocks:.4f} mm, the stack is {told['stack_mm']:.4f}")
    return said


def _step(setup: Json, told: Json) -> list[str]:
    """Object when the tolerance is taken from another angle step than the setting has."""
    steps = {readout["angle_step_deg"] for readout in setup["readout"].values()}
    if steps != {told["step_deg"]}:
        return [f"{name_of(setup)}: the readouts do not have the angle step of the setting ({told['step_deg']:.5f})"]
    if told["bar_mm"] <= 0:
        return []
    share = math.sin(math.radians(told["set_deg"])) + _FINEST_MM / told["bar_mm"]
    most = math.degrees(math.asin(min(1.0, share))) - told["set_deg"]
    if told["step_deg"] > most + _EXACT_DEG:
        return [f"{name_of(setup)}: an angle step of {told['step_deg']:.5f} degrees is coarser than the blocks' step"]
    return []


def touched(setup: Json) -> list[str]:
    """Object unless each corner or pin that gives a zero of a tilted axis lies where the reading says."""
    said = []
    for zero in setup["zero"]:
        point = zero.get("part_point")
        if point is None:
            continue
        index = "xyz".index(zero["axis"].lower())
        row = setup["part_to_setup"][index]
        at = sum(a * b for a, b in zip(row[:3], point, strict=True)) + row[3]
        off = zero["pin_mm"] / 2 + (zero["feeler_mm"] if index == 2 else zero["tip_diameter_mm"] / 2)
        gaps = [abs(zero["reading"] - at - off)] + ([] if index == 2 else [abs(zero["reading"] - at + off)])
        if min(gaps) > tolerance_mm(setup):
            said.append(
                f"{name_of(setup)}: zero {zero['axis'].upper()} reads {zero['reading']:g} on {zero['touch']}, but "
                f"part_to_setup puts that at {at:.3f}, {off:g} from the spindle"
            )
    return said
