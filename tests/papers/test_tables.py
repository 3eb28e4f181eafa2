"""Tables of positions and of points: complete, in order, in columns that fit, never longer than a page."""

from __future__ import annotations

from dataclasses import replace

import pytest

from setupsheet.drawing.ink import Group, Line, Pen, Polyline, Text
from setupsheet.papers.html import page_html
from setupsheet.papers.labels import Label, Places, thinned
from setupsheet.papers.layout_page import CROSS_MM, layout_pages, shared
from setupsheet.papers.setup_sheet import sheets
from setupsheet.papers.tables import labels_of, place_table, scribe_tables, side_by_side, stop_tables
from setupsheet.papers.views import SetupViews, bounds
from setupsheet.papers.work import work
from setupsheet.plan.holes.holes import LOCKED
from setupsheet.plan.record import StopPair
from setupsheet.plane import Point2, distance
from tests.papers.small_plan import DRILL, plan, position, setup, step, views


def many(count: int) -> tuple[tuple[str, Point2], ...]:
    """Return holes in a row."""
    return tuple((f"G{i + 1}", (float(i), 1.0)) for i in range(count))


def test_120_positions_stay_in_blocks_of_a_page() -> None:
    """All labels stand once, in order, and no column of a block is longer than 33 rows."""
    table = place_table(setup(1, many(120)), "/setups/0")
    assert table is not None
    assert all(len(column) <= 33 for block in table.blocks for column in block)
    labels = [row.label.text for block in table.blocks for column in block for row in column]
    assert labels == [label for label, _ in many(120)]


def test_rows_are_read_down_then_across() -> None:
    """Seven rows in three columns are 3, 3 and 1."""
    assert side_by_side([1, 2, 3, 4, 5, 6, 7], 3) == ((1, 2, 3), (4, 5, 6), (7,))


def test_few_depths_stand_in_the_step() -> None:
    """Two depths are two lines of the step, with the labels that share each."""
    rows = [row for block in work(setup(1), "/setups/0", {}) for row in block.rows]
    spot = rows[3]
    assert [(d.reading.text, [label.text for label in d.labels]) for d in spot.depths] == [
        ("-2.500", ["H1", "H3"]),
        ("-2.000", ["H2"]),
    ]
    assert rows[4].readings[0].text == "-14.000"
    assert rows[4].full.text == "-12.500"


def test_many_depths_stand_in_a_column_of_the_table() -> None:
    """A step whose holes all go to other depths has its Z beside X and Y."""
    holes = tuple(position(f"D{i}", (float(i), 0.0), -float(i + 2)) for i in range(9))
    deep = step(1, "drill", None, method="quill", positions=holes)
    table = place_table(replace(setup(1), steps=(deep,)), "/setups/0")
    assert table is not None
    assert [said.text for said in table.depth_steps] == ["1"]
    first = table.blocks[0][0]
    assert [row.depths[0].text for row in first][:2] == ["-2.000", "-3.000"]


def test_points_keep_their_order_and_axes() -> None:
    """The table of points says which axis is set and which is fed, in the order of the plan."""
    tables, letters = stop_tables(setup(1), "/setups/0")
    assert letters == {2: "P"}
    group = tables[0].lanes[0][0]
    assert (group.set_axis, group.feed_axis) == ("X", "Y")
    assert [row.step.text for column in group.columns for row in column] == [f"+{10 + i}.000" for i in range(5)]


def test_a_new_cutter_starts_a_block() -> None:
    """Three end-mill steps, two drill steps, the boring head's and the file's: four blocks."""
    blocks = work(setup(1), "/setups/0", {})
    assert [len(block.rows) for block in blocks] == [3, 2, 1, 1]
    assert [block.change for block in blocks] == [True, True, True, False]
    assert blocks[0].touch is not None
    assert blocks[0].touch.set_to.text == "+0.100"


def test_template_is_full_size() -> None:
    """The outline on the template page has the part's own measures, and the cross has arms of 100 mm."""
    page = layout_pages(plan(), 0, views().setups[0])[0]
    lines = [item for item in page.picture.items if isinstance(item, Line) and item.pen is Pen.VISIBLE]
    assert {40.0, 60.0, CROSS_MM} <= {round(distance(line.a, line.b), 6) for line in lines}
    assert page.tiles == 1


def test_large_template_is_tiled() -> None:
    """A plate of 300 x 200 needs two tiles side by side, which overlap and together show all of it."""
    corners = ((0.0, 0.0), (300.0, 0.0), (300.0, 200.0), (0.0, 200.0))
    big = (Polyline(Pen.VISIBLE, corners, closed=True),)
    assert bounds(big) == ((0.0, 0.0), (300.0, 200.0))
    pages = layout_pages(plan(), 0, SetupViews(big, big))
    assert [(page.tile, page.tiles) for page in pages] == [(1, 2), (2, 2)]
    first, second = (_marks(page.picture) for page in pages)
    assert sorted(first) == sorted(second) == ["a", "b"]
    across = {letter: first[letter][0] - second[letter][0] for letter in first}
    assert across["a"] == pytest.approx(across["b"])  # laid over each other by one shift, both pairs of marks meet
    assert all(first[letter][1] == pytest.approx(second[letter][1]) for letter in first)


def test_a_large_plate_has_marks_on_every_seam() -> None:
    """A plate of 300 x 380 takes four sheets; each neighbour of a sheet shows its marks, corner neighbours do not."""
    corners = ((0.0, 0.0), (300.0, 0.0), (300.0, 380.0), (0.0, 380.0))
    big = (Polyline(Pen.VISIBLE, corners, closed=True),)
    pages = layout_pages(plan(), 0, SetupViews(big, big))
    assert len(pages) == 4
    assert [len(_marks(page.picture)) for page in pages] == [4, 4, 4, 4]
    for page in pages:
        (x0, y0), (x1, y1) = page.picture.box
        points = [p for item in page.picture.items if isinstance(item, Line) for p in (item.a, item.b)]
        assert all(x0 - 0.1 <= x <= x1 + 0.1 and y0 - 0.1 <= y <= y1 + 0.1 for x, y in points)


def _marks(picture: Group) -> dict[str, Point2]:
    """Return the lettered marks of a template's sheet."""
    texts = [item for item in picture.items if isinstance(item, Text)]
    return {text.text: text.at for text in texts if len(text.text) == 1 and text.text.islower()}


def test_a_long_table_is_on_the_pages() -> None:
    """The HTML of a plan with 120 holes holds each label's row."""
    html = page_html(sheets(plan(many(120)), views(many(120))))
    assert html.count("<tr data-hole=") == 240


def test_a_place_told_by_its_steps_is_printed_large_there() -> None:
    """The only hole of a setup needs no table: its X and Y stand large in the step."""
    drilling = step(1, "drill", None, method="quill", positions=(position("H1", (5.0, 5.0), -3.0),))
    made = replace(setup(1), steps=(drilling,))
    assert place_table(made, "/setups/0") is None
    assert work(made, "/setups/0", {})[0].rows[0].large


def test_many_labels_in_the_order_of_the_table_are_told_by_their_ends() -> None:
    """120 labels of a step say 'G1 to G120'; the same labels in another order are all named."""
    places = tuple(position(label, at, -3.0) for label, at in many(120))
    drilling = step(1, "drill", None, method="quill", positions=places)
    back = step(2, "ream", None, method="quill", positions=places[::-1])
    made = replace(setup(1), steps=(drilling, back))
    tabled = labels_of(place_table(made, "/setups/0"))
    rows = [row for block in work(made, "/setups/0", {}, tabled) for row in block.rows]
    assert [row.run for row in rows] == [True, False]


def test_groups_of_points_are_dealt_to_equal_lanes() -> None:
    """Four groups of five points take three lanes of at most two groups."""
    group = [StopPair("x", float(i), float(i), f"+{i}", f"+{i}") for i in range(5)]
    points = tuple(replace(one, group=f"corner {k}") for k in range(4) for one in group)
    table = stop_tables(replace(setup(1), steps=(step(1, "corners", None, points=points),)), "/setups/0")[0][0]
    assert sorted(len(lane) for lane in table.lanes) == [1, 1, 2]


def test_a_crowded_picture_labels_the_ends_of_rows() -> None:
    """Of 12 x 10 holes 4 mm apart, in the order of a plough, only those at the ends of columns keep labels."""
    points = [(4.0 * i, 4.0 * (j if i % 2 == 0 else 9 - j)) for i in range(12) for j in range(10)]
    labels = [Label(point, 1.0, f"G{n}", 3.0) for n, point in enumerate(points)]
    frame = ((-20.0, -20.0), (70.0, 60.0))
    places = Places(frame)
    for x, y in points:
        places.take(((x - 1, y - 1), (x + 1, y + 1)))
    kept = thinned(labels, places)
    assert 0 < len(kept) <= 24
    assert {label.point[1] for label in kept} <= {0.0, 36.0}
    assert thinned(labels[:20], Places(frame)) == labels[:20]


def test_scribed_points_have_a_table_of_their_own() -> None:
    """Points of scribed lines stand neither among the holes nor as labels of their step; the step names the table."""
    points = tuple(position(f"line {i}", (float(i), 2.0), 0.0) for i in range(3))
    scribing = replace(step(1, "scribe", None, method="none", positions=points), operation="scribe")
    drilling = step(
        2, "drill", None, method="quill", positions=tuple(position(f"H{i}", (5.0 * i, 5.0), -3.0) for i in (1, 2))
    )
    made = replace(setup(1), steps=(scribing, drilling))
    tables, letters = scribe_tables(made, "/setups/0")
    assert letters == {0: "L"}
    assert [row.label.text for column in tables[0].blocks[0] for row in column] == ["line 0", "line 1", "line 2"]
    holes = place_table(made, "/setups/0")
    assert holes is not None
    assert [row.label.text for column in holes.blocks[0] for row in column] == ["H1", "H2"]
    rows = [row for block in work(made, "/setups/0", letters) for row in block.rows]
    assert (rows[0].table, rows[0].labels, rows[0].see) == ("L", (), False)


def test_a_second_template_shares_the_page_where_both_fit() -> None:
    """Two plates of 60 x 40 share one cross; two of 150 x 150 do not share a page."""
    page = layout_pages(plan(), 0, views().setups[0])[0]
    assert [one.shares for one in shared((page, page))] == [False, True]
    corners = ((0.0, 0.0), (150.0, 0.0), (150.0, 150.0), (0.0, 150.0))
    big = (Polyline(Pen.VISIBLE, corners, closed=True),)
    large = layout_pages(plan(), 0, SetupViews(big, big))[0]
    assert [one.shares for one in shared((large, large))] == [False, False]


def test_that_nothing_moves_is_said_once_at_each_place() -> None:
    """Drill, chamfer and ream at one place stay on one spindle position; the next hole has its own."""
    here, there = position("H1", (5.0, 5.0), -8.0), position("H2", (15.0, 5.0), -8.0)
    places = (here, here, here, there, there)
    steps = tuple(
        step(i, f"step {i}", DRILL, operation="drill", positions=(at,), words=(LOCKED, f"word {i}"))
        for i, at in enumerate(places, 1)
    )
    rows = [row for block in work(replace(setup(1), steps=steps), "/setups/0", {}) for row in block.rows]
    assert [[said.text for said in row.words] for row in rows] == [
        [LOCKED, "word 1"],
        ["word 2"],
        ["word 3"],
        [LOCKED, "word 4"],
        ["word 5"],
    ]
    assert [row.words[-1].path for row in rows] == [f"/setups/0/steps/{i}/words/1" for i in range(5)]
