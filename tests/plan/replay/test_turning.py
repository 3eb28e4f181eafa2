"""What turns over the edge: chucks and collets that come down on metal or a clamp, the sweep of a boring head's bar."""

from __future__ import annotations

from typing import Any

import pytest

from setupsheet.plan.replay import metal
from setupsheet.plan.replay.arcs import annulus
from setupsheet.plan.replay.metal import Metal, Round
from setupsheet.plan.replay.replay import replay
from setupsheet.plan.replay.sites import hole_is_there, scribed_on
from setupsheet.plan.replay.turning import meets_what_stands
from tests.plan.replay_blocks import DRO, Json, drill, end_mill, position, step
from tests.plan.replay_parts import boss, end_cut, plate

_FINE = Round(inside=True, sag_mm=0.004)
_CLAMP = {"name": "clamp", "low": [-30.0, -3.0, 0.5], "high": [-20.0, 3.0, 12.0], "radius_mm": 0.0}


def _held(plan: Json, number: int, out: float, **hold: Any) -> Json:
    plan["setups"][0]["steps"][number - 1]["tool"].update(stickout_mm=out, holder_diameter_mm=40.0)
    plan["setups"][0]["hold"]["bodies"] = list(hold.get("bodies", ()))
    return plan


@pytest.mark.parametrize(("out", "meets"), [(15.5, True), (16.5, False)])
def test_holder_over_the_work(out: float, meets: bool) -> None:
    """A mill that cuts 16 below the top hangs out less than 16, or a little more: the collet chuck meets, or clears."""
    made = end_cut()
    verdict = replay(_held(made.copy(), 3, out), made.least, made.most)
    said = [words for words in verdict.objections if "the holder of end mill 12 meets metal that stands" in words]
    assert bool(said) is meets
    assert verdict.proved is not meets


@pytest.mark.parametrize(("out", "meets"), [(27.5, True), (28.5, False)])
def test_holder_over_a_clamp(out: float, meets: bool) -> None:
    """A clamp 12 high, 16 + 12 over the end of the mill and beside its way, within the holder's radius."""
    made = end_cut()
    verdict = replay(_held(made.copy(), 3, out, bodies=[_CLAMP]), made.least, made.most)
    assert any("the holder of end mill 12 meets clamp" in words for words in verdict.objections) is meets
    assert verdict.proved is not meets


@pytest.mark.parametrize(("out", "meets"), [(12.5, True), (13.5, False)])
def test_chuck_over_a_plate(out: float, meets: bool) -> None:
    """A drill that goes 13 below the top and hangs out half a millimetre less, or more."""
    made = plate()
    verdict = replay(_held(made.copy(), 3, out), made.least, made.most)
    assert any("the holder of drill 6 meets metal" in words for words in verdict.objections) is meets
    assert verdict.proved is not meets


def _wall(inner: float, outer: float) -> Metal:
    return metal.drawn_up(annulus((0.0, 0.0), inner, outer, _FINE), -20.0, 0.0)


@pytest.mark.parametrize(("wall_mm", "meets"), [(21.0, True), (22.0, False)])
def test_bar_outside_a_boss(wall_mm: float, meets: bool) -> None:
    """The bar of 10 stands outside an edge at radius 11.95, and sweeps to 21.95."""
    told = boss().plan["setups"][0]
    said = meets_what_stands(told, told["steps"][2], 2.0, _wall(wall_mm, 40.0))
    assert any("the bar of boring head meets metal" in words for words in said) is meets


def _bored(core_mm: float, radius: float) -> list[str]:
    head = {**end_mill(10.0), "kind": "boring head", "label": "boring head"}
    ring = {"centre": [0.0, 0.0], "radius_inner": radius - 0.3, "radius_outer": radius, "z_from": 1.0, "z_to": -8.0}
    made = step(1, "bore", ["bore"], head, rings=[{**ring, "edge": "out", "shown": ""}])
    stands = metal.join([_wall(radius, 40.0), *([_wall(0.0, core_mm)] if core_mm else [])])
    return meets_what_stands(boss().plan["setups"][0], made, 2.0, stands)


def test_bar_in_a_bore() -> None:
    """A core left in the middle, or a bore narrower than the bar, is met; a hole wide enough is not."""
    assert _bored(0.0, 8.0) == []
    assert _bored(2.0, 8.0) == ["setup 1 step 1: the bar of boring head meets metal that stands"]
    assert _bored(0.0, 4.5) == ["setup 1 step 1: the bar of boring head meets metal that stands"]


@pytest.mark.parametrize(("z", "words"), [(0.0, 0), (0.25, 1), (-8.0, 1)])
def test_scribed_on_a_face_that_is_there(z: float, words: int) -> None:
    """Lines are scribed on the face that has been cut: not before the last cut, and not after the level is sunk."""
    told = boss().plan["setups"][0]
    scribe = {**step(1, "scribe", ["level"], None), "positions": [position(DRO, "line 1", (10.0, 0.0), (z, z))]}
    assert len(scribed_on(_wall(1.0, 40.0), told, scribe)) == words


def test_counterbore_finds_its_hole() -> None:
    """The pilot of a counterbore goes into a hole that is there; without it there is nothing that guides it."""
    told, tool = boss().plan["setups"][0], {**drill(10.0), "kind": "counterbore"}
    made = step(1, "counterbore", ["H"], tool, positions=[position(DRO, "H1", (0.0, 0.0), (1.0, -5.0))])
    assert hole_is_there(_wall(3.0, 40.0), told, made) == []
    assert hole_is_there(_wall(0.0, 40.0), told, made) == [
        "setup 1 step 1: no hole to counterbore at H1 when this step comes"
    ]
