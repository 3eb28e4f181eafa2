"""Stock, finished size, general tolerance, datums, title block and drawing."""

from __future__ import annotations

from fractions import Fraction

from setupsheet.finding import Place, note
from setupsheet.length import Length, Unit, plain
from setupsheet.part.face import FACE_OF, Box, Face
from setupsheet.part.feature import Size
from setupsheet.part.part import Datum, Drawing, GeneralTolerance, Revision, Stock, Title
from setupsheet.spec.desk import STAND_IN, Desk
from setupsheet.spec.shape import nearest
from setupsheet.spec.size_text import split
from setupsheet.spec.sizes import size_of
from setupsheet.spec.tree import Mapping, Node, Scalar, Sequence
from setupsheet.tables import general
from setupsheet.tables.unknown import NotInTables

Three = tuple[Length, Length, Length]

STAND_PLACE = Place("")


def read_tolerance(desk: Desk, node: Node | None) -> GeneralTolerance | None:
    """Return the general tolerance: an ISO 2768-1 class or a table by decimal places."""
    if isinstance(node, Mapping):
        return _by_places(desk, node)
    scalar = desk.scalar(node)
    if not scalar:
        return None
    words = scalar.text.split()
    grade = words[-1]
    standard = " ".join(words[:-1])
    if standard not in ("ISO 2768-1", "ISO 2768"):
        desk.wrong(
            "not-a-general-tolerance",
            f"{scalar.text} is no general tolerance",
            scalar.place,
            found=scalar.text,
            allowed="ISO 2768-1 f, m, c or v; or a table by decimal places",
            try_="ISO 2768-1 m",
        )
        return None
    try:
        general.linear_mm(grade, 10.0)
        angle = general.angle_deg(grade, 10.0)
    except NotInTables as problem:
        near = f"{general.STANDARD} {problem.nearest}"
        desk.wrong(
            "not-in-tables", problem.message, scalar.place, found=scalar.text, allowed=near, try_=f"write {near}"
        )
        return None
    return GeneralTolerance("ISO 2768-1", grade, {}, angle, f"ISO 2768-1 {grade}")


PLACES = {"fractions": -1, "0 places": 0, "1 place": 1, "2 places": 2, "3 places": 3, "4 places": 4}
"""Rows of a tolerance table -> decimal places, -1 for fractions."""


def _by_places(desk: Desk, node: Mapping) -> GeneralTolerance:
    table: dict[int, float] = {}
    words: list[str] = []
    for key, places in PLACES.items():
        if key in node.entries:
            amount = _plus_minus(desk, node.get(key))
            table[places] = amount.mm
            words.append(f"{key} ±{amount.text()}")
    angle = _angle(desk, node.get("angles"))
    if not table:
        desk.wrong(
            "value-missing",
            "the tolerance table has no row",
            node.place,
            found=", ".join(node.entries),
            allowed=", ".join(PLACES),
        )
    return GeneralTolerance("by places", "", table, angle, ", ".join((*words, f"angles ±{angle:g}°")))


def _angle(desk: Desk, node: Node | None) -> float:
    if node is None:
        desk.default("tolerances/angles", "±1°", "usual shop practice, no source")
        return 1.0
    scalar = desk.scalar(node)
    return float(desk.exact(Scalar(scalar.text.lstrip("±+- "), scalar.place, scalar.plain))) if scalar else 1.0


def _plus_minus(desk: Desk, node: Node | None) -> Length:
    scalar = desk.scalar(node)
    if not scalar:
        return STAND_IN
    return desk.length_of(scalar.text.strip().removeprefix("±").removeprefix("+/-").strip(), scalar)


def read_three(desk: Desk, node: Node | None, what: str) -> Three:
    """Return three lengths along X, Y and Z."""
    items = node.items if isinstance(node, Sequence) else ()
    if len(items) != 3:
        desk.broken = True
        return STAND_IN, STAND_IN, STAND_IN
    x, y, z = (_nominal(desk, item, what) for item in items)
    return x, y, z


def _nominal(desk: Desk, node: Node, what: str) -> Length:
    scalar = desk.scalar(node)
    if not scalar:
        return STAND_IN
    parts = split(scalar.text)
    length = desk.length_of(parts.nominal, scalar, parts.places)
    if length.exact_mm <= 0:
        desk.wrong("not-above-zero", f"{what} of {scalar.text}", scalar.place, found=scalar.text, allowed="more than 0")
        return STAND_IN
    return length


def read_box(desk: Desk, node: Node | None, size: Three) -> Box:
    """Return the finished envelope: its ``origin:`` corner is 0, 0, 0."""
    words = desk.text(node).split()
    if node is None:
        words = ["left", "front", "bottom"]
        desk.default("origin", "left front bottom", "the usual corner")
    faces = [Face(word) for word in words if word in tuple(Face)]
    if len(words) != 3 or sorted(face.axis for face in faces) != [0, 1, 2]:
        place = node.place if node else None
        desk.wrong(
            "no-such-corner",
            "the origin is a corner of the finished part",
            place,
            found=" ".join(words),
            allowed="left front bottom",
        )
        faces = [Face.LEFT, Face.FRONT, Face.BOTTOM]
    low, high = [0.0] * 3, [0.0] * 3
    for face in faces:
        length = size[face.axis].mm
        if face.sign < 0:
            high[face.axis] = length
        else:
            low[face.axis] = -length
    return Box((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def read_envelope(desk: Desk, node: Node | None, size: Three) -> dict[Face, Size]:
    """Return the overall size with its limits for each face, as written under ``size:``."""
    found: dict[Face, Size] = {}
    items = node.items if isinstance(node, Sequence) and len(node.items) == 3 else None
    for face in Face:
        item = items[face.axis] if items else None
        if isinstance(item, Scalar):
            found[face] = (
                size_of(desk, item.text, item)
                if face.sign > 0
                else found.get(face.opposite) or size_of(desk, item.text, item)
            )
        else:
            found[face] = Size(size[face.axis].mm, size[face.axis].mm, size[face.axis].mm, "", "basic")
    return found


def read_stock(desk: Desk, node: Node | None, box: Box, size: Three) -> Stock:
    """Return the stock and where it lies; ``remove:`` has to add up to stock minus size."""
    stock = desk.mapping(node)
    lengths = read_three(desk, stock.get("size"), "stock")
    written = desk.mapping(stock.get("remove")) if "remove" in stock.entries else Mapping(stock.place)
    remove: dict[Face, Fraction] = {}
    bought: dict[Face, float] = {}
    for face in Face:
        entry = written.get(face.value)
        if isinstance(entry, Scalar):
            _remove(desk, face, entry, remove, bought)
    if not desk.broken:
        for axis in range(3):
            _share(desk, axis, lengths[axis].exact_mm - size[axis].exact_mm, remove, written)
    low = tuple(float(Fraction(str(box.low[axis])) - remove.get(FACE_OF[(axis, -1)], Fraction(0))) for axis in range(3))
    high = tuple(low[axis] + lengths[axis].mm for axis in range(3))
    form = desk.text(stock.get("form"), "plate")
    machined = {face: float(remove.get(face, Fraction(0))) for face in Face if face not in bought}
    return Stock(form, Box((low[0], low[1], low[2]), (high[0], high[1], high[2])), lengths, machined, bought)


def _remove(desk: Desk, face: Face, entry: Scalar, remove: dict[Face, Fraction], bought: dict[Face, float]) -> None:
    """Read one face's share: an amount, or ``as-bought ±0.1``."""
    text = entry.text.strip()
    if not text.startswith("as-bought"):
        amount = desk.length_of(text, entry).exact_mm
        if amount < 0:
            desk.wrong(
                "not-above-zero",
                f"{face}: {text} comes off",
                entry.place,
                found=text,
                allowed="0 or more, or as-bought ±0.2",
            )
        remove[face] = amount
        return
    rest = text.removeprefix("as-bought").strip().removeprefix("±").strip()
    if not rest:
        desk.wrong(
            "value-missing", f"{face}: as-bought within what?", entry.place, found=text, allowed="as-bought ±0.2"
        )
        return
    bought[face] = desk.length_of(rest, entry).mm
    remove[face] = Fraction(0)


def _share(desk: Desk, axis: int, spare: Fraction, remove: dict[Face, Fraction], written: Mapping) -> None:
    """Split what is not stated evenly between the two faces of an axis, and test that it adds up."""
    faces = (FACE_OF[(axis, -1)], FACE_OF[(axis, 1)])
    name = "xyz"[axis]
    open_faces = [face for face in faces if face not in remove]
    left = spare - sum(remove.get(face, Fraction(0)) for face in faces)
    unit = desk.unit

    def shown(value: Fraction) -> str:
        return f"{plain(value / unit.mm, 4)} {unit.short}"

    if spare < 0:
        desk.wrong(
            "stock-too-small",
            f"{shown(-spare)} short along {name}: the stock is smaller than the finished part",
            written.place,
            found=f"stock minus size is {shown(spare)}",
            allowed="stock as large as the part or larger",
            try_="choose the next larger stock",
        )
    elif (not open_faces and left != 0) or left < 0:
        total = spare - left
        desk.wrong(
            "remove-does-not-add-up",
            f"{shown(total)} comes off along {name}, but stock minus size is {shown(spare)}",
            written.key_place(faces[0].value),
            found=f"{faces[0]} and {faces[1]} together {shown(total)}",
            allowed=shown(spare),
            try_=f"change {faces[0]}: or {faces[1]}:, or leave one out",
        )
    for face in open_faces:
        remove[face] = max(left, Fraction(0)) / len(open_faces)
        desk.default(f"stock/remove/{face}", shown(remove[face]), f"what is not stated along {name} is split evenly")


def read_datums(desk: Desk, node: Node | None, features: Node | None) -> tuple[Datum, ...]:
    """Return the datums; each names a face or a feature with an axis."""
    if node is None:
        desk.default("datums", "A: bottom", "the bottom is what the part stands on")
        return (Datum("A", Face.BOTTOM),)
    known = tuple(features.entries) if isinstance(features, Mapping) else ()
    found: list[Datum] = []
    for letter, entry in desk.mapping(node).entries.items():
        name = desk.text(entry.value)
        if name in tuple(Face):
            found.append(Datum(letter, Face(name)))
        elif name in known:
            found.append(Datum(letter, None, name))
        elif name:
            desk.wrong(
                "unknown-datum",
                f"datum {letter}: {name} is no face and no feature",
                entry.value.place,
                found=name,
                allowed=", ".join((*Face, *known)),
            )
            found.append(_meant(letter, name, known))
    return tuple(found)


def _meant(letter: str, name: str, known: tuple[str, ...]) -> Datum:
    """Return the datum that was probably meant, so that what counts from it is not found fault with too."""
    near = nearest(name, (*Face, *known)) or name
    return Datum(letter, Face(near)) if near in tuple(Face) else Datum(letter, None, near)


def read_title(desk: Desk, node: Node | None) -> Title:
    """Return the title block; a field that was left out prints as a blank."""
    own = desk.mapping(node) if node else Mapping(STAND_PLACE)
    fields = {key: desk.text(own.get(key)) for key in ("owner", "drawn_by", "approved_by", "date")}
    missing = [key for key, value in fields.items() if not value]
    if missing:
        desk.findings.append(
            note(
                "title-block-blank",
                f"{len(missing)} fields of the title block print as blanks to fill in by pen: {', '.join(missing)}",
                node.place if node else None,
                found=", ".join(key for key in fields if key not in missing) or "none of them",
                allowed=", ".join(fields),
            )
        )
    document = desk.text(own.get("document"), "part drawing")
    return Title(fields["owner"], fields["drawn_by"], fields["approved_by"], fields["date"], document)


def read_drawing(desk: Desk, node: Node | None) -> Drawing:
    """Return how the drawing is wanted; the unit suggests standard and projection."""
    own = desk.mapping(node) if node else Mapping(STAND_PLACE)
    inch = desk.unit is Unit.INCH
    standard = desk.choice(own.get("standard"), ("iso", "asme"), "asme" if inch else "iso")
    if "standard" not in own.entries:
        desk.default("drawing/standard", standard, f"the spec counts in {desk.unit}")
    projection = desk.choice(own.get("projection"), ("first", "third"), "third" if standard == "asme" else "first")
    if "projection" not in own.entries:
        desk.default("drawing/projection", projection, f"usual with {standard.upper()} drawings")
    return Drawing(standard, projection, desk.text(own.get("sheet")), desk.text(own.get("decimal-sign"), "."))


def read_revisions(desk: Desk, node: Node | None) -> tuple[Revision, ...]:
    """Return the rows of the revision table."""
    rows = (desk.mapping(item) for item in desk.items(node))
    return tuple(
        Revision(desk.text(row.get("letter")), desk.text(row.get("date")), desk.text(row.get("change"))) for row in rows
    )


NO_TOLERANCE = GeneralTolerance("", "", {}, 1.0, "")
"""Stands in where the general tolerance could not be read."""
