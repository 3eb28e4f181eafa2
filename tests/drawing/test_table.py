"""Tables: nothing overlaps, nothing is lost, figures align."""

from __future__ import annotations

from itertools import combinations

import pytest

from setupsheet.drawing import hole_table, signs, table
from setupsheet.drawing.hole_table import HoleRow
from setupsheet.drawing.ink import Group, Line, Text


def _rows(count: int) -> list[HoleRow]:
    return [
        HoleRow(
            f"A{i}", f"{i * 7.125:g}", f"({100 - i / 3:.3f})", "⌀4.5 ⌵⌀9 × 90°", "↧12", "H13 (4.68/4.50)", "", f"/f/{i}"
        )
        for i in range(1, count + 1)
    ]


def _texts(group: Group) -> list[Text]:
    return [item for item in group.items if isinstance(item, Text)]


def test_texts_overlap_neither_each_other_nor_a_rule() -> None:
    """Boxes of all texts are apart, and no rule runs through one."""
    group = table.draw(hole_table.hole_table(_rows(12)), (20.0, 200.0))
    boxes = [signs.box(text) for text in _texts(group)]
    flat = [(b[0][0], b[0][1], b[2][0], b[2][1]) for b in boxes]
    for a, b in combinations(flat, 2):
        assert a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]
    for line in (item for item in group.items if isinstance(item, Line)):
        for x0, y0, x1, y1 in flat:
            beside = max(line.a[0], line.b[0]) <= x0 or min(line.a[0], line.b[0]) >= x1
            above = max(line.a[1], line.b[1]) <= y0 or min(line.a[1], line.b[1]) >= y1
            horizontal_or_signs = line.a[0] != line.b[0] and line.a[1] != line.b[1]
            assert beside or above or horizontal_or_signs


def test_decimal_signs_stand_in_one_line() -> None:
    """In a decimal column the width before the point ends at the same place in every row."""
    values = ["12", "0.5", "(100.25)", "-3.125", "7"]
    made = table.Table("t", (table.Column("X", "decimal"),), tuple((table.Cell(v),) for v in values))
    places = set()
    for text in _texts(table.draw(made, (0.0, 100.0)))[1:]:
        head = text.text.rstrip(")").partition(".")[0]
        places.add(round(text.at[0] + signs.width(head, text.height), 9))
    assert len(places) == 1


def test_flow_keeps_every_row_once_and_inside_its_room() -> None:
    """1000 holes go over several sheets; each label appears once and every block lies in its room."""
    made = hole_table.hole_table(_rows(1000))
    rooms = [((30.0, 280.0), 150.0, 100.0), ((30.0, 280.0), 380.0, 200.0)]
    sheets = hole_table.place(made, rooms)
    labels = [t.text for blocks in sheets for block in blocks for t in _texts(block) if t.text.startswith("A")]
    assert labels == [f"A{i}" for i in range(1, 1001)]
    for number, blocks in enumerate(sheets):
        (x, y), wide, high = rooms[min(number, 1)]
        for block in blocks:
            assert block.box[0][0] >= x - 1e-9
            assert block.box[1][0] <= x + wide + 1e-9
            assert block.box[1][1] <= y + 1e-9
            assert block.box[0][1] >= y - high - 1e-9
        for a, b in combinations(blocks, 2):
            assert a.box[1][0] < b.box[0][0] or b.box[1][0] < a.box[0][0]


def test_no_room_is_refused() -> None:
    """A room lower than two rows cannot hold a table."""
    with pytest.raises(ValueError, match="no room"):
        hole_table.place(hole_table.hole_table(_rows(3)), [((0.0, 0.0), 200.0, 5.0)])


def test_empty_columns_are_left_out_and_paths_kept() -> None:
    """A table without depths has no depth column; every value carries its pointer."""
    made = hole_table.hole_table([HoleRow("A1", "1", "2", "⌀5", path="/features/3")])
    assert [column.heading for column in made.columns] == ["Hole", "X", "Y", "Size"]
    drawn = _texts(table.draw(made, (0.0, 0.0)))
    assert {text.path for text in drawn if text.text in {"A1", "1", "2", "5"}} == {"/features/3"}


def test_size_is_the_drawn_box() -> None:
    """The announced size equals the box of the drawing."""
    made = hole_table.hole_table(_rows(5))
    (x0, y0), (x1, y1) = table.draw(made, (10.0, 90.0)).box
    assert (x1 - x0, y1 - y0) == pytest.approx(hole_table.extent(made))
