"""Geometrical tolerances of holes, bosses and outer faces: 'flatness 0.05', 'parallelism 0.05 to A'.

Flatness belongs to a face alone and has no datum; concentricity to an axis and a datum that is an axis; the other
two to either (ISO 1101, ASME Y14.5). Whether a datum exists and makes sense is asked later (``sense_geometry.py``).
"""

from __future__ import annotations

from setupsheet.part.face import Face
from setupsheet.part.geometry import FaceAsked, Geometry
from setupsheet.spec import shape
from setupsheet.spec.desk import Desk
from setupsheet.spec.tree import Mapping, Node, Scalar, Sequence

OF_FACES = ("flatness", "parallelism", "perpendicularity")
OF_AXES = ("parallelism", "perpendicularity", "concentricity")


def read_geometry(desk: Desk, node: Node | None, allowed: tuple[str, ...]) -> tuple[Geometry, ...]:
    """Return the geometrical tolerances of a feature or face; of an axis where ``allowed`` are those of axes."""
    items = node.items if isinstance(node, Sequence) else (node,) if node else ()
    found = (_one(desk, item, allowed) for item in items if isinstance(item, Scalar) and not item.empty)
    return tuple(geometry for geometry in found if geometry is not None)


def _one(desk: Desk, node: Scalar, allowed: tuple[str, ...]) -> Geometry | None:
    words, _, datums = node.text.strip().partition(" to ")
    what, _, zone = words.strip().partition(" ")
    letters = datums.replace(",", " ").split()
    if what not in allowed:
        near = shape.nearest(what, list(allowed)) or allowed[0]
        _wrong(desk, node, f"{what or node.text!r} is none of {', '.join(allowed)}", ", ".join(allowed), f"{near} 0.05")
        return None
    if what == "flatness" and letters:
        _wrong(desk, node, "flatness is of one face alone, it counts from no datum", "flatness 0.05", "leave out 'to'")
        return None
    if what != "flatness" and not (letters and all(len(letter) == 1 and letter.isupper() for letter in letters)):
        _wrong(desk, node, f"{node.text}: to which datum?", f"{what} {zone or '0.05'} to A", "name a datum letter")
        return None
    mm = desk.mm(Scalar(zone.strip(), node.place))
    if mm <= 0:
        _wrong(desk, node, "the zone has no width", "more than 0", f"{what} 0.05")
        return None
    return Geometry(what, mm, " ".join(letters), node.text, allowed is OF_AXES)


def _wrong(desk: Desk, node: Scalar, message: str, allowed: str, try_: str) -> None:
    desk.wrong("geometry", message, node.place, found=node.text, allowed=allowed, try_=try_)


def read_faces(desk: Desk, node: Node | None) -> tuple[FaceAsked, ...]:
    """Return what is asked of the outer faces, in the order written."""
    found = []
    for word, entry in node.entries.items() if isinstance(node, Mapping) else ():
        if word in tuple(Face) and isinstance(entry.value, Mapping):
            geometry = read_geometry(desk, entry.value.get("geometry"), OF_FACES)
            finish = desk.text(entry.value.get("finish"))
            if finish or geometry:
                found.append(FaceAsked(Face(word), finish, geometry, entry.key.place))
    return tuple(found)
