"""Dials: every reading is come to from one side, because a screw has play.

X is come to from the left and Y from the front. Where the next place lies the other way, the table goes past it first
and comes back: the sheet names the reading to go back to.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from setupsheet.plan.bench import Bench
from setupsheet.plan.record import Position, Step

PAST_TURNS = 0.5
"""How far past a place the table goes before it comes back, in turns of the dial. Common practice, no source."""

SIDE_WORDS = "Dials: come to every X from the left and to every Y from the front, so that the screw's play lies one way"


def with_approach(bench: Bench, steps: Sequence[Step]) -> tuple[Step, ...]:
    """Return the steps with the readings to go back to; as they are where no axis is read by a dial."""
    axes = [axis for axis in "xy" if bench.scales[axis].axis.kind == "dial"]
    if not axes:
        return tuple(steps)
    told: list[Step] = []
    last: Position | None = None
    for step in steps:
        words = []
        for place in step.positions:
            words += _back(bench, axes, last, place) if last is not None else []
            last = place
        if step.moves or step.rings:
            last = None
        told.append(replace(step, words=(*step.words, *words)) if words else step)
    return tuple(told)


def _back(bench: Bench, axes: Sequence[str], last: Position, place: Position) -> list[str]:
    """Return the words for each axis along which the next place lies back."""
    found = []
    for axis in axes:
        before, now = getattr(last, axis), getattr(place, axis)
        if now < before - 1e-9:
            past = now - PAST_TURNS * bench.scales[axis].axis.per_turn_mm
            found.append(f"{axis.upper()} back to {bench.shown(axis, bench.settle(axis, past))}")
    return [f"to {place.label}: {' and '.join(found)} first, then up to the reading"] if found else []
