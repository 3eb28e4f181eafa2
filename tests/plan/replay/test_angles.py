"""Plans at an angle that are spoiled on purpose: the replay objects to each of them."""

from __future__ import annotations

import copy
import functools
import math
from collections.abc import Callable
from typing import Any

import pytest

from setupsheet.plan.record import Verdict, as_json
from setupsheet.plan.replay.replay import MeshData, replay
from setupsheet.solid.solids import Solids, make_solids
from tests.plan.planned import plan_of, read

NAMES = ("tilted-sine-bar", "tilted-complement", "tilted-bevel-inch")
Spoil = Callable[[dict[str, Any]], None]


@functools.cache
def _solids(name: str) -> Solids:
    solids, _ = make_solids(read(name)[0])
    return solids


def _verdict(name: str, spoil: Spoil) -> Verdict:
    plan = copy.deepcopy(as_json(plan_of(name)))
    spoil(plan["setups"][-1])
    solids = _solids(name)
    return replay(plan, *(MeshData(*mesh) for mesh in (solids.least_mesh, solids.most_mesh)))


def _tilt_more(setup: dict[str, Any]) -> None:
    """Turn the part by a tenth of a degree more, the sheet as it was."""
    rows = setup["part_to_setup"]
    c, s = math.cos(math.radians(0.1)), math.sin(math.radians(0.1))
    x, z = list(rows[0]), list(rows[2])
    rows[0] = [c * a + s * b for a, b in zip(x, z, strict=True)]
    rows[2] = [-s * a + c * b for a, b in zip(x, z, strict=True)]


def _other_stack(setup: dict[str, Any]) -> None:
    setup["angle_setting"]["stack_mm"] += 0.05
    setup["angle_setting"]["blocks_mm"][0] += 0.05


def _other_blocks(setup: dict[str, Any]) -> None:
    setup["angle_setting"]["blocks_mm"][-1] += 1.0


def _other_roll(setup: dict[str, Any]) -> None:
    setting = setup["angle_setting"]
    setting["roll"] = "left" if setting["roll"] == "right" else "right"


def _other_angle(setup: dict[str, Any]) -> None:
    setup["angle_setting"]["tilt_deg"] += 1.0


def _lenient(setup: dict[str, Any]) -> None:
    """Claim a coarser angle step, which would hide faults."""
    setup["angle_setting"]["step_deg"] = 0.5
    for readout in setup["readout"].values():
        readout["angle_step_deg"] = 0.5


def _unsaid(setup: dict[str, Any]) -> None:
    setup["angle_setting"] = None


def _other_zero(setup: dict[str, Any]) -> None:
    setup["zero"][2]["reading"] += 0.5


OBJECTED: tuple[tuple[Spoil, str], ...] = (
    (_other_stack, "does not make"),
    (_other_blocks, "the blocks make"),
    (_other_roll, "does not lie as part_to_setup has it"),
    (_other_angle, "said to tilt"),
    (_lenient, "is coarser than the blocks' step"),
    (_unsaid, "nothing says how it is set"),
    (_other_zero, "part_to_setup puts that at"),
    (_tilt_more, "does not lie as part_to_setup has it"),
)


@pytest.mark.parametrize("name", NAMES)
def test_sound_plans_are_proved(name: str) -> None:
    """As planned, nothing is gouged, nothing is left, nothing objected to."""
    verdict = plan_of(name).replay
    assert verdict is not None
    assert verdict.proved, verdict.words


@pytest.mark.parametrize(("spoil", "words"), OBJECTED)
def test_spoiled_setting(spoil: Spoil, words: str) -> None:
    """A stack, a block, a roll, an angle, a step or a zero that does not fit the others is objected to."""
    verdict = _verdict("tilted-sine-bar", spoil)
    assert any(words in said for said in verdict.objections), verdict.objections


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize(("by", "fault"), [(-0.1, "gouge"), (0.1, "left")])
def test_cut_at_another_height(name: str, by: float, fault: str) -> None:
    """The last pass a tenth of a millimetre lower gouges, higher it leaves metal."""

    def spoil(setup: dict[str, Any]) -> None:
        for move in setup["steps"][0]["moves"]:
            move["z"] += by

    assert getattr(_verdict(name, spoil), fault) != ()


def test_a_pin_beside_its_hole() -> None:
    """A pin that would have to stand in solid metal is objected to."""

    def spoil(setup: dict[str, Any]) -> None:
        for zero in setup["zero"]:
            if zero["pin_mm"]:
                zero["part_point"][0] += 10.0

    assert any("does not go in" in said for said in _verdict("tilted-sine-bar", spoil).objections)
