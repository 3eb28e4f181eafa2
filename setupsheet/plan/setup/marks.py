"""What the plan view names: readings of edges, and the mark that tells which corner is which."""

from __future__ import annotations

from dataclasses import dataclass

from setupsheet.part.face import Face
from setupsheet.part.feature import Level
from setupsheet.part.shape import BoxShape
from setupsheet.plan.bench import Bench
from setupsheet.plan.record import EdgeMark
from setupsheet.plan.setup.hold import Grip
from setupsheet.plane import Point3
from setupsheet.solid.laid import Laid

_INITIAL = {"left": "L", "right": "R", "front": "F", "back": "B", "top": "T", "bottom": "U"}


_WHERE = {
    (0, -1): "at your left",
    (0, 1): "at your right",
    (1, -1): "at the front",
    (1, 1): "at the back",
    (2, 1): "on top",
    (2, -1): "underneath",
}


@dataclass(frozen=True, slots=True)
class MarkFaces:
    """The part faces that a corner mark names: the end that it stands on, and the side that it stands near."""

    end: Face
    side: Face


@dataclass(frozen=True, slots=True)
class CornerMark:
    """A mark to stamp or scribe: its letters, where it stands (setup frame), and the words for it."""

    label: str
    at: Point3
    words: str


def mark_faces(laid: Laid) -> MarkFaces:
    """Return which corner the first setup marks: at the fixed jaw, on the end at the reader's left."""
    return MarkFaces(laid.face(0, -1), laid.face(1, 1))


def corner_mark(bench: Bench, held: Grip, faces: MarkFaces) -> CornerMark:
    """Return the mark as this setup sees it: made in the first one, found again in the others.

    It is made low down in the jaws' height, where the first setup cuts nothing.
    """
    label, words = mark_words(bench.laid, faces)
    if bench.number == 1:
        names, (end, side) = _names(faces), _places(bench.laid, faces)
        low = "low down by the jaws" if bench.vise else "low down"
        words = f"Stamp or scribe {names} on the end {end}, {side}, {low}: nothing cuts there now"
    if faces.end is bench.up and faces.end not in bench.part.stock.as_bought and bench.number > 1:
        words += "; this setup cuts it away: stamp it again on the new face when it is done"
    return CornerMark(label, _mark_at(bench, held, faces), words)


def mark_words(laid: Laid, faces: MarkFaces) -> tuple[str, str]:
    """Return the letters of a mark that is there, and where it is as the part lies (before any tilt)."""
    end, side = _places(laid, faces)
    return _letters(faces), f"The mark {_names(faces)} is now {end}, {side}"


def _letters(faces: MarkFaces) -> str:
    return f"{_INITIAL[faces.side.value]}-{_INITIAL[faces.end.value]}"


def _names(faces: MarkFaces) -> str:
    return f"{_letters(faces)} ({faces.side.value} {faces.end.value})"


def _places(laid: Laid, faces: MarkFaces) -> tuple[str, str]:
    return _WHERE[laid.where(faces.end)], _WHERE[laid.where(faces.side)]


def _mark_at(bench: Bench, held: Grip, faces: MarkFaces) -> Point3:
    at = [(low + high) / 2 for low, high in zip(held.box.low, held.box.high, strict=True)]
    at[2] = (held.rest_z + max(held.jaw_top, held.rest_z + 2.0)) / 2
    for face, inset in ((faces.end, 0.0), (faces.side, 5.0)):
        axis, sign = bench.laid.where(face)
        at[axis] = (held.box.high if sign > 0 else held.box.low)[axis] - sign * inset
    return bench.settle("x", at[0]), bench.settle("y", at[1]), bench.settle("z", at[2])


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
