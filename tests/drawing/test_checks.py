"""Each rule of checking finds the fault that is planted for it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache

import pytest

from setupsheet.drawing.checks import faults_of
from setupsheet.drawing.completeness import check_completeness, dimensions_of
from setupsheet.drawing.draw import draw
from setupsheet.drawing.ink import Arc, Circle, Dimension, Group, Line, Pen, Sheet, Stroke, Text
from setupsheet.drawing.profile import profile_of
from setupsheet.drawing.strokes import moved, moved_group
from setupsheet.solid.body import finished
from tests.drawing import parts

Change = Callable[[Group], Group]


@cache
def sheet() -> Sheet:
    """Return the one sheet of the part that has everything."""
    part = parts.everything()
    (only,) = draw(part, finished(part))[0]
    return only


def codes(changed: Sheet) -> set[str]:
    """Return the codes of all findings of a sheet."""
    part = parts.everything()
    faults = {f.code for f in faults_of([changed], profile_of(part))}
    return faults | {f.code for f in check_completeness(part, [changed])}


def with_group(name: str, change: Change) -> Sheet:
    """Return the sheet with one of its groups changed."""
    groups = tuple(change(g) if g.name == name else g for g in sheet().groups)
    return replace(sheet(), groups=groups)


def with_dimension(kind: str, change: Callable[[Dimension], Dimension]) -> Sheet:
    """Return the sheet with the first dimension of a kind in the main view changed."""

    def in_group(group: Group) -> Group:
        items = list(group.items)
        index = next(k for k, i in enumerate(items) if isinstance(i, Dimension) and i.kind == kind)
        found = items[index]
        assert isinstance(found, Dimension)
        items[index] = change(found)
        return replace(group, items=tuple(items))

    return with_group("top", in_group)


def without(unwanted: Callable[[object], bool]) -> Change:
    """Return a change that takes items out of a group."""
    return lambda group: replace(group, items=tuple(i for i in group.items if not unwanted(i)))


def adding(*more: Stroke | Dimension) -> Change:
    """Return a change that adds items to a group."""
    return lambda group: replace(group, items=(*group.items, *more))


def test_the_sheet_itself_has_no_fault() -> None:
    """Nothing is found before anything is planted."""
    assert codes(sheet()) == set()


def test_a_view_moved_over_another_is_found() -> None:
    """S1: overlapping groups, and projection out of line."""
    changed = with_group("front", lambda g: moved_group(g, (30.0, -60.0)))
    assert {"groups-overlap", "views-out-of-line"} <= codes(changed)


def test_a_group_over_the_frame_is_found() -> None:
    """S1: everything inside the frame."""
    assert "outside-frame" in codes(with_group("notes", lambda g: moved_group(g, (-600.0, 0.0))))


def test_a_wrong_scale_text_is_found() -> None:
    """S2: the scale as written is the one used."""
    assert "scale-text" in codes(replace(sheet(), fields={**sheet().fields, "scale": "1:2"}))


def test_the_wrong_projection_is_found() -> None:
    """S3: views of first angle under the words of third."""
    assert "projection-symbol" in codes(replace(sheet(), fields={**sheet().fields, "projection": "third"}))


@pytest.mark.parametrize(("field", "code"), [("unit", "no-unit"), ("tolerances", "no-general-tolerance")])
def test_a_sheet_without_unit_or_tolerance_is_found(field: str, code: str) -> None:
    """S4: both stand on the sheet."""
    assert code in codes(replace(sheet(), fields={**sheet().fields, field: ""}))


def test_a_line_drawn_twice_is_found() -> None:
    """L3: no duplicates."""
    line = next(i for g in sheet().groups if g.name == "top" for i in g.items if isinstance(i, Line))
    assert "line-twice" in codes(with_group("top", adding(line)))


def test_a_circle_without_centre_lines_is_found() -> None:
    """L4: a circle put where no centre line passes."""
    (x, y), _ = next(g.box for g in sheet().groups if g.name == "top")
    assert "no-centre-lines" in codes(with_group("top", adding(Circle(Pen.VISIBLE, (x + 3.3, y + 3.7), 2.0))))


def test_a_full_thread_circle_is_found() -> None:
    """L9: the narrow circle of a thread is open."""

    def close(group: Group) -> Group:
        items = tuple(
            replace(i, from_deg=0.0, to_deg=359.0) if isinstance(i, Arc) and i.pen is Pen.THREAD else i
            for i in group.items
        )
        return replace(group, items=items)

    assert "thread-end-view" in codes(with_group("top", close))


def test_hatching_at_two_angles_is_found() -> None:
    """L10: one angle for one part."""
    (x, y), _ = next(g.box for g in sheet().groups if g.name == "D-D")
    line = Line(Pen.HATCH, (x + 1.0, y + 1.0), (x + 5.0, y + 1.5))
    assert "hatch-angles" in codes(with_group("D-D", adding(line)))


def test_text_on_text_is_found() -> None:
    """D1: a word over a value."""
    dim = next(d for d in dimensions_of([sheet()]) if d.kind == "callout")
    text = next(s for s in dim.strokes if isinstance(s, Text))
    group = next(g.name for g in sheet().groups if dim in g.items)
    assert "text-on-text" in codes(with_group(group, adding(Text(text.at, 3.5, "over it"))))


def test_a_line_through_a_text_is_found() -> None:
    """D1: a foreign line through a value."""
    dim = next(d for d in dimensions_of([sheet()]) if d.kind == "callout")
    text = next(s for s in dim.strokes if isinstance(s, Text))
    group = next(g.name for g in sheet().groups if dim in g.items)
    x, y = text.at
    assert "line-through-text" in codes(with_group(group, adding(Line(Pen.THIN, (x - 9, y + 1), (x + 9, y + 2)))))


def test_a_dimension_moved_close_is_found() -> None:
    """D4: the first line stands 10 mm off."""
    changed = with_dimension("linear", lambda d: replace(d, line_at=(d.line_at[0], d.line_at[1] + 8.0)))
    assert "dimension-too-near" in codes(changed)


def test_a_value_changed_by_hand_is_found() -> None:
    """C1 and C14: the text says something else than the geometry."""
    assert "value-text" in codes(with_dimension("linear", lambda d: replace(d, text="41 ±0.05")))
    assert "value-geometry" in codes(with_dimension("linear", lambda d: replace(d, value=41.0, text="41")))


def test_a_closed_chain_is_found() -> None:
    """C3: the same size again closes a ring, and stands twice."""
    dim = next(d for d in dimensions_of([sheet()]) if d.kind == "linear")
    again = moved(dim, (0.0, -30.0))
    assert {"closed-chain", "size-drawn-twice"} <= codes(with_group("top", adding(again)))


def test_a_missing_overall_size_is_found() -> None:
    """C4: length, width and height are there."""

    def says_overall(item: object) -> bool:
        return isinstance(item, Dimension) and any(what == "overall x" for _, what, _ in item.gives)

    assert {"no-overall-size", "size-not-drawn"} <= codes(with_group("top", without(says_overall)))


def test_a_number_in_the_other_format_is_found() -> None:
    """C8: mm keep the zero before the point."""
    assert "number-format" in codes(with_dimension("callout", lambda d: replace(d, text=".5 wide")))


def test_typical_is_found() -> None:
    """C14: no TYP."""
    assert "typical" in codes(with_dimension("callout", lambda d: replace(d, text=f"{d.text} TYP")))


def test_a_leader_that_lies_level_is_found() -> None:
    """D11: leaders are slanted."""
    changed = with_dimension("callout", lambda d: replace(d, line_at=(d.points[0][0] + 20.0, d.points[0][1])))
    assert "leader-level" in codes(changed)


def test_a_text_that_stands_on_its_head_is_found() -> None:
    """D10: readable from below or from the right."""

    def turn(dim: Dimension) -> Dimension:
        strokes = tuple(replace(s, angle_deg=180.0) if isinstance(s, Text) else s for s in dim.strokes)
        return replace(dim, strokes=strokes)

    assert "text-direction" in codes(with_dimension("callout", turn))


def test_a_section_without_its_letters_is_found() -> None:
    """C17: the letters stand over the section."""
    named = without(lambda i: isinstance(i, Text) and i.text == "D-D")
    assert "section-unnamed" in codes(with_group("D-D", named))
