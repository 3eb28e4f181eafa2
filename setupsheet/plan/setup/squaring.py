"""A block squared on six faces: which face is cut first, what stands at the fixed jaw, what it rests on.

The order is the trade's: the widest face first; with it at the fixed jaw the two faces beside it and the ends; then
the face opposite, which is the last. Source: planning rules M05 and M12.
"""

from __future__ import annotations

from dataclasses import dataclass

from setupsheet.part.face import FACE_OF, Face
from setupsheet.part.part import Part


@dataclass(frozen=True, slots=True)
class Turn:
    """One clamping of a proposal: the face up, the face at the fixed jaw, and whether only that face is cut."""

    up: Face
    back: Face
    face_only: bool = False
    over: tuple[Face, Face] | None = None
    """The face underneath and the one on top, where the thickness is measured over them."""
    end: Face | None = None
    """The end that hangs out of the jaws and is milled alone, because the part is too long to stand on the other."""
    edges: tuple[str, ...] = ()
    """Ids of the edges that are cut alone, because the other end has to hang out for them."""


def machined(part: Part, face: Face) -> bool:
    """Tell whether metal has to come off a face of the envelope."""
    return face not in part.stock.as_bought and part.stock.remove_mm.get(face, 0.0) > 0


def first_face(part: Part) -> Face:
    """Return the face that all others are squared from: of the widest pair, a machined one or a datum first."""
    thinnest = min(range(3), key=lambda axis: (round(part.box.size[axis], 6), -axis))
    return _first_of(part, thinnest)


def _first_of(part: Part, axis: int) -> Face:
    """Return the face of a pair that comes first: machined before as it comes, a datum before none, low before high."""
    letters = {datum.face: datum.letter for datum in part.datums if datum.face}
    pair = (FACE_OF[(axis, -1)], FACE_OF[(axis, 1)])
    return min(pair, key=lambda face: (not machined(part, face), letters.get(face, "~"), face.sign))


def is_block(part: Part, reach_mm: float) -> bool:
    """Tell whether the sides want facing one by one, because no cutter goes down beside them (``reach_mm``)."""
    first = first_face(part)
    beside = [face for face in Face if face.axis != first.axis and machined(part, face)]
    return bool(beside) and (part.box.size[first.axis] > reach_mm or first.axis != 2)


def squared(part: Part) -> list[Turn]:
    """Return the clampings that square a block, without the last one: the face opposite to the first."""
    first = first_face(part)
    size = part.box.size
    beside, ends = sorted((axis for axis in range(3) if axis != first.axis), key=lambda axis: size[axis])
    turns = [Turn(first, FACE_OF[(beside, 1)], face_only=True)] if machined(part, first) else []
    for axis in (beside, ends):
        one = _first_of(part, axis)
        if machined(part, one):
            turns.append(Turn(one, first, face_only=True))
        if machined(part, one.opposite):
            turns.append(Turn(one.opposite, first, face_only=True, over=(one, one.opposite)))
    return turns
