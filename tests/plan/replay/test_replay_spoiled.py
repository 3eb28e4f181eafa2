"""Spoiled plans: one number off by two steps (or 0.01 mm) in a step that leaves a surface must be objected to."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from typing import Any

import pytest

from setupsheet.plan.replay.replay import replay
from tests.plan.replay_blocks import DIALS, DRO, Block, Json, Machine, drill, page_turned, reamer
from tests.plan.replay_parts import boss, end_cut, plate, turned_over

MACHINES = pytest.mark.parametrize("machine", [DRO, DIALS], ids=["readout", "dials"])
Spoil = Callable[[Json], None]


def _add(*keys: str | int, by: float) -> Spoil:
    """Return a spoiling that adds to the number at the end of a path of keys."""

    def spoil(plan: Json) -> None:
        place: Any = plan["setups"]
        for key in keys[:-1]:
            place = place[key]
        place[keys[-1]] = round(place[keys[-1]] + by, 9)

    return spoil


def _both_ways(machine: Machine, *keys: str | int) -> Iterator[tuple[str, Spoil]]:
    for sign in (-1, 1):
        by = sign * machine.least_change
        yield f"{'.'.join(map(str, keys))}{by:+g}", _add(*keys, by=by)


def _texts_too(machine: Machine, setup: int, step: int, axis: str, by: float) -> Spoil:
    """Return a spoiling that moves every place of a step and prints what it says: only the metal can tell."""

    def spoil(plan: Json) -> None:
        for p in plan["setups"][setup]["steps"][step]["positions"]:
            p[axis] = round(p[axis] + by, 9)
            p["shown"][axis] = machine.text(p[axis], axis)

    return spoil


def _stop_moved(machine: Machine, step: int, value: float, axis: int, by: float) -> Spoil:
    """Return a spoiling that moves all cuts at one coordinate, their stop and its text along."""

    def spoil(plan: Json) -> None:
        told = plan["setups"][-1]["steps"][step]
        for cut in told["moves"]:
            for point in cut["path"]:
                point[axis] = round(point[axis] + by, 9) if abs(point[axis] - value) < 1e-6 else point[axis]
        for limit in told["limits"]:
            if limit["axis"] == "xy"[axis] and abs(limit["value"] - value) < 1e-6:
                limit["value"] = round(value + by, 9)
                limit["shown"] = machine.text(limit["value"], limit["axis"])

    return spoil


def _objects(block: Block, spoil: Spoil) -> bool:
    plan = block.copy()
    spoil(plan)
    return not replay(plan, block.least, block.most).proved


def _missed(block: Block, spoils: Iterator[tuple[str, Spoil]]) -> list[str]:
    return [name for name, spoil in spoils if not _objects(block, spoil)]


@MACHINES
@pytest.mark.parametrize("make", [plate, boss, end_cut, turned_over])
def test_a_sound_plan_is_proved(make: Callable[[Machine], Block], machine: Machine) -> None:
    """With every number unchanged nothing is gouged, left or objected to."""
    block = make(machine)
    verdict = replay(block.plan, block.least, block.most)
    assert verdict.proved, verdict.words
    assert (verdict.gouge, verdict.left, verdict.objections) == ((), (), ())


@MACHINES
def test_a_place_of_a_hole(machine: Machine) -> None:
    """X or Y of one position, its text unchanged."""
    names = ((step, place, axis) for step, place in ((2, 0), (2, 2), (3, 0), (4, 0)) for axis in "xy")
    spoils = (s for step, place, axis in names for s in _both_ways(machine, 0, "steps", step, "positions", place, axis))
    assert _missed(plate(machine), spoils) == []


@MACHINES
@pytest.mark.parametrize("axis", ["x", "y"])
def test_a_place_and_its_text(axis: str, machine: Machine) -> None:
    """All holes of the drilling from below moved with their texts: the limit bodies alone can tell."""
    block = turned_over(machine)
    for by in (-machine.least_change, machine.least_change):
        plan = block.copy()
        _texts_too(machine, 0, 0, axis, by)(plan)
        verdict = replay(plan, block.least, block.most)
        assert verdict.left
        assert all(piece["setup"] == 1 and piece["step"] == 1 for piece in verdict.left)


@MACHINES
def test_a_height(machine: Machine) -> None:
    """Heights of facing, level, ring, relief and step."""
    wrong = _missed(plate(machine), _both_ways(machine, 0, "steps", 0, "moves", 1, "z"))
    ring = list(_both_ways(machine, 0, "steps", 2, "rings", 0, "z_to"))
    cuts = [s for k in (3, 5) for s in _both_ways(machine, 0, "steps", 0, "moves", k, "z")]
    wrong += _missed(boss(machine), iter([*ring, *cuts]))
    wrong += _missed(turned_over(machine), _both_ways(machine, 0, "steps", 1, "moves", 0, "z"))
    wrong += _missed(turned_over(machine), _both_ways(machine, 1, "steps", 0, "moves", 2, "z"))
    assert wrong == []


@MACHINES
def test_a_height_and_its_text(machine: Machine) -> None:
    """All cuts of the step from the top deeper or higher, texts along: the limit bodies alone can tell."""
    block = turned_over(machine)
    for by, kind in ((-machine.least_change, "gouge"), (machine.least_change, "left")):
        plan = block.copy()
        told = plan["setups"][1]["steps"][0]
        for cut in told["moves"]:
            cut["z"] = round(cut["z"] + by, 9)
        told["z_shown"] = [machine.text(told["moves"][0]["z"], "z")]
        verdict = replay(plan, block.least, block.most)
        pieces = getattr(verdict, kind)
        assert pieces
        assert verdict.objections == ()
        assert pieces[0]["depth_mm"] == pytest.approx(abs(by), abs=0.35 * abs(by) + 0.006)


@MACHINES
def test_a_stop(machine: Machine) -> None:
    """A stop alone, a cut alone, and both with their texts."""
    block = end_cut(machine)
    last = block.plan["setups"][0]["steps"][2]["limits"][0]["value"]
    big = 0.05 + 2 * machine.least_change
    spoils = [*_both_ways(machine, 0, "steps", 2, "limits", 0, "value")]
    for point in (0, 1):
        spoils += _both_ways(machine, 0, "steps", 2, "moves", 1, "path", point, 0)
    spoils += [(f"both {by}", _stop_moved(machine, 2, last, 0, machine.at(by))) for by in (-big, big)]
    assert _missed(block, iter(spoils)) == []


@MACHINES
def test_stops_about_a_boss(machine: Machine) -> None:
    """Each of the four stops that keep the cutter's centre away from a boss, and a point of its table."""
    spoils = [s for k in range(4) for s in _both_ways(machine, 0, "steps", 0, "limits", k, "value")]
    spoils += _both_ways(machine, 0, "steps", 1, "moves", 4, "path", 1, 1)
    assert _missed(boss(machine), iter(spoils)) == []


@MACHINES
def test_a_radius(machine: Machine) -> None:
    """The finished radius of a boss, its text unchanged."""
    assert _missed(boss(machine), _both_ways(machine, 0, "steps", 2, "rings", 0, "radius_inner")) == []


@MACHINES
def test_a_cutter(machine: Machine) -> None:
    """A cutter's diameter or its half section alone; and another cutter altogether."""
    block = plate(machine)
    spoils = [s for step in (0, 2, 3, 4) for s in _both_ways(machine, 0, "steps", step, "tool", "diameter_mm")]
    for step in (0, 2, 4):
        spoils += _both_ways(machine, 0, "steps", step, "tool", "profile", 1, 0)
    spoils += [("6.5", lambda plan: plan["setups"][0]["steps"][2].update(tool=drill(6.5)))]
    spoils += [("5.9", lambda plan: plan["setups"][0]["steps"][2].update(tool=drill(5.9)))]
    spoils += [("8.1", lambda plan: plan["setups"][0]["steps"][4].update(tool=reamer(8.1)))]
    assert _missed(block, iter(spoils)) == []


@MACHINES
def test_steps_swapped(machine: Machine) -> None:
    """A reamer before its drill, a boring head before the level: numbered as before or anew."""
    for block, a, b in (
        (plate(machine), 3, 4),
        (plate(machine), 1, 2),
        (boss(machine), 0, 2),
        (end_cut(machine), 0, 1),
    ):
        for anew in (False, True):
            plan = block.copy()
            steps = plan["setups"][0]["steps"]
            steps[a], steps[b] = steps[b], steps[a]
            if anew:
                steps[a]["number"], steps[b]["number"] = a + 1, b + 1
            assert not replay(plan, block.least, block.most).proved


def test_a_reamer_that_comes_first_is_objected_to_by_the_metal() -> None:
    """Swapped, numbered anew and with no word on what depends on what: the metal on the axis tells."""
    block = plate()
    plan = block.copy()
    steps = plan["setups"][0]["steps"]
    steps[3], steps[4] = steps[4], steps[3]
    for number, told in enumerate(steps, 1):
        told.update(number=number, depends_on=[])
    said = replay(plan, block.least, block.most).objections
    assert any("no hole to ream" in words for words in said)
    assert any("cuts nothing" in words for words in said)


@MACHINES
def test_turned_over_the_wrong_way(machine: Machine) -> None:
    """The first setup front over back instead of like a page, with or without words that agree."""
    block = turned_over(machine)
    plan = block.copy()
    plan["setups"][0]["part_to_setup"] = [[1, 0, 0, -25], [0, -1, 0, 15], [0, 0, -1, 0], [0, 0, 0, 1]]
    assert any("fixed" in words or "back face" in words for words in replay(plan, block.least, block.most).objections)
    plan["setups"][0]["fixed_jaw"] = "front"
    plan["setups"][0]["zero"] = []
    plan["setups"][1]["turn"]["moves"] = [["x", 180]]
    verdict = replay(plan, block.least, block.most)
    assert verdict.gouge
    assert verdict.left
    assert any("witness" in words for words in verdict.objections)


@MACHINES
def test_half_a_turn_in_the_vise(machine: Machine) -> None:
    """The last setup turned half round as it lies: the step is cut on the wrong side."""
    block = turned_over(machine)
    plan = block.copy()
    plan["setups"][1].update(part_to_setup=[[-1, 0, 0, 25], [0, -1, 0, 15], [0, 0, 1, 0], [0, 0, 0, 1]])
    plan["setups"][1].update(fixed_jaw="front", zero=[])
    plan["setups"][1]["turn"]["moves"] = [["x", 180]]
    verdict = replay(plan, block.least, block.most)
    assert verdict.gouge
    assert any("witness" in words for words in verdict.objections)


@pytest.mark.parametrize(
    "row", [[[2, 0, 0, 0]], [[-1, 0, 0, 0]], [[0, 1, 0, 0]]], ids=["stretched", "mirrored", "flat"]
)
def test_no_rigid_motion(row: list[list[float]]) -> None:
    """A matrix that stretches, mirrors or flattens is said and nothing is cut."""
    block = end_cut()
    plan = block.copy()
    plan["setups"][0]["part_to_setup"][0] = row[0]
    verdict = replay(plan, block.least, block.most)
    assert any("rigid motion" in words for words in verdict.objections)
    assert (verdict.gouge, verdict.left) == ((), ())


def test_zero_at_another_place() -> None:
    """The zero's place in the part and the matrix must agree, to half a micrometre."""
    for by in (-0.01, 0.01):
        block = end_cut()
        plan = block.copy()
        plan["setups"][0]["zero"][0]["part_coordinate"] += by
        assert any("zero X" in words for words in replay(plan, block.least, block.most).objections)


def test_whole_setup_shifted() -> None:
    """A matrix that is off by 0.02 with a zero that agrees: the limit bodies tell."""
    block = turned_over()
    plan = block.copy()
    plan["setups"][0]["part_to_setup"] = page_turned(25.02, 15, 0)
    plan["setups"][0]["zero"][0]["part_coordinate"] = 25.02
    verdict = replay(plan, block.least, block.most)
    assert verdict.left
    assert math.isclose(verdict.tolerance_mm[0], 0.0025 * 1.4142 + 0.0025, abs_tol=1e-6)
