"""The hole table: label, X, Y, size, depth, fit with limits, count; over several blocks and sheets.

Columns that hold nothing in any row are left out. Texts arrive as they are printed; X and Y of a hole that
a pitch circle already places arrive in parentheses.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from setupsheet.drawing.ink import Group
from setupsheet.drawing.table import Cell, Column, Table, flow, size
from setupsheet.plane import Point2


@dataclass(frozen=True, slots=True)
class HoleRow:
    """One hole, or ``count`` alike at one place; ``path`` is the JSON pointer of the hole in plan.json."""

    label: str
    x: str
    y: str
    size: str
    depth: str = ""
    fit: str = ""
    count: str = ""
    path: str = ""


_COLUMNS = (
    ("label", Column("Hole")),
    ("x", Column("X", "decimal")),
    ("y", Column("Y", "decimal")),
    ("size", Column("Size")),
    ("depth", Column("Depth")),
    ("fit", Column("Fit, limits")),
    ("count", Column("Count", "right")),
)


def hole_table(rows: Sequence[HoleRow], height: float = 2.5, decimal_sign: str = ".", capitals: bool = False) -> Table:
    """Return the table of these holes; ``capitals`` writes the headings in capitals (ASME)."""
    used = [
        (key, column) for key, column in _COLUMNS if key in {"label", "x", "y"} or any(getattr(r, key) for r in rows)
    ]
    columns = tuple(Column(c.heading.upper() if capitals else c.heading, c.align) for _, c in used)
    body = tuple(tuple(Cell(getattr(row, key), row.path) for key, _ in used) for row in rows)
    return Table("hole table", columns, body, height, decimal_sign)


def place(table: Table, rooms: Sequence[tuple[Point2, float, float]]) -> tuple[tuple[Group, ...], ...]:
    """Return the blocks of the table for each sheet; see ``table.flow``."""
    return flow(table, rooms)


def extent(table: Table) -> Point2:
    """Return width and height in mm of the table as one block."""
    return size(table)
