"""The plan walked step by step with its numbers as they stand: what each step meets at its moment.

This run is coarse (circles of few corners) and only asks questions; gouge and left-over metal are found
by the fine runs of replay.py.
"""

from __future__ import annotations

from collections.abc import Sequence

from setupsheet.plan.replay import clear, metal, sites, turning
from setupsheet.plan.replay.cut import MANY, Json, Run, cutters, largest_radius, rough_run, tolerance_mm
from setupsheet.plan.replay.metal import Metal, Round, Rows

CUTS_NOTHING_MM3 = 1e-3
"""mm3: a step or a place that takes less than this takes nothing."""
_VOLUME_SHARE = 0.02
"""Of the metal that is gone: how far a printed volume may be off (drawn sizes, not cutters')."""
_VOLUME_MM3 = 2.0
"""mm3 more, for each setup up to there."""


def inverse(matrix: Rows) -> list[list[float]]:
    """Return the inverse of a rigid motion."""
    turn = [[float(matrix[j][i]) for j in range(3)] for i in range(3)]
    shift = [-sum(turn[i][j] * matrix[j][3] for j in range(3)) for i in range(3)]
    return [[*turn[i], shift[i]] for i in range(3)]


def walk(plan: Json, stock: Metal) -> list[str]:
    """Return the objections met on the way through all setups; ``stock`` in the part frame."""
    places = sum(len(step["positions"]) for setup in plan["setups"] for step in setup["steps"])
    corners = 24 if places <= MANY else 16
    body, said, open_work = stock, [], False
    for setup in plan["setups"]:
        before = here = metal.placed(body, setup["part_to_setup"])
        said += sites.witness(here, setup)
        for step in setup["steps"]:
            here, heard = _step(here, setup, step, corners)
            said += heard
        open_now = open_work or any(step["not_proved"] for step in setup["steps"])
        said += sites.touched_edges(before, here, setup)
        said += _volumes(setup, stock.volume(), (before, open_work), (here, open_now))
        open_work = open_now
        body = metal.placed(here, inverse(setup["part_to_setup"]))
    return said


def _volumes(setup: Json, stock_mm3: float, before: tuple[Metal, bool], after: tuple[Metal, bool]) -> list[str]:
    """Object when the volumes that a setup prints are not those of the metal that comes and goes.

    Each body comes with whether work that is not given as moves was done by then: then less may be printed. What
    earlier setups are off adds up, so the slack counts all metal that is gone, in this setup and before.
    """
    told = (setup["volume_before_mm3"], setup["volume_after_mm3"])
    slack = _VOLUME_SHARE * abs(stock_mm3 - after[0].volume()) + _VOLUME_MM3 * setup["number"]
    return [
        f"{sites.name_of(setup)}: {said:.1f} mm3 of metal said to be there {when} it, {body.volume():.1f} are"
        for said, (body, open_work), when in zip(told, (before, after), ("before", "after"), strict=True)
        if said - body.volume() > slack or (body.volume() - said > slack and not open_work)
    ]


def _step(here: Metal, setup: Json, step: Json, corners: int) -> tuple[Metal, list[str]]:
    said = sites.touch_off(here, setup, step) + sites.hole_is_there(here, setup, step)
    said += sites.scribed_on(here, setup, step)
    top = clear.highest(here, setup)
    swept = cutters([{**step, "removes": True}], rough_run(corners), top)
    if not step["removes"]:
        return here, said + clear.meets_holders(setup, step, swept, [])
    if not swept:
        return here, said + _without_cutters(setup, step)
    if step["tool"] is not None:
        small = Run(-1, tolerance_mm(setup), 0.0, Round(True, 0.001, corners))
        said += clear.starts_and_ways(here, setup, step, small)
    taken, rest = here.split(metal.join(swept))
    said += _cuts(setup, step, taken)
    if step["tool"] is not None:
        said += turning.meets_what_stands(setup, step, top, rest)
    rooms = clear.shanks(step, top)
    return rest, said + clear.meets_holders(setup, step, swept, rooms) + clear.meets_metal(setup, step, rooms, rest)


def _without_cutters(setup: Json, step: Json) -> list[str]:
    if step["not_proved"] or step["method"] == "by_hand":
        return []
    return [f"{sites.name_of(setup, step)} ({step['operation']}) removes metal, but no cutter's way is given"]


def _cuts(setup: Json, step: Json, taken: Metal) -> list[str]:
    """Object to a step, and to each of its places, that finds no metal to cut."""
    name = f"{sites.name_of(setup, step)} ({step['operation']})"
    if not metal.is_there(taken, CUTS_NOTHING_MM3):
        return [f"{name} cuts nothing"]
    if not step["positions"] or step["tool"] is None:
        return []
    return [f"{name} cuts nothing at {label}" for label in _idle(step, taken)]


def _idle(step: Json, taken: Metal) -> Sequence[str]:
    places = [(p["x"], p["y"]) for p in step["positions"]]
    touched = metal.touched_places(taken, places, 1.02 * largest_radius(step["tool"]) + 0.01)
    return [p["label"] or p["feature"] for p, met in zip(step["positions"], touched, strict=True) if not met]
