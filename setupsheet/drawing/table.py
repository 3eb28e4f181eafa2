"""Tables on a sheet: columns as wide as their texts, figures aligned on the decimal sign.

``flow`` cuts a long table into blocks that stand side by side and go on over further sheets. The heading
is repeated on every block.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from setupsheet.drawing import signs
from setupsheet.drawing.ink import Group, Line, Pen, Polyline, Stroke, Text
from setupsheet.plane import Point2

_SIDE = 0.6
"""Clear space left and right of a text in a cell, in text heights."""
_ROW = 1.9
"""Height of a row in text heights."""
BLOCK_GAP_MM = 6.0


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its heading and how its texts stand: left, middle, right or decimal."""

    heading: str
    align: str = "left"


@dataclass(frozen=True, slots=True)
class Cell:
    """A text of the table, and the JSON pointer of its value in plan.json."""

    text: str
    path: str = ""


Row = tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class Table:
    """A table before it has a place: columns, rows, and the capital height of its texts in mm."""

    name: str
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    height: float = 2.5
    decimal_sign: str = "."

    @property
    def row_mm(self) -> float:
        """Height of one row."""
        return _ROW * self.height

    def widths(self) -> tuple[float, ...]:
        """Return the widths of the columns in mm, from the widest text of each."""
        return tuple(self._width(index) for index in range(len(self.columns)))

    def _width(self, index: int) -> float:
        heading = signs.width(self.columns[index].heading, self.height, bold=True)
        texts = [row[index].text for row in self.rows]
        if self.columns[index].align == "decimal":
            before, behind = self.decimal_room(index)
            widest = before + behind
        else:
            widest = max((signs.width(text, self.height) for text in texts), default=0.0)
        return max(heading, widest) + 2 * _SIDE * self.height

    def decimal_room(self, index: int) -> tuple[float, float]:
        """Return the widest text before and from the decimal sign of a column."""
        parts = [_at_sign(row[index].text, self.decimal_sign) for row in self.rows]
        before = max((signs.width(part, self.height) for part, _ in parts), default=0.0)
        behind = max((signs.width(part, self.height) for _, part in parts), default=0.0)
        return before, behind


def size(table: Table, rows: int | None = None) -> Point2:
    """Return width and height of the table, or of a block with that many of its rows."""
    count = len(table.rows) if rows is None else rows
    return sum(table.widths()), (count + 1) * table.row_mm


def draw(table: Table, top_left: Point2, widths: Sequence[float] | None = None, sides: str = "lrtb") -> Group:
    """Return the table as ink, its upper left corner at ``top_left``.

    ``sides`` names the sides of the outline that are drawn (left, right, top, bottom): a side that lies on
    the frame or on the title block is theirs already.
    """
    wide = tuple(widths) if widths else table.widths()
    x0, top = top_left
    borders = [x0]
    for width in wide:
        borders.append(borders[-1] + width)
    bottom = top - (len(table.rows) + 1) * table.row_mm
    items = [*_outline((x0, bottom), (borders[-1], top), sides), *_rules(table, borders, top, bottom)]
    for column, (left, right) in enumerate(pairwise(borders)):
        heading = Text(((left + right) / 2, _base(table, top)), table.height, table.columns[column].heading, "middle")
        items += signs.line(Text(heading.at, heading.height, heading.text, "middle", bold=True))
        items += _column(table, column, (left, right), top)
    return Group(table.name, tuple(items), ((x0, bottom), (borders[-1], top)))


def flow(table: Table, rooms: Sequence[tuple[Point2, float, float]]) -> tuple[tuple[Group, ...], ...]:
    """Cut a table into blocks; a tuple of groups for each sheet.

    ``rooms`` are (upper left corner, width, height) of the space on each sheet; the last one is used again
    for all further sheets. Columns are equally wide in all blocks. Raises ValueError when even the last room
    cannot hold one row.
    """
    wide = table.widths()
    total = sum(wide)
    sheets: list[tuple[Group, ...]] = []
    rest = table.rows
    while rest:
        corner, room_width, room_height = rooms[min(len(sheets), len(rooms) - 1)]
        fit = int((room_height + 1e-9) / table.row_mm) - 1
        beside = int((room_width + BLOCK_GAP_MM + 1e-9) / (total + BLOCK_GAP_MM))
        if fit < 1 or beside < 1:
            if len(sheets) >= len(rooms) - 1:
                raise ValueError("there is no room for the table on any sheet")
            sheets.append(())
            continue
        here, rest = rest[: fit * beside], rest[fit * beside :]
        sheets.append(_blocks(table, here, corner, fit))
    return tuple(sheets)


def _blocks(table: Table, rows: tuple[Row, ...], corner: Point2, fit: int) -> tuple[Group, ...]:
    """Return the blocks of one sheet side by side, as even as they can be."""
    wide = table.widths()
    count = -(-len(rows) // fit)
    each = -(-len(rows) // count)
    groups = []
    for block in range(count):
        part = rows[block * each : (block + 1) * each]
        piece = Table(table.name, table.columns, part, table.height, table.decimal_sign)
        left = corner[0] + block * (sum(wide) + BLOCK_GAP_MM)
        groups.append(draw(piece, (left, corner[1]), wide))
    return tuple(groups)


def _outline(low: Point2, high: Point2, sides: str) -> list[Stroke]:
    (x0, y0), (x1, y1) = low, high
    if len(sides) == 4:
        return [Polyline(Pen.VISIBLE, ((x0, y0), (x1, y0), (x1, y1), (x0, y1)), closed=True)]
    ends = {"l": ((x0, y0), (x0, y1)), "r": ((x1, y0), (x1, y1)), "t": ((x0, y1), (x1, y1)), "b": ((x0, y0), (x1, y0))}
    return [Line(Pen.VISIBLE, *ends[side]) for side in sides]


def _rules(table: Table, borders: list[float], top: float, bottom: float) -> list[Stroke]:
    """Return the rule under the heading (wide) and all other inner rules (narrow)."""
    x0, x1 = borders[0], borders[-1]
    items: list[Stroke] = [Line(Pen.VISIBLE, (x0, top - table.row_mm), (x1, top - table.row_mm))]
    items += [Line(Pen.THIN, (x, bottom), (x, top)) for x in borders[1:-1]]
    for row in range(2, len(table.rows) + 1):
        y = top - row * table.row_mm
        items.append(Line(Pen.THIN, (x0, y), (x1, y)))
    return items


def _column(table: Table, column: int, span: Point2, top: float) -> list[Stroke]:
    left, right = span
    side = _SIDE * table.height
    align = table.columns[column].align
    before, behind = table.decimal_room(column) if align == "decimal" else (0.0, 0.0)
    sign_at = (left + right + before - behind) / 2
    where = {"left": left + side, "middle": (left + right) / 2, "right": right - side}
    strokes: list[Stroke] = []
    for index, row in enumerate(table.rows):
        cell = row[column]
        y = _base(table, top - (index + 1) * table.row_mm)
        if align != "decimal":
            strokes += signs.line(Text((where[align], y), table.height, cell.text, align, path=cell.path))
            continue
        ahead = signs.width(_at_sign(cell.text, table.decimal_sign)[0], table.height)
        strokes += signs.line(Text((sign_at - ahead, y), table.height, cell.text, path=cell.path))
    return [stroke for stroke in strokes if not isinstance(stroke, Text) or stroke.text]


def _base(table: Table, row_top: float) -> float:
    """Return the base line that centres capitals in a row."""
    return row_top - (table.row_mm + table.height) / 2


def _at_sign(text: str, decimal_sign: str) -> tuple[str, str]:
    """Cut a number before its decimal sign, or behind its last digit."""
    head, sign, tail = text.partition(decimal_sign)
    if sign:
        return head, sign + tail
    bare = text.rstrip(")")
    return bare, text[len(bare) :]
