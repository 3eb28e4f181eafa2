"""Dials are come to from one side."""

from __future__ import annotations

import re
from itertools import pairwise

from setupsheet.plan.record import Position, Setup, Step
from tests.plan.planned import parse_shown, setup_of


def _holes(setup: Setup) -> list[tuple[Step, Position]]:
    return [(step, place) for step in setup.steps for place in step.positions]


def test_way_back_is_named_and_lies_half_a_turn_past() -> None:
    """Where the next hole lies to the left or in front, the reading to go back to is half a turn beyond it."""
    setup = setup_of("indicator-foot", 6)
    said = 0
    pairs = _holes(setup)
    for (_, before), (step, place) in pairwise(pairs):
        for axis in "xy":
            words = [w for w in step.words if w.startswith(f"to {place.label}:")]
            named = [m for w in words for m in re.findall(rf"{axis.upper()} back to (-?\d+ \+ \.?\d+)", w)]
            sign = -1 if setup.zero["xy".index(axis)].side in ("your right", "behind it") else 1
            along = (getattr(place, axis) - getattr(before, axis)) * sign
            if along < -1e-9 and named:
                readout = setup.readout[axis]
                reached = parse_shown(named[0], readout, setup.counts[axis])
                assert abs((getattr(place, axis) - reached) * sign - readout.per_turn_mm / 2) < readout.division_mm
                said += 1
            elif along >= -1e-9:
                assert not named
    assert said > 0
    assert any("from the left" in line for line in setup.before_cutting)


def test_a_readout_needs_none() -> None:
    """A readout measures the table itself: no word about a way back."""
    setup = setup_of("worm-bracket", 1)
    assert not any("back to" in words for step in setup.steps for words in step.words)
    assert not any("from the left" in line for line in setup.before_cutting)


def test_the_side_is_the_one_that_the_finder_came_from() -> None:
    """Turned over, the left end is at the right: the finder comes from there, and so does every X after it."""
    line = next(words for words in setup_of("indicator-foot", 1).before_cutting if words.startswith("Dials"))
    assert "every X from the right" in line
    assert "every Y from the front" in line
    line = next(words for words in setup_of("indicator-foot", 2).before_cutting if words.startswith("Dials"))
    assert "every X from the right and to every Y from the back" in line
