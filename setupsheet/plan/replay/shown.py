"""Rules on printed texts: what the sheet shows must be the number that is cut, through the axis' counting.

A readout shows value x counts in its unit with sign; a dial shows whole turns and a rest of value x counts
plus its offset. A text that is neither (words) is left alone.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from setupsheet.plan.replay.cut import Json, step_of
from setupsheet.plan.replay.shown_angles import angles_shown, circles_by_angle
from setupsheet.plan.replay.sites import name_of

_MM = {"mm": 1.0, "inch": 25.4}
_PLAIN = re.compile(r"^[XYZ]?\s*([+\-−]?\d*\.?\d+)\s*(mm|in|\")?$")
_TURNS = re.compile(r"^[XYZ]?\s*([\-−]?\d+)\s*\+\s*(\d*\.\d+|\d+)$")
_ANY = re.compile(r"[+\-−]?\d*\.?\d+")
_PLACE = re.compile(r"^(?:[^;,]*\b)?([XY]) (.+)$")
_MULTIPLE = 1e-4
"""Of a step: float noise allowed in a multiple."""


def numbers_shown(plan: Json) -> list[str]:
    """Return where a number is no multiple of its axis' step or its text says another number."""
    said: list[str] = []
    for setup in plan["setups"]:
        said += _witness(setup) + circles_by_angle(setup)
        for step in setup["steps"]:
            name = name_of(setup, step)
            for axis, value, what in _set_by_hand(step):
                said += _multiple(setup, axis, value, f"{name}: {what}")
            for axis, value, text, what in _texts(step):
                said += _says(setup, axis, value, text, f"{name}: {what}")
            said += _heights(setup, step) + _ring_texts(setup, step)
            said += angles_shown(setup, step) + _where(setup, step)
    return list(dict.fromkeys(said))


def _witness(setup: Json) -> list[str]:
    told = setup["witness"]
    if told is None:
        return []
    what = f"{name_of(setup)}: witness {told['label'] or told['feature']}"
    said = []
    for axis in "xy":
        said += _multiple(setup, axis, told[axis], what)
        said += _says(setup, axis, told[axis], told["shown"].get(axis, ""), what)
    return said


def _set_by_hand(step: Json) -> Iterable[tuple[str, float, str]]:
    """Yield every number that somebody sets: axis, value, what it is."""
    for p in step["positions"]:
        what = p["label"] or p["feature"]
        yield from (("x", p["x"], what), ("y", p["y"], what), ("z", p["z_to"], what))
    for move in step["moves"]:
        yield "z", move["z"], "cut"
        for x, y in move["path"]:
            yield from (("x", x, "cut"), ("y", y, "cut"))
    for ring in step["rings"]:
        yield "z", ring["z_to"], "boring head"
        yield from zip("xy", ring["centre"], ("boring head",) * 2, strict=True)
    for arc in step["arcs"]:
        yield from (("z", arc["z"], "cut"), ("x", arc["radius"], "radius"), ("x", arc.get("run_in", 0.0), "start"))
    for limit in step["limits"]:
        yield limit["axis"].lower(), limit["value"], "stop"


def _texts(step: Json) -> Iterable[tuple[str, float, str, str]]:
    """Yield every number that stands beside its text: axis, value, text, what it is."""
    for p in step["positions"]:
        what = p["label"] or p["feature"]
        depth = {"z": "z_to", "z_tip": "z_to", "z_to": "z_to", "z_full": "z_full", "z_from": "z_from"}
        for key, text in p["shown"].items():
            if key in ("x", "y"):
                yield key, p[key], text, what
            elif key in depth:
                yield "z", p[depth[key]], text, what
    for arc in step["arcs"]:
        yield "x", arc["radius"], arc.get("shown", {}).get("radius", ""), "radius"
    for limit in step["limits"]:
        yield limit["axis"].lower(), limit["value"], limit["shown"], "stop"
    for pair in step["points"]:
        along = pair["step_axis"].lower()
        yield along, pair["step"], pair["shown_step"], "point"
        yield "y" if along == "x" else "x", pair["stop"], pair["shown_stop"], "point"


def _multiple(setup: Json, axis: str, value: float, what: str) -> list[str]:
    readout = setup["readout"].get(axis)
    step = step_of(readout) if readout else 0.0
    if step <= 0:
        return []
    count = value / step
    if abs(count - round(count)) <= _MULTIPLE:
        return []
    return [f"{what}: {axis.upper()} {value:g} is no multiple of what the axis can be set to ({step:g} mm)"]


def reading_of(text: str, readout: Json) -> float | None:
    """Return the length in mm (value x counts) that a text says; None where it is no single reading."""
    unit = _MM.get(readout["unit"], 1.0)
    turns = _TURNS.match(text.strip())
    if readout["kind"] == "dial" and turns:
        rest = float(turns[2]) * unit
        return (
            int(turns[1].replace("−", "-")) * float(readout["per_turn_mm"])
            + rest
            - float(readout.get("offset_mm", 0.0))
        )
    plain = _PLAIN.match(text.strip())
    if plain is None:
        return None
    return float(plain[1].replace("−", "-")) * unit


def _says(setup: Json, axis: str, value: float, text: str, what: str) -> list[str]:
    readout = setup["readout"].get(axis)
    reading = reading_of(text, readout) if readout and text else None
    if readout is None or reading is None:
        return []
    wanted = value * setup["counts"].get(axis, 1)
    if abs(reading - wanted) <= _half_place(text, readout) + 1e-6:
        return []
    return [f"{what}: the sheet shows {axis.upper()} {text}, but the number cut is {value:g} mm"]


def _half_place(text: str, readout: Json) -> float:
    """Return half of the text's last decimal, mm, never more than half a step."""
    decimals = re.search(r"\.(\d+)", text)
    place = 10.0 ** -(len(decimals[1]) if decimals else 0) * _MM.get(readout["unit"], 1.0)
    step = step_of(readout)
    return min(place, step) / 2 if step > 0 else place / 2


def _where(setup: Json, step: Json) -> list[str]:
    """Object to a reading of the line that says where a step works, if nothing of the step is set to it."""
    said = []
    for part in re.split(r"[;,] ?(?=[XY] )| (?=[XY] )", step["where"]):
        match = _PLACE.match(part)
        if match is None:
            continue
        axis, readout = match[1].lower(), setup["readout"].get(match[1].lower())
        values = list(_set_to(step, axis))
        texts = [text.strip() for text in re.split(r", | to | and ", match[2])] if readout and values else []
        said += [
            f"{name_of(setup, step)}: nothing is set to the {match[1]} {text} that the step says"
            for text in texts
            if reading_of(text, readout) is not None and all(_says(setup, axis, v, text, "") for v in values)
        ]
    return said


def _set_to(step: Json, axis: str) -> Iterable[float]:
    """Yield all coordinates of an axis that a step's cutter goes to."""
    k = "xy".index(axis)
    yield from (p[axis] for p in step["positions"])
    yield from (point[k] for move in step["moves"] for point in move["path"])
    yield from (row["centre"][k] for row in (*step["arcs"], *step["rings"]))
    yield from (limit["value"] for limit in step["limits"] if limit["axis"].lower() == axis)


def _heights(setup: Json, step: Json) -> list[str]:
    """Object to a height that is cut and not among the step's printed heights, where these are readings."""
    readout = setup["readout"].get("z")
    texts = [text for text in step.get("z_shown", ()) if readout and reading_of(text, readout) is not None]
    if readout is None or not texts or len(texts) != len(step.get("z_shown", ())):
        return []
    heights = [move["z"] for move in step["moves"]] + [ring["z_to"] for ring in step["rings"]]
    said = []
    for z in dict.fromkeys(heights + [arc["z"] for arc in step["arcs"]]):
        if all(_says(setup, "z", z, text, "") for text in texts):
            said.append(
                f"{name_of(setup, step)}: it cuts at Z {z:g}, which is not among the heights shown ({', '.join(texts)})"
            )
    return said


def _ring_texts(setup: Json, step: Json) -> list[str]:
    """Object unless the finished radius of a ring stands in its text, as a radius or a diameter."""
    said = []
    for ring in step["rings"]:
        found = [float(text.replace("−", "-")) for text in _ANY.findall(ring["shown"])]
        radius = ring["radius_inner"] if ring["edge"] == "in" else ring["radius_outer"]
        sizes = [radius * k / unit for k in (1, 2) for unit in (1.0, 25.4)]
        if found and not any(abs(abs(value) - size) < 0.002 for value in found for size in sizes):
            said.append(f"{name_of(setup, step)}: the ring ends at radius {radius:g}, the sheet says {ring['shown']}")
    return said
