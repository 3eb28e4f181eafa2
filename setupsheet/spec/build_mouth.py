"""What stands at the ends of a hole: counterbore, spotface, countersink, chamfer."""

from __future__ import annotations

import re

from setupsheet.part.face import Face
from setupsheet.part.feature import Counterbore, Countersink, HoleChamfer, Size
from setupsheet.spec.desk import Desk
from setupsheet.spec.sizes import NOTHING, read_size, size_of
from setupsheet.spec.tree import Mapping, Node, Scalar
from setupsheet.tables import screws
from setupsheet.tables.doubt import doubtful
from setupsheet.tables.unknown import NotInTables


def read_counterbore(desk: Desk, node: Mapping) -> Counterbore | None:
    """Return the counterbore or the spotface of a hole, None if it has none."""
    if "counterbore" in node.entries and "spotface" in node.entries:
        place = node.key_place("spotface")
        desk.wrong(
            "mouth-not-clear", "a mouth has a counterbore or a spotface", place, found="both", allowed="one of them"
        )
        return None
    if "spotface" in node.entries:
        return _spotface(desk, desk.mapping(node.get("spotface")))
    if "counterbore" not in node.entries:
        return None
    own = desk.mapping(node.get("counterbore"))
    screw = desk.scalar(own.get("for")) if "for" in own.entries else None
    if screw:
        return _for_screw(desk, own, screw)
    _needs(desk, own, "counterbore", "diameter", "depth")
    size, depth = read_size(desk, own.get("diameter")), desk.length(own.get("depth"))
    return Counterbore(size, depth.mm, f"{size.written} x {depth.text()} deep")


def _needs(desk: Desk, node: Mapping, what: str, *keys: str) -> None:
    """Say which keys are missing where no screw gives the sizes."""
    missing = [key for key in keys if key not in node.entries]
    if missing and node.place.file:
        desk.wrong(
            "value-missing",
            f"the {what} has no {' and no '.join(missing)}",
            node.place,
            found=", ".join(node.entries) or "nothing",
            allowed=f"for: M4, or {' and '.join(f'{key}:' for key in keys)}",
        )


def _for_screw(desk: Desk, own: Mapping, screw: Scalar) -> Counterbore | None:
    try:
        diameter, depth, source, status = screws.counterbore(screw.text)
    except NotInTables as problem:
        desk.not_in_tables(problem, screw)
        return None
    written = f"for {screw.text}"
    size = _table_size(desk, diameter, written, _with_doubt(source, status), screw)
    if "diameter" in own.entries:
        size = read_size(desk, own.get("diameter"))
    if "depth" in own.entries:
        depth = desk.mm(own.get("depth"))
    return Counterbore(size, depth, written, screw.text)


def _with_doubt(source: str, status: str) -> str:
    """Return where a size comes from, with the table's own doubt where it was not seen in print."""
    return f"{source}; {status}" if doubtful(status) else source


def _table_size(desk: Desk, diameter_mm: float, written: str, source: str, node: Scalar) -> Size:
    """Return a size from a screw table with the part's general tolerance.

    Where that goes by places, the size counts as written to two (``common practice, no source``).
    """
    by_places = desk.general.by_places_mm if desk.general and desk.general.standard == "by places" else None
    if by_places:
        row = by_places.get(2, max(by_places.values()))
        desk.opened("seat/tolerance", "2 places", "a screw table's size has no places of its own")
        return Size(
            diameter_mm, round(diameter_mm - row, 4), round(diameter_mm + row, 4), written, "general", "", source
        )
    general = size_of(desk, f"{diameter_mm!r} mm", node)
    return Size(diameter_mm, general.lower_mm, general.upper_mm, written, "general", "", source)


def _spotface(desk: Desk, own: Mapping) -> Counterbore | None:
    _needs(desk, own, "spotface", "diameter", "depth")
    size, depth = read_size(desk, own.get("diameter")), desk.length(own.get("depth"))
    return Counterbore(size, depth.mm, f"{size.written} spotface x {depth.text()} deep", spotface=True)


def read_countersink(desk: Desk, node: Mapping, face: Face) -> Countersink | None:
    """Return the countersink of a hole, None if it has none."""
    if "countersink" not in node.entries:
        return None
    own = desk.mapping(node.get("countersink"))
    end = _end(desk, own, face)
    screw = desk.scalar(own.get("for")) if "for" in own.entries else None
    if screw is None:
        _needs(desk, own, "countersink", "diameter")
        if "angle" not in own.entries:
            desk.opened("countersink/angle", "90", "the usual countersink")
        size, angle = read_size(desk, own.get("diameter")), desk.number(own.get("angle"), 90.0)
        return Countersink(size, angle, f"{size.written} x {angle:g}°", "", end)
    try:
        diameter, angle, source, status = screws.countersink(screw.text)
    except NotInTables as problem:
        desk.not_in_tables(problem, screw)
        return None
    size = _table_size(desk, diameter, f"for {screw.text}", _with_doubt(source, status), screw)
    if "diameter" in own.entries:
        size = read_size(desk, own.get("diameter"))
    return Countersink(size, desk.number(own.get("angle"), angle), f"for {screw.text}", screw.text, end)


def _end(desk: Desk, own: Mapping, face: Face) -> str:
    """Return the end of the hole that a countersink named by ``from:`` stands at."""
    node = own.get("from")
    word = desk.text(node, str(face))
    return _end_at(desk, word, face, node)


def _end_at(desk: Desk, word: str, face: Face, node: Node | None) -> str:
    if word in ("mouth", "exit"):
        return word
    if word == str(face):
        return "mouth"
    if word == str(face.opposite):
        return "exit"
    place = node.place if node else None
    desk.wrong(
        "no-such-end",
        f"the hole has no end at {word}",
        place,
        found=word,
        allowed=f"{face}, {face.opposite}, mouth, exit",
    )
    return "mouth"


_CHAMFER = re.compile(
    r"^(?P<to>to\s+)?(?P<size>\S+(?:\s*(?:mm|in|\"))?)"
    r"(?:\s+(?P<end>both ends|mouth|exit|top|bottom|left|right|front|back))?$"
)


def read_chamfers(desk: Desk, node: Mapping, face: Face, hole: Size) -> tuple[HoleChamfer, ...]:
    """Return the chamfers of a hole: ``0.5 both ends`` (leg x 45 degrees) or ``to 5.5 mouth`` (diameter)."""
    scalar = desk.scalar(node.get("chamfer")) if "chamfer" in node.entries else None
    if not scalar:
        return ()
    match = _CHAMFER.match(scalar.text.strip())
    if not match:
        desk.wrong(
            "not-a-chamfer",
            f"{scalar.text} is not a chamfer",
            scalar.place,
            found=scalar.text,
            allowed="0.5, 0.5 both ends, to 5.5 bottom",
        )
        return ()
    size = desk.length_of(match["size"], scalar).mm
    diameter = size if match["to"] else hole.nominal_mm + 2 * size
    if diameter <= hole.nominal_mm and hole is not NOTHING:
        desk.wrong(
            "chamfer-inside-hole",
            f"a chamfer to {size:g} lies inside the hole",
            scalar.place,
            found=f"{size:g} mm",
            allowed=f"more than {hole.nominal_mm:g} mm",
        )
    if not match["end"]:
        desk.opened("chamfer", "mouth", "a chamfer without a named end is at the mouth")
    ends = ("mouth", "exit") if match["end"] == "both ends" else (_end_at(desk, match["end"] or "mouth", face, scalar),)
    if "exit" in ends and "depth" in node.entries:
        desk.wrong("no-such-end", "a blind hole has no second end", scalar.place, found=scalar.text, allowed="mouth")
    return tuple(HoleChamfer(round(diameter, 6), 90.0, end, scalar.text) for end in ends)
