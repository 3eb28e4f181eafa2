"""Read one of the CSV tables beside this file and refuse it when it is not sound.

A sound table has a ``source`` in every row and a unit in the name of every column that holds numbers
only (``value_um``, ``over_mm``, ``pitch_in``, ``point_angle_deg``). Ranges run from ``over`` (left
out) up to and including ``upto``; those of one group follow each other without gap and overlap.

    rows("it_grades")                                 any table; the name has no ending
    ranges("it_grades", by=("grade",))                the same, its over_mm/upto_mm checked by group
    find(rows, 10.0)                                  the one row whose range holds 10 mm
"""

from __future__ import annotations

import csv
import functools
import itertools
import math
from collections.abc import Iterable, Sequence

Row = dict[str, str]
"""One line of a table: column name -> text as it stands in the file."""

_FOLDER = __file__.removesuffix("loader.py")

UNITS = frozenset(
    """mm um in thou deg arcmin s w kw rpm percent tpi mm2 mm3
    m_min mm_min mm_rev mm_tooth kg_m3 n_mm2""".split()  # noqa: SIM905  (a list of words reads better so)
)
"""Units that a column's name may end with or carry between underscores."""

PURE = frozenset(("count", "factor", "grade", "number", "turns"))
"""Names of numbers that have no unit: a ratio, how many there are, a grade, a thread count's number."""

SOURCE = "source"


class BadTable(ValueError):  # noqa: N818  (reads as what it says)
    """A table that breaks a rule of this project; the text names file, line and column."""


@functools.cache
def rows(name: str) -> tuple[Row, ...]:
    """Return the rows of ``name``.csv in file order; raises BadTable, or FileNotFoundError."""
    with open(f"{_FOLDER}{name}.csv", encoding="utf-8", newline="") as file:  # noqa: PTH123 - pathlib is slow to load
        return checked(file, name)


@functools.cache
def ranges(name: str, by: tuple[str, ...], unit: str = "mm") -> tuple[Row, ...]:
    """Return the rows of ``name``.csv after ``check_ranges`` on its over/upto columns."""
    table = rows(name)
    check_ranges(table, by, unit, name)
    return table


def checked(lines: Iterable[str], name: str) -> tuple[Row, ...]:
    """Return the rows of CSV text (a file or a list of lines); raises BadTable."""
    reader = csv.reader(lines)
    head = next(reader, [])
    if not head:
        raise BadTable(f"{name}: the table is empty")
    if len(set(head)) != len(head):
        raise BadTable(f"{name}: two columns have one name")
    if SOURCE not in head:
        raise BadTable(f"{name}: there is no column 'source'")
    at = head.index(SOURCE)
    width, table = len(head), []
    for cells in reader:
        if len(cells) != width:
            raise BadTable(f"{name}, line {reader.line_num}: {len(cells)} cells under {width} columns")
        if not cells[at] or cells[at].isspace():
            raise BadTable(f"{name}, line {reader.line_num}: no source")
        table.append(dict(zip(head, cells, strict=True)))
    for column in head:
        _check_unit(column, table, name)
    return tuple(table)


def _check_unit(column: str, table: Sequence[Row], name: str) -> None:
    """Refuse a column that holds nothing but numbers and does not say in which unit."""
    if has_unit(column):
        return
    cells = [row[column] for row in table if row[column]]
    if cells and all(is_number(cell) for cell in cells):
        raise BadTable(f"{name}: column '{column}' holds numbers and has no unit in its name")


def has_unit(column: str) -> bool:
    """Tell whether a column's name carries a unit or says that its number has none."""
    words = column.lower().split("_")
    if not (UNITS.isdisjoint(words) and PURE.isdisjoint(words)):
        return True
    return not UNITS.isdisjoint("_".join(pair) for pair in itertools.pairwise(words))


def is_number(text: str) -> bool:
    """Tell whether a cell is a plain finite number."""
    try:
        return math.isfinite(float(text))
    except ValueError:
        return False


def check_ranges(table: Iterable[Row], by: tuple[str, ...], unit: str = "mm", name: str = "table") -> None:
    """Refuse a gap or an overlap among the ranges ``over_<unit>`` to ``upto_<unit>`` of each group.

    ``by`` names the columns that make a group; each group is sorted before it is looked at. Raises BadTable.
    """
    groups: dict[tuple[str, ...], list[tuple[float, float]]] = {}
    ends = (f"over_{unit}", f"upto_{unit}")
    for row in table:
        groups.setdefault(tuple([row[key] for key in by]), []).append(_bounds(row, ends, name))
    for group, spans in groups.items():
        spans.sort()
        label = f"{name} {' '.join(group)}".strip()
        for (low, end), (start, high) in itertools.pairwise(spans):
            if start < end:
                raise BadTable(f"{label}: {low:g} to {end:g} and {start:g} to {high:g} {unit} overlap")
            if start > end:
                raise BadTable(f"{label}: nothing between {end:g} and {start:g} {unit}")


def _bounds(row: Row, ends: tuple[str, str], name: str) -> tuple[float, float]:
    """Return a row's range as two numbers; 'inf' may end the last range. Raises BadTable."""
    try:
        over, upto = float(row[ends[0]]), float(row[ends[1]])
    except (KeyError, ValueError) as fault:
        raise BadTable(f"{name}: a range needs numbers in {ends[0]} and {ends[1]}") from fault
    if not over < upto:
        raise BadTable(f"{name}: the range {over:g} to {upto:g} in {ends[0]} is none")
    return over, upto


def find(table: Iterable[Row], size: float, unit: str = "mm") -> Row | None:
    """Return the row whose range holds ``size`` (over < size <= upto), or None."""
    over, upto = f"over_{unit}", f"upto_{unit}"
    for row in table:
        if float(row[over]) < size <= float(row[upto]):
            return row
    return None
