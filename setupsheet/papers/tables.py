"""The tables of a setup: positions of all holes, and stops of work done by points. Large digits.

A hole that many steps come back to is printed once. A column of Z stands here only for a step whose places
go to different depths; all others have their one reading in the step itself.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeVar

from setupsheet.drawing import lettering
from setupsheet.papers.said import NOTHING, Said, shown
from setupsheet.papers.work import MANY_DEPTHS, SCRIBE, z_texts
from setupsheet.plan.record import Position, Setup, Step, StopPair

Row = TypeVar("Row")

_DIGIT_MM = 5.0
"""Height of the digits in these tables (the least that is read at arm's length in bad light)."""
_PAGE_MM = 190.0
_CELL_MM = 3.2
"""Room of a cell beside its text."""
_LABEL_MM, _WORD_MM, _GUTTER_MM = 3.5, 2.4, 5.0
_SHORT = 5
"""A label of more letters is a name."""
_GROUP_HEAD_ROWS = 1
"""A group's words and heads are about as high as so many rows."""
_ROWS_MOST = 33
"""Rows that leave room for the table's head and its words on one page."""


@dataclass(frozen=True, slots=True)
class PlaceRow:
    """A hole: label, X, Y, then the columns of Z ('' where a step does not go to it).

    A ``wordy`` label is a name and not a number like R1; it is printed smaller.
    """

    label: Said
    wordy: bool
    x: Said
    y: Said
    depths: tuple[Said, ...]


@dataclass(frozen=True, slots=True)
class PlaceTable:
    """All positions of a setup; ``depth_steps`` heads the columns of Z.

    A block is what stays on one page: some columns side by side, each read downwards. A table of points that are
    scribed has a letter and belongs to one step.
    """

    depth_steps: tuple[Said, ...]
    blocks: tuple[tuple[tuple[PlaceRow, ...], ...], ...]
    letter: str = ""
    step: Said = NOTHING
    title: Said = NOTHING


@dataclass(frozen=True, slots=True)
class StopRow:
    """A point: the value to set and the stop to feed to."""

    step: Said
    stop: Said


@dataclass(frozen=True, slots=True)
class StopGroup:
    """Points that share their direction: which axis is set, which is fed, and in words."""

    words: Said
    set_axis: str
    feed_axis: str
    columns: tuple[tuple[StopRow, ...], ...]


@dataclass(frozen=True, slots=True)
class StopTable:
    """The points of one step, named by a letter; ``wide`` where three groups do not fit side by side.

    ``lanes`` are columns of groups, about equally high.
    """

    letter: str
    step: Said
    title: Said
    lanes: tuple[tuple[StopGroup, ...], ...]
    wide: bool


def place_table(setup: Setup, path: str) -> PlaceTable | None:
    """Return the positions of a setup's holes, or None where there are none.

    A place that its steps tell by itself (the only hole, or one with a name) is told there, as large as here.
    """
    steps = [(i, step) for i, step in enumerate(setup.steps) if step.positions and step.method != "by_points"]
    steps = [(i, step) for i, step in steps if step.operation != SCRIBE]
    varied = [(i, step) for i, step in steps if len(z_texts(step.positions)) > MANY_DEPTHS]
    at: dict[str, tuple[Position, str]] = {}
    for i, step in steps:
        for p, position in enumerate(step.positions):
            at.setdefault(position.label, (position, f"{path}/steps/{i}/positions/{p}"))
    several = {one.label for _, step in steps if len(step.positions) > 1 for one in step.positions}
    at = {label: one for label, one in at.items() if label in several or (len(at) > 1 and len(label) <= _SHORT)}
    if not at:
        return None
    rows = [
        PlaceRow(
            Said(position.label, f"{pointer}/label"),
            len(position.label) > _SHORT,
            Said(position.shown.get("x", ""), f"{pointer}/x"),
            Said(position.shown.get("y", ""), f"{pointer}/y"),
            tuple(_depth(step, f"{path}/steps/{i}", label) for i, step in varied),
        )
        for label, (position, pointer) in at.items()
    ]
    heads = tuple(Said(str(step.number), f"{path}/steps/{i}/number") for i, step in varied)
    return PlaceTable(heads, _blocks(rows))


def labels_of(table: PlaceTable | None) -> tuple[str, ...]:
    """Return the labels that stand in a table, in its order."""
    blocks = table.blocks if table else ()
    return tuple(row.label.text for block in blocks for column in block for row in column)


def scribe_tables(setup: Setup, path: str) -> tuple[tuple[PlaceTable, ...], dict[int, str]]:
    """Return the points of each step that scribes lines, and the letter of each such step (its index)."""
    tables: list[PlaceTable] = []
    letters: dict[int, str] = {}
    for i, step in enumerate(setup.steps):
        if step.operation != SCRIBE or not step.positions:
            continue
        letters[i] = chr(ord("L") + len(tables)) if len(tables) < 4 else f"L{len(tables)}"
        at = f"{path}/steps/{i}"
        rows = [
            PlaceRow(
                Said(one.label, f"{at}/positions/{p}/label"),
                len(one.label) > _SHORT,
                Said(one.shown.get("x", ""), f"{at}/positions/{p}/shown/x"),
                Said(one.shown.get("y", ""), f"{at}/positions/{p}/shown/y"),
                (),
            )
            for p, one in enumerate(step.positions)
        ]
        head = Said(str(step.number), f"{at}/number"), Said(step.title, f"{at}/title")
        tables.append(PlaceTable((), _blocks(rows), letters[i], *head))
    return tuple(tables), letters


def _blocks(rows: list[PlaceRow]) -> tuple[tuple[tuple[PlaceRow, ...], ...], ...]:
    """Return rows in blocks of a page's height at most, each as low as the page's width allows."""
    columns = _sets(rows)
    page = columns * _ROWS_MOST
    return tuple(_dealt(rows[i : i + page], columns) for i in range(0, len(rows), page))


def _depth(step: Step, path: str, label: str) -> Said:
    for p, position in enumerate(step.positions):
        if position.label == label:
            return shown(position.shown, "z", f"{path}/positions/{p}/shown")
    return Said("")


def _sets(rows: list[PlaceRow]) -> int:
    """Return how many rows fit beside each other on the page at full digit height."""
    wide = max(_wide(row.label.text, _WORD_MM if row.wordy else _LABEL_MM) for row in rows)
    for cells in zip(*((row.x, row.y, *row.depths) for row in rows), strict=True):
        wide += max(_wide(said.text, _DIGIT_MM) for said in cells)
    return max(1, int((_PAGE_MM + _GUTTER_MM) / (wide + _GUTTER_MM)))


def _wide(text: str, height: float) -> float:
    return lettering.width(lettering.drawable(text), height, True) + _CELL_MM


def side_by_side(rows: list[Row], columns: int) -> tuple[tuple[Row, ...], ...]:
    """Deal rows into columns of equal height, read downwards; short lists stay in one column."""
    return (tuple(rows),) if len(rows) <= 3 else _dealt(rows, columns)


def _dealt(rows: list[Row], columns: int) -> tuple[tuple[Row, ...], ...]:
    high = -(-len(rows) // columns)
    return tuple(tuple(rows[i : i + high]) for i in range(0, len(rows), high))


def stop_tables(setup: Setup, path: str) -> tuple[tuple[StopTable, ...], dict[int, str]]:
    """Return the tables of points, and the letter of each step (its index) that has one."""
    tables: list[StopTable] = []
    letters: dict[int, str] = {}
    for index, step in enumerate(setup.steps):
        if step.points:
            letters[index] = chr(ord("P") + len(tables)) if len(tables) < 11 else f"P{len(tables)}"
            tables.append(_stop_table(step, f"{path}/steps/{index}", letters[index]))
    return tuple(tables), letters


def _stop_table(step: Step, path: str, letter: str) -> StopTable:
    spans: list[tuple[int, int]] = []
    start = 0
    points = step.points
    while start < len(points):
        key = (points[start].step_axis, points[start].group)
        end = start
        while end < len(points) and (points[end].step_axis, points[end].group) == key:
            end += 1
        spans.append((start, end))
        start = end
    groups = [_stop_group(step, path, span, alone=len(spans) == 1) for span in spans]
    wide = max(_pair_mm(step.points[i : i + 1]) for i in range(len(points))) > (_PAGE_MM - 2 * _GUTTER_MM) / 3
    head = Said(str(step.number), f"{path}/number"), Said(step.title, f"{path}/title")
    return StopTable(letter, *head, _lanes(groups, 2 if wide else 3), wide)


def _lanes(groups: Sequence[StopGroup], most: int) -> tuple[tuple[StopGroup, ...], ...]:
    """Deal groups into lanes, each to the one that is the shortest so far."""
    lanes: list[list[StopGroup]] = [[] for _ in range(min(most, len(groups)))]
    highs = [0] * len(lanes)
    for group in groups:
        at = highs.index(min(highs))
        lanes[at].append(group)
        highs[at] += max(len(column) for column in group.columns) + _GROUP_HEAD_ROWS
    return tuple(tuple(lane) for lane in lanes)


def _pair_mm(points: Sequence[StopPair]) -> float:
    """Return how wide a column of points is."""
    sets, stops = ([getattr(point, name) for point in points] for name in ("shown_step", "shown_stop"))
    return max(_wide(text, _DIGIT_MM) for text in sets) - _CELL_MM + max(_wide(text, _DIGIT_MM) for text in stops)


def _stop_group(step: Step, path: str, span: tuple[int, int], *, alone: bool) -> StopGroup:
    """Return one group: in as many columns as fit where it stands alone, else in one beside the others."""
    rows = [
        StopRow(
            Said(step.points[i].shown_step, f"{path}/points/{i}/shown_step"),
            Said(step.points[i].shown_stop, f"{path}/points/{i}/shown_stop"),
        )
        for i in range(*span)
    ]
    first = step.points[span[0]]
    wide = _pair_mm(step.points[slice(*span)]) + _GUTTER_MM
    words = Said(first.group, f"{path}/points/{span[0]}/group")
    axes = ("X", "Y") if first.step_axis == "x" else ("Y", "X")
    return StopGroup(words, *axes, side_by_side(rows, max(1, int((_PAGE_MM + _GUTTER_MM) / wide)) if alone else 1))
