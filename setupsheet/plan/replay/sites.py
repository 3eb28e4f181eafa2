"""Places that a sheet trusts: touch-off surfaces, the witness hole, touched edges, holes to ream or tap.

Each check asks the body as it stands at that moment (setup frame, numbers as they are) and returns
sentences; no sentence means that the place is as the plan says.
"""

from __future__ import annotations

import re

from setupsheet.plan.replay import metal
from setupsheet.plan.replay.cut import Json, tolerance_mm
from setupsheet.plan.replay.metal import Metal, Round
from setupsheet.plane import Point2, polar

_OVER = 1.0
"""mm above the metal from which a ray looks down."""
_PIN_DEEP_MM = 3.0
"""How deep a pin has to go in to stand true; common practice, no source."""
_SPECK_MM3 = 0.01


def top_of(body: Metal) -> float:
    """Return a height above all metal."""
    return float(metal.bounds(body)[1][2]) + _OVER if not body.is_empty() else _OVER


def bottom_of(body: Metal) -> float:
    """Return a height below all metal."""
    return float(metal.bounds(body)[0][2]) - _OVER if not body.is_empty() else -_OVER


def name_of(setup: Json, step: Json | None = None) -> str:
    """Return how a sentence names a setup or a step."""
    at = f"setup {setup['number']}"
    return at if step is None else f"{at} step {step['number']}"


def touch_off(body: Metal, setup: Json, step: Json) -> list[str]:
    """Object when the surface on which a cutter's Z is found again is not there, or not at that height."""
    touch = step["touch_off"]
    if touch is None:
        return []
    found = metal.first_metal(body, (touch["x"], touch["y"]), top_of(body), bottom_of(body))
    place = f"{name_of(setup, step)}: touch-off at X {touch['x']:g} Y {touch['y']:g}"
    if found is None:
        return [f"{place} stands over no metal"]
    if abs(found - touch["z"]) > tolerance_mm(setup):
        return [f"{place} says Z {touch['z']:g}, but the surface there is at Z {found:.3f} at that moment"]
    return []


def witness(body: Metal, setup: Json) -> list[str]:
    """Object when the witness pin does not go in: metal under its rim or axis before the first cut."""
    told = setup["witness"]
    if told is None:
        return []
    centre: Point2 = (told["x"], told["y"])
    rim = [polar(centre, 0.475 * told["pin_mm"], 45.0 * k) for k in range(8)]
    if any(metal.first_metal(body, at, top_of(body), bottom_of(body)) is not None for at in [centre, *rim]):
        return [
            f"{name_of(setup)}: the witness pin {told['pin_mm']:g} does not go in at X {centre[0]:g} Y {centre[1]:g}: "
            f"{told['label'] or told['feature']} is not there, or not through, before the first cut"
        ]
    return []


def touched_edges(before: Metal, after: Metal, setup: Json) -> list[str]:
    """Object when an edge finder's or feeler's reading stands off every surface there is."""
    said = []
    for zero in setup["zero"]:
        index = "xyz".index(zero["axis"].lower())
        if zero.get("pin_mm"):
            said += _pin(before, setup, zero)
            continue
        off = zero["feeler_mm"] if index == 2 else zero["tip_diameter_mm"] / 2
        if off <= 0 or re.search("indicat|measur|centre", zero["method"]):
            continue
        at = [zero["reading"] - off] if index == 2 else [zero["reading"] - off, zero["reading"] + off]
        near = tolerance_mm(setup)
        if not any(metal.has_corner_near(body, index, value, near) for body in (before, after) for value in at):
            said.append(
                f"{name_of(setup)}: zero {zero['axis'].upper()} reads {zero['reading']:g} on {zero['touch']}, "
                f"but nothing stands {off:g} from there"
            )
    return said


def _pin(body: Metal, setup: Json, zero: Json) -> list[str]:
    """Object when a pin that gives a zero does not go into the front of the part, or finds no hole that guides it."""
    x, _, z = (sum(row[k] * zero["part_point"][k] for k in range(3)) + row[3] for row in setup["part_to_setup"][:3])
    front, radius = metal.bounds(body)[0][1], zero["pin_mm"] / 2
    rim = [polar((x, z), radius + 0.02 * radius + 0.1, 45.0 * k) for k in range(8)]
    goes_in = not metal.is_there(metal.shared(body, _along_y((x, z), 0.95 * radius, front)), _SPECK_MM3)
    guided = all(metal.is_there(metal.shared(body, _along_y(at, 0.05, front)), _SPECK_MM3 / 100) for at in rim)
    if goes_in and guided:
        return []
    fault = "does not go in" if not goes_in else "is not guided all round"
    return [f"{name_of(setup)}: zero {zero['axis'].upper()}: {zero['touch']} of {zero['pin_mm']:g} {fault}"]


def _along_y(at: Point2, radius: float, front: float) -> Metal:
    """Return a pin along Y at X, Z, from the front into the part."""
    x, z = at
    upright = metal.drawn_up(metal.disc(radius, Round(inside=True, sag_mm=0.01, fixed=16)), 0.0, _PIN_DEEP_MM)
    return metal.placed(upright, [[1.0, 0.0, 0.0, x], [0.0, 0.0, 1.0, front], [0.0, -1.0, 0.0, z]])


def scribed_on(body: Metal, setup: Json, step: Json) -> list[str]:
    """Object when lines are to be scribed on a face that is not there yet, or no more."""
    if step["operation"] != "scribe":
        return []
    said = []
    for p in step["positions"]:
        found = metal.first_metal(body, (p["x"], p["y"]), top_of(body), bottom_of(body))
        if found is not None and abs(found - p["z_to"]) > tolerance_mm(setup):
            said.append(
                f"{name_of(setup, step)}: {p['label'] or p['feature']} is scribed at Z {p['z_to']:g}, but the surface "
                f"there is at Z {found:.3f} at that moment"
            )
    return said


def hole_is_there(body: Metal, setup: Json, step: Json) -> list[str]:
    """Object when a reamer, a tap or the pilot of a counterbore would have to cut its own hole: metal on its axis."""
    work = re.search("ream|tap", step["operation"])
    piloted = step["tool"] is not None and step["tool"]["kind"] == "counterbore"
    if work is None and not piloted:
        return []
    said = []
    near = tolerance_mm(setup)
    for p in step["positions"]:
        end = max(p["z_full"], p["z_to"]) + near
        if metal.first_metal(body, (p["x"], p["y"]), top_of(body), end) is not None:
            said.append(
                f"{name_of(setup, step)}: no hole to {work[0] if work else step['operation']} at "
                f"{p['label'] or p['feature']} when this step comes"
            )
    return said
