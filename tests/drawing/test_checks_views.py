"""The rules across views find the fault that is planted for them, and leave alone what nearly is one."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache

import pytest

from setupsheet.drawing import checks_views
from setupsheet.drawing.check_record import Case
from setupsheet.drawing.completeness import dimensions_of
from setupsheet.drawing.ink import Circle, Dimension, Fill, Group, Line, Pen, Sheet, Text
from setupsheet.drawing.profile import profile_of
from setupsheet.part.part import Part
from setupsheet.plane import Point2
from tests.drawing.test_demo_drawings import drawn


@cache
def _demo() -> tuple[Part, Sheet]:
    """Return the hinge block: two sections that look along Y and along X."""
    part, sheets = drawn("hinge-block")
    return part, sheets[0]


def _codes(sheet: Sheet) -> set[str]:
    case = Case(sheet, (sheet,), profile_of(_demo()[0]))
    return {fault.code for rule in checks_views.RULES for fault in rule(case)}


def _changed(name: str, change: Callable[[Group], Group]) -> Sheet:
    sheet = _demo()[1]
    assert any(group.name == name for group in sheet.groups)
    return replace(sheet, groups=tuple(change(g) if g.name == name else g for g in sheet.groups))


def _each(change: Callable[[object], object]) -> Callable[[Group], Group]:
    def run(group: Group) -> Group:
        items = tuple(item for old in group.items if (item := change(old)) is not None)
        return replace(group, items=items)  # type: ignore[arg-type]

    return run


def test_the_sheet_itself_has_no_fault() -> None:
    """Sections in both directions, counted holes, sizes together."""
    assert not _codes(_demo()[1])


@pytest.mark.parametrize("kind", ["letter", "arrow"])
def test_a_cutting_plane_without_its_second_letter_or_arrows_is_found(kind: str) -> None:
    """C17: one letter D taken away; all arrows of the view taken away."""
    gone: list[object] = []

    def without(item: object) -> object:
        if kind == "arrow" and isinstance(item, Fill):
            return None
        if kind == "letter" and isinstance(item, Text) and item.text == "D" and not gone:
            gone.append(item)
            return None
        return item

    assert "section-unmarked" in _codes(_changed("top", _each(without)))


def test_the_arrow_of_another_view_beside_a_letter_is_not_taken_for_its_own() -> None:
    """C17: an arrow of sight up, with its own letter H, stands nearer to a letter D than the arrow of the plane."""
    added: list[Text | Fill] = []

    def beside(group: Group) -> Group:
        d = next(item for item in group.items if isinstance(item, Text) and item.text == "D")
        x, y = d.at[0] + 0.5, d.at[1] - 3.0
        added.extend([Fill(((x, y), (x - 0.6, y - 4.5), (x + 0.6, y - 4.5))), replace(d, at=(x, y - 6.0), text="H")])
        return replace(group, items=(*group.items, *added))

    assert "section-unmarked" not in _codes(_changed("top", beside))
    assert len(added) == 2


@pytest.mark.parametrize("name", ["D-D", "E-E"])
def test_a_section_drawn_as_seen_from_the_other_side_is_found(name: str) -> None:
    """C17: the section turned left for right, its arrows left as they are."""
    group = next(g for g in _demo()[1].groups if g.name == name)
    edges = [s for s in group.items if isinstance(s, Line) and s.pen is Pen.VISIBLE]
    xs = [x for s in edges for x in (s.a[0], s.b[0])]
    middle = (min(xs) + max(xs)) / 2

    def turned(item: object) -> object:
        def over(at: Point2) -> Point2:
            return 2 * middle - at[0], at[1]

        if isinstance(item, Circle):
            return replace(item, centre=over(item.centre))
        return replace(item, a=over(item.a), b=over(item.b)) if isinstance(item, Line) else item

    found = _codes(_changed(name, _each(turned)))
    assert ("section-against-arrow" in found) is (name == "D-D")


def test_a_section_without_upright_axes_may_be_read_either_way() -> None:
    """A cross hole shows one level axis and none upright: E-E cannot contradict its arrows."""
    group = next(g for g in _demo()[1].groups if g.name == "E-E")
    assert not checks_views._upright_axes(group)


def test_a_depth_said_in_another_view_is_found() -> None:
    """C7: a copy of the counterbored holes' callout gives their depth in the front view too."""
    callout = next(d for d in dimensions_of([_demo()[1]]) if any(what == "counterbore depth" for _, what, _ in d.gives))
    sheet = _changed("front", lambda group: replace(group, items=(*group.items, callout)))
    assert "sizes-scattered" in _codes(sheet)
    only_places = replace(callout, gives=((callout.feature, "x", 31.0), (callout.feature, "count", 2.0)))
    assert "sizes-scattered" not in _codes(_changed("front", lambda g: replace(g, items=(*g.items, only_places))))


@pytest.mark.parametrize(("more", "found"), [(1.0, True), (0.0, False)])
def test_a_count_of_holes_that_are_not_drawn_is_found(more: float, found: bool) -> None:
    """C11: a callout that counts one hole more than the view shows."""

    def counted(item: object) -> object:
        if not isinstance(item, Dimension):
            return item
        gives = tuple((f, w, v + more if w == "count" else v) for f, w, v in item.gives)
        return replace(item, gives=gives)

    assert ("count-wrong" in _codes(_changed("top", _each(counted)))) is found


@pytest.mark.parametrize(("off", "found"), [(0.4, True), (0.6, False), (0.0, False)])
def test_an_extension_line_beside_the_centre_of_a_hole_is_found(off: float, found: bool) -> None:
    """D8: off by 0.4 of the radius it reads as the axis; by 0.6 it does not; through the centre it is the axis."""
    dims = [d for d in dimensions_of([_demo()[1]]) if d.kind == "running" and d.angle_deg == 0.0]
    dim = next(d for d in dims if any(d in g.items for g in _demo()[1].groups if g.name == "top"))
    x = next(s for s in dim.strokes if isinstance(s, Line) and s.a[0] == s.b[0] and abs(s.a[1] - s.b[1]) > 1.0).a
    line = next(s for s in dim.strokes if isinstance(s, Line) and s.a == x)
    middle, radius = (line.a[1] + line.b[1]) / 2, abs(line.a[1] - line.b[1]) / 4
    rim = Circle(Pen.VISIBLE, (line.a[0] + off * radius, middle), radius)
    sheet = _changed("top", lambda group: replace(group, items=(*group.items, rim)))
    assert ("extension-through-hole" in _codes(sheet)) is found
