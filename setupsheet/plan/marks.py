"""What the plan view names: readings of edges, and the mark that tells which corner is which."""

from __future__ import annotations

from dataclasses import dataclass

from setupsheet.part.feature import Level
from setupsheet.part.shape import BoxShape
from setupsheet.plan.bench import Bench
from setupsheet.plan.hold import Grip
from setupsheet.plan.record import EdgeMark
from setupsheet.plane import Point3

_INITIAL = {"left": "L", "right": "R", "front": "F", "back": "B", "top": "T", "bottom": "U"}


@dataclass(frozen=True, slots=True)
class CornerMark:
    """A mark to stamp or scribe: its letters, where it stands (setup frame), and the words for it."""

    label: str
    at: Point3
    words: str


def corner_mark(bench: Bench, held: Grip) -> CornerMark:
    """Return the mark of the corner at the fixed jaw, on the end at the reader's left, in the jaws' height."""
    side, back = bench.laid.face(0, -1), bench.laid.face(1, 1)
    label = f"{_INITIAL[back.value]}-{_INITIAL[side.value]}"
    z = bench.settle("z", (held.rest_z + max(held.jaw_top, held.rest_z + 2.0)) / 2)
    at = (held.box.low[0], held.box.high[1] - 5.0, z)
    verb = "stamp or scribe" if bench.number == 1 else "the mark"
    words = f"{verb} {label} ({back.value} {side.value}): on the end at your left, at the back, low down by the jaws"
    return CornerMark(label, at, words)


def edge_marks(bench: Bench, held: Grip) -> tuple[EdgeMark, ...]:
    """Return the readings of raw and finished edges, and of the levels' walls, along X and Y."""
    marks: dict[tuple[str, float], EdgeMark] = {}
    for index, axis in enumerate("xy"):
        for sign in (-1, 1):
            face = bench.laid.face(index, sign).value
            pairs = ((held.box, "raw"), (bench.envelope, "finished"))
            for box, state in pairs:
                value = (box.high if sign > 0 else box.low)[index]
                _add(marks, bench, axis, value, f"{state} {face}")
    for feature in bench.part.features:
        if isinstance(feature, Level) and isinstance(feature.area, BoxShape) and feature.face is bench.up:
            shape = bench.laid.shape(feature.area)
            assert isinstance(shape, BoxShape)
            for index, axis in enumerate("xy"):
                for value in (shape.low[index], shape.high[index]):
                    _add(marks, bench, axis, value, feature.id)
    return tuple(sorted(marks.values(), key=lambda m: (m.axis, m.value)))


def _add(marks: dict[tuple[str, float], EdgeMark], bench: Bench, axis: str, value: float, words: str) -> None:
    settled = bench.settle(axis, value)
    marks[(axis, round(settled, 6))] = EdgeMark(axis, settled, bench.shown(axis, settled), words)
