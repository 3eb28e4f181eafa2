"""Dials: every reading is come to from one side, because a screw has play.

The side is the one from which the edge finder came: then the play lies in the zero and in every place alike. Where the
next place lies the other way, the table goes past it first and comes back: the sheet names the reading to go past to.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from setupsheet.plan.bench import Bench
from setupsheet.plan.record import AxisZero, Position, Step

PAST_TURNS = 0.5
"""How far past a place the table goes before it comes back, in turns of the dial. Common practice, no source."""

_FROM_BELOW = ("left", "front")
_FROM_ABOVE = ("right", "back")
_TOUCHED_FROM_ABOVE = ("your right", "behind it")


def sides_of(zeros: Sequence[AxisZero]) -> tuple[int, int]:
    """Return from which side X and Y are come to: 1 from the left or the front, -1 from the right or the back."""
    x, y = (-1 if zero.side in _TOUCHED_FROM_ABOVE else 1 for zero in zeros[:2])
    return x, y


def side_words(bench: Bench) -> str:
    """Return the line that says from where every place of this setup is come to."""
    x, y = ((_FROM_BELOW if sign > 0 else _FROM_ABOVE)[i] for i, sign in enumerate(bench.approach))
    return f"Dials: come to every X from the {x} and to every Y from the {y}, so that the screw's play lies one way"


def with_approach(bench: Bench, steps: Sequence[Step]) -> tuple[Step, ...]:
    """Return the steps with the readings to go past to; as they are where no axis is read by a dial."""
    axes = [axis for axis in "xy" if bench.scales[axis].axis.kind == "dial"]
    if not axes:
        return tuple(steps)
    told: list[Step] = []
    last: Position | None = None
    for step in steps:
        words = _against(bench, axes, step)
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
        sign = bench.approach["xy".index(axis)]
        before, now = getattr(last, axis), getattr(place, axis)
        if (now - before) * sign < -1e-9:
            past = now - sign * PAST_TURNS * bench.scales[axis].axis.per_turn_mm
            found.append(f"{axis.upper()} back to {bench.shown(axis, bench.settle(axis, past))}")
    return [f"to {place.label}: {' and '.join(found)} first, then come to the reading"] if found else []


def _against(bench: Bench, axes: Sequence[str], step: Step) -> list[str]:
    """Say that stops of a table of points which are fed to the other way are out by the screw's play."""
    ways = set()
    for move in step.moves if step.points else ():
        (ax, ay), (bx, by) = move.path[0], move.path[-1]
        index = 0 if abs(bx - ax) > abs(by - ay) else 1
        if "xy"[index] in axes and (bx - ax, by - ay)[index] * bench.approach[index] < -1e-9:
            ways.add((index, bench.approach[index]))
    names = {(0, 1): "left", (0, -1): "right", (1, 1): "towards you", (1, -1): "away"}
    said = ", ".join(names[way] for way in sorted(ways))
    return [f"fed {said}, the stop is out by the screw's play: measure the play and allow for it"] if said else []
