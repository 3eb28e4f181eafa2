"""The title block: the fields of ISO 7200 and what stands beside them, 180 mm wide, lower right.

One layout for both standards; only words and capitals differ. From the foot: a check bar, a row of small
fields with the projection symbol, number, title, and above them tolerances, material, edges and surface.
Edges that lie on the sheet's frame are the frame's and are not drawn twice.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, fields

from setupsheet.drawing import lettering, projection_symbol, table, texture
from setupsheet.drawing.frame import SheetSize, check_bar
from setupsheet.drawing.ink import Group, Line, Pen, Stroke, Text
from setupsheet.plane import Point2

WIDTH_MM = 180.0
"""ISO 7200; as wide as the drawing space of an upright A4."""

_CAPTION_MM = 1.8
_SIDE_MM = 1.5
_STRIP_MM = 7.0
_ROW_MM = 9.0
_TALL_MM = 13.0
HEIGHT_MM = _STRIP_MM + 3 * _ROW_MM + 2 * _TALL_MM
REVISION_WIDTH_MM = 112.0
_PRINT_WORDS = "100 mm: print at 100 %, measure this bar"


@dataclass(frozen=True, slots=True)
class TitleBlock:
    """All texts of a title block, as printed; '' leaves a field empty to be written by hand.

    ``tolerances`` are the lines of the general tolerance. ``standard`` 'iso' or 'asme', ``projection``
    'first' or 'third'.
    """

    standard: str
    projection: str
    owner: str = ""
    number: str = ""
    title: str = ""
    creator: str = ""
    approver: str = ""
    date: str = ""
    document_type: str = ""
    language: str = ""
    sheet_size: str = ""
    scale: str = ""
    revision: str = ""
    sheet: str = ""
    material: str = ""
    mass: str = ""
    unit: str = ""
    edges: str = ""
    surface: str = ""
    tolerancing: str = ""
    tolerances: tuple[str, ...] = ()

    def as_fields(self) -> dict[str, str]:
        """Return the values by field name, for the attributes of a DXF block."""
        texts = {f.name: getattr(self, f.name) for f in fields(self) if f.name != "tolerances"}
        return {**texts, "tolerances": "; ".join(self.tolerances)}


@dataclass(frozen=True, slots=True)
class _Field:
    """A cell of the block: field name, caption, lower left corner, size, height of its text."""

    name: str
    caption: str
    at: Point2
    size: Point2
    height: float = 3.5
    bold: bool = False


_PATHS = {
    "number": "/number",
    "title": "/part",
    "revision": "/revision",
    "material": "/material",
    "mass": "/solid/mass_kg",
}
"""Where a field's value stands in plan.json."""

_ROWS: tuple[tuple[float, float, tuple[tuple[str, str, float], ...]], ...] = (
    (
        _STRIP_MM,
        _ROW_MM,
        (
            ("document_type", "Document type", 39.0),
            ("language", "Language", 16.0),
            ("sheet_size", "Size", 13.0),
            ("scale", "Scale", 18.0),
            ("date", "Date of issue", 28.0),
            ("revision", "Revision", 18.0),
            ("sheet", "Sheet", 22.0),
            ("", "", 26.0),
        ),
    ),
    (_STRIP_MM + _ROW_MM, _TALL_MM, (("owner", "Legal owner", 68.0), ("number", "Number", 112.0))),
    (
        _STRIP_MM + _ROW_MM + _TALL_MM,
        _TALL_MM,
        (("creator", "Created by", 34.0), ("approver", "Approved by", 34.0), ("title", "Title", 112.0)),
    ),
    (
        _STRIP_MM + _ROW_MM + 2 * _TALL_MM,
        _ROW_MM,
        (
            ("", "", 68.0),
            ("edges", "Edges", 46.0),
            ("surface", "Surface", 32.0),
            ("tolerancing", "Tolerancing", 34.0),
        ),
    ),
    (
        _STRIP_MM + 2 * _ROW_MM + 2 * _TALL_MM,
        _ROW_MM,
        (("", "", 68.0), ("material", "Material", 64.0), ("mass", "Mass", 22.0), ("unit", "Unit", 26.0)),
    ),
)
"""Lower edge, height, and (field, caption, width) from left to right."""


def title_block(block: TitleBlock, size: SheetSize) -> Group:
    """Return the title block in the lower right corner of the sheet's drawing space."""
    (frame_left, y0), (x1, _) = size.space
    x0 = x1 - WIDTH_MM
    items: list[Stroke] = [Line(Pen.FRAME, (x0, y0 + HEIGHT_MM), (x1, y0 + HEIGHT_MM))]
    if x0 > frame_left + 1e-9:
        items.append(Line(Pen.FRAME, (x0, y0), (x0, y0 + HEIGHT_MM)))
    items += _rules((x0, y0))
    for field in _fields():
        items += _field(block, field, (x0, y0))
    items += _tolerances(block, (x0, y0))
    items += _symbols(block, (x0, y0))
    items += projection_symbol.symbol(block.projection, (x1 - 13.0, y0 + _STRIP_MM + _ROW_MM / 2), 3.2)
    items += _strip(block, (x0, y0))
    return Group("title block", tuple(items), ((x0, y0), (x1, y0 + HEIGHT_MM)))


def room_above(size: SheetSize) -> Point2:
    """Return the upper left corner of the title block: above it the space is free."""
    (_, y0), (x1, _) = size.space
    return x1 - WIDTH_MM, y0 + HEIGHT_MM


def revision_table(revisions: Sequence[tuple[str, str, str]], size: SheetSize, most: int = 5) -> Group | None:
    """Return the last ``most`` revisions (letter, date, change) on top of the title block, or None.

    The table is as wide as the title's field and stands on the block at the frame's right edge.
    """
    if not revisions:
        return None
    height, wide = 2.5, (14.0, 26.0, REVISION_WIDTH_MM - 40.0)
    room = wide[2] - 2 * 1.5
    rows = tuple(
        tuple(table.Cell(_fit(text, height, width)) for text, width in zip(row, (*wide[:2], room), strict=True))
        for row in revisions[-most:]
    )
    words = ("REV", "DATE", "CHANGE") if size.standard == "asme" else ("Rev", "Date", "Change")
    columns = tuple(table.Column(word, align) for word, align in zip(words, ("middle", "left", "left"), strict=True))
    drawn = table.Table("revisions", columns, rows, height)
    top = size.space[0][1] + HEIGHT_MM + (len(rows) + 1) * drawn.row_mm
    return table.draw(drawn, (size.space[1][0] - REVISION_WIDTH_MM, top), wide, sides="lt")


def _fit(text: str, height: float, room: float) -> str:
    return lettering.fitted(lettering.drawable(text), height, room)


def _fields() -> list[_Field]:
    made = []
    for low, high, cells in _ROWS:
        x = 0.0
        for name, caption, width in cells:
            if name:
                big = name in {"number", "title"}
                height = 2.5 if high < _TALL_MM else 5.0 if big else 3.5
                made.append(_Field(name, caption, (x, low), (width, high), height, big))
            x += width
    return made


def _rules(origin: Point2) -> list[Stroke]:
    """Return the rules between rows and cells; the tolerance block takes two rows at the left."""
    x0, y0 = origin
    items: list[Stroke] = []
    for low, high, cells in _ROWS:
        starts_at = 0.0 if cells[0][0] or low <= _ROWS[3][0] else cells[0][2]
        items.append(Line(Pen.THIN, (x0 + starts_at, y0 + low), (x0 + WIDTH_MM, y0 + low)))
        x = 0.0
        for _, _, width in cells[:-1]:
            x += width
            items.append(Line(Pen.THIN, (x0 + x, y0 + low), (x0 + x, y0 + low + high)))
    return items


def _field(block: TitleBlock, field: _Field, origin: Point2) -> list[Stroke]:
    """Return caption and value of one cell; a long value gets smaller, then two lines, then '…'."""
    x, y = origin[0] + field.at[0] + _SIDE_MM, origin[1] + field.at[1]
    high = field.size[1]
    items: list[Stroke] = [_caption(block, field.caption, (x, y + high))]
    value = lettering.drawable(str(getattr(block, field.name)))
    if not value or field.name in _drawn(block):
        return items
    room = field.size[0] - 2 * _SIDE_MM
    height, lines = _setting(value, field, room)
    path = _PATHS.get(field.name, "")
    free = high - _CAPTION_MM - 0.9 + 0.5
    pitch = height * 1.5
    base = y + (free - (len(lines) - 1) * pitch - height) / 2
    for index, line in enumerate(reversed(lines)):
        items.append(Text((x, base + index * pitch), height, line, "left", 0.0, field.bold, False, path))
    return items


def _drawn(block: TitleBlock) -> dict[str, str]:
    """Return the fields that a symbol says, with the value at the symbol: edges (ISO 13715) and surface texture."""
    found = {}
    if block.standard == "iso" and (match := _EDGE.fullmatch(block.edges)):
        found["edges"] = match[1]
    if texture.is_texture(block.surface):
        found["surface"] = block.surface
    return found


def _symbols(block: TitleBlock, origin: Point2) -> list[Stroke]:
    """Return the symbols for edges and surface, beside the captions of their cells."""
    items: list[Stroke] = []
    drawn, iso = _drawn(block), block.standard == "iso"
    for field in _fields():
        x, y = origin[0] + field.at[0] + _SIDE_MM, origin[1] + field.at[1]
        if field.name == "edges" and "edges" in drawn:
            items += texture.edge_symbol(drawn["edges"], (x + 14.0, y + 0.9), 2.5)
        elif field.name == "surface" and "surface" in drawn:
            wide = texture.width(drawn["surface"], 2.5, iso)
            items += texture.symbol(drawn["surface"], (x + field.size[0] - 2 * _SIDE_MM - wide, y + 0.8), 2.5, iso)
    return items


_EDGE = re.compile(r"outside (-\S+)")


def _setting(value: str, field: _Field, room: float) -> tuple[float, tuple[str, ...]]:
    """Choose a text height of the series and one or two lines."""
    series = [height for height in (5.0, 3.5, 2.5) if height <= field.height]
    for height in series:
        if lettering.width(value, height, field.bold) <= room:
            return height, (value,)
    height = 2.5 if field.size[1] > _ROW_MM else 2.0
    lines = lettering.wrapped(value, height, room, field.bold)
    if len(lines) <= 2 and field.size[1] > _ROW_MM:
        return height, lines
    return height, (lettering.fitted(value, height, room, field.bold),)


def _caption(block: TitleBlock, words: str, top_left: Point2) -> Text:
    shown = words.upper() if block.standard == "asme" else words
    return Text((top_left[0], top_left[1] - 0.9 - _CAPTION_MM), _CAPTION_MM, shown)


def _tolerances(block: TitleBlock, origin: Point2) -> list[Stroke]:
    """Return the general tolerances: a caption and up to three lines."""
    x, top = origin[0] + _SIDE_MM, origin[1] + HEIGHT_MM
    words = "Unless otherwise specified" if block.standard == "asme" else "General tolerances"
    items: list[Stroke] = [_caption(block, words, (x, top))]
    lines = block.tolerances[:3]
    height = 3.5 if len(lines) == 1 else 2.5
    pitch = 4.3
    base = top - 2 * _ROW_MM + 1.9 + (3 - len(lines)) / 2 * pitch
    for index, line in enumerate(reversed(lines)):
        items.append(Text((x, base + index * pitch), height, _fit(line, height, 68.0 - 2 * _SIDE_MM)))
    return items


def _strip(block: TitleBlock, origin: Point2) -> list[Stroke]:
    """Return the foot: check bar and what to do with it."""
    x, y = origin[0] + 4.0, origin[1] + 2.4
    words = _PRINT_WORDS.upper() if block.standard == "asme" else _PRINT_WORDS
    return [*check_bar((x, y)), Text((x + 104.0, y + 0.2), _CAPTION_MM, words)]
