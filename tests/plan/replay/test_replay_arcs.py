"""Spoiled arcs: a radius, an angle, a height or the cutter's size changed, its text along with it, is told."""

from __future__ import annotations

import functools
from collections.abc import Callable
from typing import Any

import pytest

from setupsheet.plan.make import make_plan
from setupsheet.plan.record import as_json
from setupsheet.plan.replay.replay import MeshData, replay
from setupsheet.solid.solids import make_solids
from tests.plan.planned import read

Json = dict[str, Any]


@functools.cache
def _meshes(name: str) -> tuple[Any, MeshData, MeshData]:
    part, shop = read(name)
    solids, _ = make_solids(part)
    planned = make_plan(part, shop, solids)
    least, most = (MeshData(*mesh) for mesh in (solids.least_mesh, solids.most_mesh))
    return planned.plan, least, most


def _spoiled(name: str, spoil: Callable[[Json], None]) -> bool:
    """Tell whether the replay objects once the arcs of the last step that has any are changed."""
    plan, least, most = _meshes(name)
    told = as_json(plan)
    step = next(s for s in reversed(told["setups"][2]["steps"]) if s["arcs"])
    spoil(step)
    return not replay(told, least, most).proved


def _radius(by: float) -> Callable[[Json], None]:
    def spoil(step: Json) -> None:
        for arc in step["arcs"]:
            if arc["why"] == "last":
                arc["radius"] = round(arc["radius"] + by, 6)
                arc["shown"]["radius"] = f"+{arc['radius']:.3f}"

    return spoil


def _deeper(by: float) -> Callable[[Json], None]:
    def spoil(step: Json) -> None:
        floor = min(arc["z"] for arc in step["arcs"])
        for arc in step["arcs"]:
            if arc["z"] == floor:
                arc["z"] = round(floor + by, 6)
        step["z_shown"] = [f"{z:+.3f}" for z in dict.fromkeys(arc["z"] for arc in step["arcs"])]

    return spoil


def _sweep(by: float) -> Callable[[Json], None]:
    def spoil(step: Json) -> None:
        for arc in step["arcs"]:
            arc["to_deg"] += by
            arc["shown"]["to"] = f"{round(arc['to_deg'] % 360)}°00'"

    return spoil


def _cutter(step: Json) -> None:
    step["tool"]["diameter_mm"] += 0.1
    step["tool"]["profile"] = [[r + 0.05 if r else r, h] for r, h in step["tool"]["profile"]]


def _nothing(step: Json) -> None:
    """Change nothing."""
    del step


@pytest.mark.parametrize("name", ["rotary-rounded-end", "rotary-groove"])
def test_unchanged_plans_pass(name: str) -> None:
    """With every number as it is the plan is proved."""
    assert not _spoiled(name, _nothing)


@pytest.mark.parametrize(
    ("name", "spoil"),
    [
        ("rotary-groove", _radius(-0.2)),
        ("rotary-groove", _radius(0.2)),
        ("rotary-groove", _deeper(-0.2)),
        ("rotary-groove", _deeper(0.2)),
        ("rotary-rounded-end", _radius(-0.1)),
        ("rotary-rounded-end", _radius(0.1)),
        ("rotary-rounded-end", _sweep(5.0)),
        ("rotary-rounded-end", _sweep(-5.0)),
        ("rotary-rounded-end", _cutter),
    ],
)
def test_what_the_limits_forbid_is_seen(name: str, spoil: Callable[[Json], None]) -> None:
    """Text and number changed alike, past the limits of the spec: the metal tells."""
    assert _spoiled(name, spoil)


@pytest.mark.parametrize("key", ["radius", "from_deg", "to_deg", "z"])
@pytest.mark.parametrize("steps", [-2, 2])
def test_a_number_against_its_text(key: str, steps: int) -> None:
    """A number that is two steps off its printed text is told, however little metal that is."""

    def spoil(step: Json) -> None:
        by = 0.005 if key in ("radius", "z") else 5 / 60
        step["arcs"][-1][key] += steps * by

    assert _spoiled("rotary-rounded-end", spoil)


def test_a_clamp_in_the_way() -> None:
    """A clamp that stands where the table brings it under the cutter is told."""
    plan, least, most = _meshes("rotary-rounded-end")
    told = as_json(plan)
    told["setups"][2]["hold"]["bodies"].append(
        {"name": "clamp", "low": [18.0, -5.0, 0.0], "high": [40.0, 5.0, 10.0], "radius_mm": 0.0}
    )
    verdict = replay(told, least, most)
    assert any("meets clamp" in words for words in verdict.objections)


def test_a_start_in_metal() -> None:
    """A cutter that goes down inside the metal before it is fed in is told."""

    def spoil(step: Json) -> None:
        step["arcs"][0]["run_in"] = 0.0

    assert _spoiled("rotary-rounded-end", spoil)
