"""Every way in which one number of a plan can be wrong: changed plans for the tests of the replay and a benchmark.

A number is changed by two steps of its axis or by 0.01 mm, whichever is more, and the texts that print it are changed
along, so that only the metal or another number can tell. A cut is moved as a whole (all points of a way that lie on the
old coordinate), because a single point would only make the way slanted.
"""

from __future__ import annotations

import copy
import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import product
from typing import Any

from setupsheet.length import fixed
from setupsheet.plan.replay.cut import step_of
from setupsheet.plan.replay.shown_angles import reading_deg
from tests.plan.replay_blocks import Json

_UNIT = {"mm": 1.0, "inch": 25.4}
_SAME = 1e-6
Change = Callable[[Json], None]


@dataclass(frozen=True, slots=True)
class Mutation:
    """One changed number: setup and step (counted from 0; step -1 is the setup itself), what, and the change to it."""

    setup: int
    step: int
    work: str
    field: str
    words: str
    change: Change

    def made(self, plan: Json) -> Json:
        """Return the changed plan; all but the changed step is shared with the old one."""
        setups = list(plan["setups"])
        told = dict(setups[self.setup])
        if self.step < 0:
            told = copy.deepcopy(told)
            self.change(told)
        else:
            steps = list(told["steps"])
            steps[self.step] = copy.deepcopy(steps[self.step])
            self.change(steps[self.step])
            told["steps"] = steps
        setups[self.setup] = told
        return {**plan, "setups": setups}


@dataclass(frozen=True, slots=True)
class _Axis:
    """How one axis of a setup is counted and printed."""

    name: str
    readout: Json
    counts: int

    @property
    def by_mm(self) -> float:
        return max(2 * step_of(self.readout), 0.01)

    def text(self, value: float, old: str) -> str:
        """Return a position as its old text was printed; a text that is no reading stays."""
        unit = _UNIT[self.readout["unit"]]
        places = len(old.partition(".")[2])
        reading = value * self.counts
        if self.readout["kind"] == "dial" and " + " in old:
            reading += self.readout["offset_mm"]
            per_turn = self.readout["per_turn_mm"]
            turns = int(reading / per_turn + 1e-6)
            rest = fixed((reading - turns * per_turn) / unit, places)
            return f"{turns} + {rest.removeprefix('0') if unit > 1 else rest}"
        if not old or not set(old) <= set("+-0123456789."):
            return old
        text = fixed(reading / unit, places)
        return text if text.startswith("-") or not float(text) else "+" + text


def axes_of(setup: Json) -> dict[str, _Axis]:
    """Return the axes of a setup by name."""
    return {name: _Axis(name, setup["readout"][name], setup["counts"].get(name, 1)) for name in "xyz"}


def work_of(step: Json) -> str:
    """Return the kind of work: what is done, and by which means the metal goes."""
    by = {move["by"] for move in step["moves"]}
    means = [name for name in ("positions", "moves", "arcs", "rings") if step[name]]
    shaped = " with points" if step["points"] else ""
    return f"{step['operation']} by {' and '.join(sorted(by - {'table'})) or '/'.join(means)}{shaped}"


def of_plan(plan: Json) -> Iterator[Mutation]:
    """Yield every change of a number of every step that removes metal."""
    for i, setup in enumerate(plan["setups"]):
        axes = axes_of(setup)
        for j, step in enumerate(setup["steps"]):
            if step["removes"] and step["tool"] is not None:
                found = (*_places(axes, step), *_moves(axes, step), *_stops(axes, step), *_rings(axes, step))
                for field, words, change in (*found, *_arcs(axes, step), *_cutter(axes, step)):
                    yield Mutation(i, j, work_of(step), field, f"setup {i + 1} step {j + 1} {words}", change)


_Found = Iterator[tuple[str, str, Change]]


def _both(by: float) -> tuple[float, float]:
    return -by, by


def _places(axes: dict[str, _Axis], step: Json) -> _Found:
    for n, place in enumerate(step["positions"]):
        for key in ("x", "y", "z_to", "z_full"):
            for by in _both(axes[key[0]].by_mm):
                yield f"position {key}", f"{place['label'] or place['feature']} {key}{by:+g}", _place(axes, n, key, by)


def _place(axes: dict[str, _Axis], n: int, what: str, by: float) -> Change:
    name = what[0]

    def change(step: Json) -> None:
        place = step["positions"][n]
        was = (place["x"], place["y"])
        place[what] = round(place[what] + by, 9)
        for key, text in place["shown"].items():
            number = {"z": "z_to", "z_tip": "z_to"}.get(key, key)
            if key[0] == name and number in place:
                place["shown"][key] = axes[name].text(place[number], text)
        if name == "z":
            step["z_shown"] = [*step["z_shown"], *[axes[name].text(place["z_to"], t) for t in step["z_shown"][:1]]]
        else:
            _pairs_along(axes, step, was, (place["x"], place["y"]))

    return change


def _pairs_along(axes: dict[str, _Axis], step: Json, was: tuple[float, float], now: tuple[float, float]) -> None:
    """Change the rows of a table of points along with the point that they name."""
    for pair in step["points"]:
        along = pair["step_axis"].lower()
        at = (pair["step"], pair["stop"]) if along == "x" else (pair["stop"], pair["step"])
        if all(abs(a - b) < _SAME for a, b in zip(at, was, strict=True)):
            pair["step"], pair["stop"] = now if along == "x" else (now[1], now[0])
            pair["shown_step"] = axes[along].text(pair["step"], pair["shown_step"])
            pair["shown_stop"] = axes["y" if along == "x" else "x"].text(pair["stop"], pair["shown_stop"])


def _moves(axes: dict[str, _Axis], step: Json) -> _Found:
    for n, move in enumerate(step["moves"]):
        for by in _both(axes["z"].by_mm):
            yield "move z", f"move {n + 1} z{by:+g}", _height(axes["z"], "moves", n, "z", by)
        for k, name in enumerate("xy"):
            for value in dict.fromkeys(point[k] for point in move["path"]):
                for by in _both(axes[name].by_mm):
                    yield f"move {name}", f"move {n + 1} {name} {value:g}{by:+g}", _line(axes, n, (k, value), by)


def _height(axis: _Axis, row: str, n: int, key: str, by: float) -> Change:
    def change(step: Json) -> None:
        step[row][n][key] = round(step[row][n][key] + by, 9)
        step["z_shown"] = [*step["z_shown"], *[axis.text(step[row][n][key], t) for t in step["z_shown"][:1]]]

    return change


def _line(axes: dict[str, _Axis], n: int, at: tuple[int, float], by: float) -> Change:
    def change(step: Json) -> None:
        k, value = at
        for point in step["moves"][n]["path"]:
            if abs(point[k] - value) < _SAME:
                was = (point[0], point[1])
                point[k] = round(value + by, 9)
                _pairs_along(axes, step, was, (point[0], point[1]))

    return change


def _stops(axes: dict[str, _Axis], step: Json) -> _Found:
    for n, limit in enumerate(step["limits"]):
        axis = axes[limit["axis"].lower()]
        for by in _both(axis.by_mm):
            yield "limit", f"stop {n + 1}{by:+g}", _stop(axis, n, by)
            yield "limit and its cuts", f"stop {n + 1} and its cuts{by:+g}", _stop_and_cuts(axis, n, by)


def _stop(axis: _Axis, n: int, by: float) -> Change:
    def change(step: Json) -> None:
        limit = step["limits"][n]
        limit["value"] = round(limit["value"] + by, 9)
        limit["shown"] = axis.text(limit["value"], limit["shown"])

    return change


def _stop_and_cuts(axis: _Axis, n: int, by: float) -> Change:
    def change(step: Json) -> None:
        value, k = step["limits"][n]["value"], "xyz".index(axis.name)
        for point in (point for move in step["moves"] for point in move["path"]):
            if k < 2 and abs(point[k] - value) < _SAME:
                point[k] = round(value + by, 9)
        _stop(axis, n, by)(step)

    return change


def _rings(axes: dict[str, _Axis], step: Json) -> _Found:
    by = max(axis.by_mm for axis in axes.values())
    for n, sign in product(range(len(step["rings"])), (-1, 1)):
        for key in ("radius_inner", "radius_outer", "z_to", "z_from"):
            words, change = f"ring {n + 1} {key}{sign * by:+g}", _ring(n, key, sign * by)
            yield f"ring {key}", words, _height(axes["z"], "rings", n, key, sign * by) if key == "z_to" else change
        for k in (0, 1):
            yield "ring centre", f"ring {n + 1} {'xy'[k]}{sign * by:+g}", _ring_centre(n, k, sign * by)


def _ring(n: int, key: str, by: float) -> Change:
    def change(step: Json) -> None:
        ring = step["rings"][n]
        ring[key] = round(ring[key] + by, 9)
        finished = "radius_inner" if ring["edge"] == "in" else "radius_outer"
        if key == finished:
            ring["shown"] = f"{2 * ring[key]:.3f}"

    return change


def _ring_centre(n: int, k: int, by: float) -> Change:
    def change(step: Json) -> None:
        centre = list(step["rings"][n]["centre"])
        centre[k] = round(centre[k] + by, 9)
        step["rings"][n]["centre"] = centre

    return change


def _arcs(axes: dict[str, _Axis], step: Json) -> _Found:
    by, turn = max(axis.by_mm for axis in axes.values()), 2 * max(a.readout["angle_step_deg"] for a in axes.values())
    for n, sign in product(range(len(step["arcs"])), (-1, 1)):
        yield "arc z", f"arc {n + 1} z{sign * by:+g}", _height(axes["z"], "arcs", n, "z", sign * by)
        yield "arc radius", f"arc {n + 1} radius{sign * by:+g}", _arc_radius(axes["x"], n, sign * by)
        for key in ("from", "to"):
            yield f"arc {key}", f"arc {n + 1} {key}{sign * turn:+g}", _arc_angle(n, key, sign * turn)


def _arc_radius(axis: _Axis, n: int, by: float) -> Change:
    def change(step: Json) -> None:
        arc = step["arcs"][n]
        arc["radius"] = round(arc["radius"] + by, 9)
        arc["shown"] = {**arc["shown"], "radius": axis.text(arc["radius"], arc["shown"]["radius"])}

    return change


def _arc_angle(n: int, key: str, by: float) -> Change:
    def change(step: Json) -> None:
        arc = step["arcs"][n]
        arc[f"{key}_deg"] = round(arc[f"{key}_deg"] + by, 9)
        old = reading_deg(arc["shown"][key])
        assert old is not None
        counts = 1 if abs(math.remainder(old - (arc[f"{key}_deg"] - by), 360.0)) < abs(by) / 2 else -1
        arc["shown"] = {**arc["shown"], key: _angle_text(old + counts * by, arc["shown"][key])}

    return change


def _angle_text(value_deg: float, old: str) -> str:
    """Return a table's reading as its old text was printed: 12.5°, 12°30' or 12°30'15"."""
    value_deg %= 360.0
    if "'" not in old:
        return f"{fixed(value_deg, len(old.rstrip('°').partition('.')[2]))}°"
    seconds = round(value_deg * 3600) % (360 * 3600)
    text = f"{seconds // 3600}°{seconds // 60 % 60:02d}'"
    return f'{text}{seconds % 60:02d}"' if old.endswith('"') else text


def _cutter(axes: dict[str, _Axis], step: Json) -> _Found:
    if step["tool"] is None or step["rings"]:
        return
    by = max(axis.by_mm for axis in axes.values())
    for sign in (-1, 1):
        yield "cutter diameter", f"cutter diameter{sign * by:+g}", _wider(sign * by)
        if step["tool"]["corner_radius_mm"] > 0:
            yield "corner radius", f"corner radius{sign * by:+g}", _rounder(sign * by)


def _wider(by: float) -> Change:
    """Return a change to another diameter, the half section along; a drill's point keeps its angle."""

    def change(step: Json) -> None:
        tool: dict[str, Any] = step["tool"]
        old = max((r for r, _ in tool["profile"]), default=tool["diameter_mm"] / 2)
        tool["diameter_mm"] = round(tool["diameter_mm"] + by, 9)
        lift = 0.0
        pointed = [h for r, h in tool["profile"] if r == old]
        if pointed and old > 0 and any(h < min(pointed) and r < old for r, h in tool["profile"]):
            slope = (min(pointed) - tool["profile"][0][1]) / old
            lift = slope * by / 2 if tool["kind"] in ("drill", "spot drill", "countersink") else 0.0
        tool["profile"] = [[r + by / 2, h + lift] if abs(r - old) < _SAME else [r, h] for r, h in tool["profile"]]

    return change


def _rounder(by: float) -> Change:
    def change(step: Json) -> None:
        step["tool"]["corner_radius_mm"] = max(0.0, step["tool"]["corner_radius_mm"] + by)

    return change
