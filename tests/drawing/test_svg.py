"""SVG read back with an XML parser: what was written is what the ink says."""

from __future__ import annotations

import xml.etree.ElementTree as ET

import pytest

from setupsheet.drawing import lettering, svg
from setupsheet.drawing.ink import Circle, Fill, Group, Line, Pen, Sheet, Text

SVG = "{http://www.w3.org/2000/svg}"


def _group(*items: Line | Circle | Text | Fill) -> ET.Element:
    return ET.fromstring(svg.group_svg(Group("g", items, ((0.0, 0.0), (50.0, 40.0)))))


def test_the_sheet_has_its_true_size(sheet: Sheet) -> None:
    """Width, height and viewBox are the sheet's millimetres."""
    root = ET.fromstring(svg.sheet_svg(sheet))
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("420mm", "297mm", "0 0 420 297")
    assert root.get("font-family") == lettering.FAMILY


def test_lines_of_one_pen_are_one_path() -> None:
    """200 lines of two pens become two paths with the pens' widths and dashes."""
    lines = [Line(pen, (i, 0.0), (i, 9.0)) for i in range(100) for pen in (Pen.VISIBLE, Pen.HIDDEN)]
    paths = _group(*lines).findall(f".//{SVG}path")
    assert [path.get("data-pen") for path in paths] == ["visible", "hidden"]
    assert paths[0].get("stroke-width") == "0.5"
    assert paths[1].get("stroke-dasharray") == "3 1"
    assert all((path.get("d") or "").count("M") == 100 for path in paths)


def test_hostile_text_stays_text() -> None:
    """Mark-up and quotes in a text and its pointer come back as they went in; control characters do not."""
    root = _group(Text((1.0, 2.0), 3.5, "<script>&\"'\x00", path='/a"b<c'))
    text = root.find(f".//{SVG}text")
    assert text is not None
    assert text.text == "<script>&\"'?"
    assert text.get("data-path") == '/a"b<c'


def test_text_stands_where_the_ink_says() -> None:
    """Y is turned over, the size is the em of the capital height, the anchor and the turn are kept."""
    text = _group(Text((10.0, 30.0), 3.0, "12.5", "middle", 90.0, bold=True)).find(f".//{SVG}text")
    assert text is not None
    assert (text.get("x"), text.get("y"), text.get("font-size")) == ("10", "10", "4")
    assert text.get("text-anchor") == "middle"
    assert text.get("transform") == "rotate(-90 10 10)"
    assert text.get("font-weight") == "bold"
    assert text.get("data-path") is None


def test_a_halo_lies_over_lines_and_under_its_text() -> None:
    """The white box comes after the path of the lines and before the text."""
    root = _group(Text((10.0, 10.0), 3.0, "5", halo=True), Line(Pen.VISIBLE, (0.0, 11.0), (30.0, 11.0)))
    tags = [(element.tag.removeprefix(SVG), element.get("fill")) for element in root.iter()][2:]
    assert tags == [("path", "none"), ("path", "#fff"), ("text", None)]


def test_double_spaces_are_kept() -> None:
    """A text with two spaces asks for them to be preserved, since its width was measured with them."""
    text = _group(Text((0.0, 0.0), 3.0, "a  b")).find(f".//{SVG}text")
    assert text is not None
    assert text.get("{http://www.w3.org/XML/1998/namespace}space") == "preserve"


@pytest.mark.parametrize(
    ("value", "printed"),
    [(0.0, "0"), (-0.00001, "0"), (12.70000001, "12.7"), (-1.25, "-1.25"), (1e-5, "0"), (1e6, "1000000")],
)
def test_numbers_are_short_and_never_minus_zero(value: float, printed: str) -> None:
    """Four decimals at most, no exponent."""
    assert svg.number(value) == printed


def test_a_picture_of_a_group_has_its_box_and_margin(sheet: Sheet) -> None:
    """The picture is as large as the box and the margin on each side."""
    root = ET.fromstring(svg.group_svg(sheet.groups[-1], 2.0))
    assert root.get("viewBox") == "0 0 194 144"


def test_every_pointer_of_the_ink_is_in_the_file(sheet: Sheet) -> None:
    """Each text with a pointer carries it on its element."""
    wanted = {s.path for g in sheet.groups for s in svg.strokes_of(g.items) if isinstance(s, Text) and s.path}
    root = ET.fromstring(svg.sheet_svg(sheet))
    assert {element.get("data-path") for element in root.iter(f"{SVG}text")} - {None} == wanted
