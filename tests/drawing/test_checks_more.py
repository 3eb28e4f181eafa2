"""The rules on measuring, wording and round things each find the fault that is planted for them."""

from __future__ import annotations

from dataclasses import replace

import pytest

from setupsheet.drawing.checks_content import printed_value
from setupsheet.drawing.completeness import dimensions_of
from setupsheet.drawing.ink import Arc, Circle, Dimension, Group, Line, Pen, Sheet, Text
from setupsheet.drawing.strokes import moved_stroke
from tests.drawing.test_checks import adding, codes, sheet, with_dimension, with_group, without


def linear() -> Dimension:
    """Return the first single size of the sheet."""
    return next(d for d in dimensions_of([sheet()]) if d.kind == "linear")


def group_of(dim: Dimension) -> Group:
    """Return the view that holds a dimension."""
    return next(g for g in sheet().groups if dim in g.items)


def hidden_edge(group: Group) -> Group:
    """Return a view all of whose edges and axes are hidden."""
    items = (replace(i, pen=Pen.HIDDEN) if isinstance(i, Line | Circle | Arc) else i for i in group.items)
    return replace(group, items=tuple(items))


def test_a_size_measured_to_nothing_is_found() -> None:
    """C5: both measured points lie beside every edge and axis."""

    def beside(dim: Dimension) -> Dimension:
        return replace(dim, points=tuple((x + 0.7, y + 0.7) for x, y in dim.points))

    assert "dimension-to-nothing" in codes(with_dimension("linear", beside))


def test_a_size_measured_to_a_hidden_edge_is_found() -> None:
    """C6: the edges are there, but hidden."""
    assert "dimension-to-hidden" in codes(with_group(group_of(linear()).name, hidden_edge))


def test_a_dimension_line_on_a_centre_line_is_found() -> None:
    """D12: a centre line where the dimension line stands."""
    dim = linear()
    line = next(s for s in dim.strokes if isinstance(s, Line) and (s.a[1] == s.b[1]) is (dim.angle_deg == 0.0))
    found = codes(with_group(group_of(dim).name, adding(Line(Pen.CENTRE, line.a, line.b))))
    assert "dimension-line-on-line" in found


def stacked(smaller: float, off_mm: float) -> Sheet:
    """Return the sheet with a smaller copy of its first single size, moved outwards."""
    dim = linear()
    by = (0.0, -off_mm) if dim.angle_deg == 0.0 else (-off_mm, 0.0)
    copy = replace(
        dim,
        value=dim.value - smaller,
        line_at=(dim.line_at[0] + by[0], dim.line_at[1] + by[1]),
        strokes=tuple(moved_stroke(s, by) for s in dim.strokes),
    )
    return with_group(group_of(dim).name, adding(copy))


def test_a_smaller_size_outside_a_larger_one_is_found() -> None:
    """D5: the stack grows outwards."""
    assert "stack-order" in codes(stacked(5.0, 8.0))


def test_values_close_and_in_a_row_are_found() -> None:
    """D6: two lines 6 mm apart with their values one over the other."""
    assert "values-in-a-row" in codes(stacked(0.0, 6.0))


def test_a_long_extension_line_is_found() -> None:
    """D8: 70 mm of extension line."""

    def lengthened(dim: Dimension) -> Dimension:
        x, y = dim.points[0]
        return replace(dim, strokes=(*dim.strokes, Line(Pen.DIM, (x, y), (x, y + 70.0))))

    assert "extension-long" in codes(with_dimension("linear", lengthened))


def test_a_second_zero_is_found() -> None:
    """C15: one running row counts from another place."""
    moved_zero = with_dimension(
        "running", lambda d: replace(d, points=((d.points[0][0] + 3, d.points[0][1] + 3), d.points[1]))
    )
    assert "two-zeros" in codes(moved_zero)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("12.0", "trailing-zero"),
        ("0.50", "trailing-zero"),
        ("⌀12 -0.1/+0.2", "deviations-turned"),
        ("⌀12 +0.25/-0.1", "deviation-decimals"),
        ("⌀12 H7 through", "fit-without-limits"),
    ],
)
def test_a_wrong_text_is_found(text: str, code: str) -> None:
    """C8, C9, C10: zeros, deviations, fits."""
    assert code in codes(with_dimension("callout", lambda d: replace(d, text=text)))


@pytest.mark.parametrize(
    "text", ["12", "0.5", "100", "⌀12 +0.2/-0.1", "⌀12 H7 (+0.018/0)", "M4 ↧8 / ↧10.5", "25 ±0.10", "2-7/16", "(2-3/4)"]
)
def test_a_right_text_is_left_alone(text: str) -> None:
    """None of the rules on texts objects to these."""
    found = codes(with_dimension("callout", lambda d: replace(d, text=text)))
    assert not found & {"trailing-zero", "deviations-turned", "deviation-decimals", "fit-without-limits"}


@pytest.mark.parametrize(("text", "value"), [("(2-3/4)", 2.75), ("2 7/16", 2.4375), ("⌀5/8", 0.625), ("R1.250", 1.25)])
def test_a_printed_number_is_read_as_it_is_meant(text: str, value: float) -> None:
    """A mixed fraction is one number: its hyphen starts no deviation."""
    assert printed_value(text)[0] == value


def test_the_other_decimal_sign_is_found() -> None:
    """C8: one sign a sheet."""
    assert "decimal-sign" in codes(with_dimension("running", lambda d: replace(d, text="1,5")))


def test_a_right_angle_is_found() -> None:
    """C16: 90 degrees need no dimension."""
    dim = replace(linear(), kind="turn", text="90°", value=90.0)
    assert "right-angle" in codes(with_group("top", adding(dim)))


@pytest.mark.parametrize("field", ["number", "title", "material", "sheet"])
def test_an_empty_title_field_is_found(field: str) -> None:
    """S2 and C18: what the program fills must be there."""
    assert "title-field-empty" in codes(replace(sheet(), fields={**sheet().fields, field: ""}))


def test_a_label_that_stands_twice_is_found() -> None:
    """C11: labels are unique."""
    label = Text((10.0, 10.0), 2.5, "T1")
    assert "label-twice" in codes(with_group("top", adding(label, replace(label, at=(14.0, 10.0)))))


def test_a_label_on_an_edge_is_found() -> None:
    """D1: an edge through a label."""
    (x, y), _ = next(g.box for g in sheet().groups if g.name == "top")
    label, edge = Text((x, y), 2.5, "Z9"), Line(Pen.VISIBLE, (x - 5.0, y + 1.0), (x + 9.0, y + 1.0))
    assert "label-on-line" in codes(with_group("top", adding(label, edge)))


def test_a_third_line_width_is_found() -> None:
    """L1: a frame's line in a view."""
    (x, y), _ = next(g.box for g in sheet().groups if g.name == "top")
    assert "line-widths" in codes(with_group("top", adding(Line(Pen.FRAME, (x, y), (x + 5.0, y)))))


def test_centre_lines_on_one_another_are_found() -> None:
    """L3: a piece of a centre line drawn again."""
    line = next(
        i for g in sheet().groups if g.name == "top" for i in g.items if isinstance(i, Line) and i.pen is Pen.CENTRE
    )
    middle = ((line.a[0] + line.b[0]) / 2, (line.a[1] + line.b[1]) / 2)
    assert "centre-lines-overlap" in codes(with_group("top", adding(Line(Pen.THIN, line.a, middle))))


def test_a_centre_line_into_another_view_is_found() -> None:
    """L5: it runs 40 mm out of its view."""
    (x, y), _ = next(g.box for g in sheet().groups if g.name == "top")
    assert "centre-line-long" in codes(with_group("top", adding(Line(Pen.CENTRE, (x, y - 40.0), (x, y)))))


def test_edges_that_run_together_are_found() -> None:
    """L7: two edges 0.3 mm apart."""
    line = next(
        i
        for g in sheet().groups
        if g.name == "top"
        for i in g.items
        if isinstance(i, Line) and i.pen is Pen.VISIBLE and i.a[1] == i.b[1]
    )
    beside = Line(Pen.VISIBLE, (line.a[0], line.a[1] + 0.3), (line.b[0], line.b[1] + 0.3))
    assert "edges-run-together" in codes(with_group("top", adding(beside)))


def test_a_pitch_circle_that_is_not_drawn_is_found() -> None:
    """C12: the chain line circle is gone."""
    bare = without(lambda i: isinstance(i, Circle) and i.pen is Pen.CENTRE)
    found = {code for name in ("top", "bottom") for code in codes(with_group(name, bare))}
    assert "pitch-circle-missing" in found


def test_a_thread_that_is_not_drawn_is_found() -> None:
    """C13: the narrow arcs are gone."""
    bare = without(lambda i: isinstance(i, Arc) and i.pen is Pen.THREAD)
    assert "thread-not-drawn" in codes(with_group("top", bare))


def test_a_leader_that_misses_the_centre_is_found() -> None:
    """D11: the elbow stands 9 mm further along."""
    changed = with_dimension("callout", lambda d: replace(d, line_at=(d.line_at[0] + 9.0, d.line_at[1])))
    assert "leader-off-centre" in codes(changed)
