"""Numbers beside what they were worked out from: rounding explains one step, never two; a cutter makes what is said."""

from __future__ import annotations

import copy
from collections.abc import Callable

import pytest

from setupsheet.plan.record import as_json
from setupsheet.plan.replay.rounded import rounding
from tests.plan.planned import plan_of
from tests.plan.replay_blocks import Json

STEP_MM = 0.005
"""What the readout of these parts' machines counts in; the replay reads it from the plan."""


def _spoilt(name: str, setup: int, step: int, spoil: Callable[[Json], object]) -> list[str]:
    """Return what is said of a part's plan with one of its steps (counted from 1) changed."""
    plan = copy.deepcopy(as_json(plan_of(name)))
    assert rounding(plan) == []
    spoil(plan["setups"][setup - 1]["steps"][step - 1])
    return rounding(plan)


def _move(by: float) -> Callable[[Json], object]:
    return lambda step: step["moves"][1]["path"][0].__setitem__(1, step["moves"][1]["path"][0][1] + by)


SPOILT: list[tuple[str, int, int, Callable[[Json], object], str]] = [
    ("slot-slanted", 1, 1, _move(2 * STEP_MM), "was worked out as"),
    ("rotary-boss", 3, 3, lambda s: s["arcs"][-1].update(radius=s["arcs"][-1]["radius"] - 2 * STEP_MM), "the radius"),
    ("rotary-corner", 3, 1, lambda s: s["arcs"][0].update(to_deg=s["arcs"][0]["to_deg"] + 1.0), "the to"),
    ("ring-groove", 1, 1, lambda s: s["rings"][0].update(radius_outer=13.01), "set to 26.02, wanted is 26"),
    ("worm-bracket", 2, 9, lambda s: s["positions"][0].update(z_to=1.99), "leaves a diameter of 9.02"),
    (
        "hole-bored-limits",
        1,
        4,
        lambda s: s["tool"].update(profile=[[0, 0], [7, 0], [7, 9]]),
        "leaves a diameter of 14",
    ),
]


@pytest.mark.parametrize(("name", "setup", "step", "spoil", "words"), SPOILT, ids=[row[0] for row in SPOILT])
def test_two_steps_are_told(name: str, setup: int, step: int, spoil: Callable[[Json], object], words: str) -> None:
    """Whatever is set two steps off is told, though ridges or wide limits would hide it in the metal."""
    said = _spoilt(name, setup, step, spoil)
    assert len(said) == 1
    assert words in said[0]


def test_a_point_too_few_is_told() -> None:
    """A way that lost a point is told by its number of points."""
    said = _spoilt("slot-slanted", 1, 1, lambda step: step["moves"][0].update(path=[]))
    assert ["a way of 0 points was worked out as 1" in words for words in said] == [True]
