"""Details: what is too small on paper is shown again, larger, with its sizes there and nowhere else."""

from __future__ import annotations

import io
from dataclasses import replace

import pytest
from ezdxf.filemanagement import read

from setupsheet.drawing import dxf
from setupsheet.drawing.check_record import Case
from setupsheet.drawing.checks_sheet import details_marked, scale_true
from setupsheet.drawing.completeness import dimensions_of, doubled, missing
from setupsheet.drawing.ink import Circle, Dimension, Group, Line, Pen, Sheet, Text
from setupsheet.drawing.profile import profile_of
from setupsheet.plane import distance
from tests.drawing.test_demo_drawings import drawn

PARTS = ("drive-cover", "indicator-foot")


def detail_of(sheets: tuple[Sheet, ...]) -> tuple[Sheet, Group]:
    """Return the first detail of a drawing and its sheet."""
    return next((s, g) for s in sheets for g in s.groups if g.name.startswith("detail "))


@pytest.mark.parametrize("name", PARTS)
def test_a_detail_says_its_letter_and_scale(name: str) -> None:
    """Letter and scale stand at the detail, the letter at a circle of another view; both checks are content."""
    part, sheets = drawn(name)
    sheet, detail = detail_of(sheets)
    texts = " ".join(item.text for item in detail.items if isinstance(item, Text))
    assert detail.name.removeprefix("detail ") in texts
    assert f"{detail.scale:g}:1" in texts
    case = Case(sheet, sheets, profile_of(part))
    assert details_marked(case) == scale_true(case) == []


def test_a_detail_without_its_mark_or_scale_is_a_fault() -> None:
    """Take the circle out of the section, or the title out of the detail: the checks say so."""
    part, sheets = drawn("drive-cover")
    sheet, detail = detail_of(sheets)
    bare = tuple(
        replace(g, items=tuple(i for i in g.items if not _is_ring(i))) for g in sheet.groups if g is not detail
    )
    unmarked = replace(sheet, groups=(*bare, detail))
    assert [f.code for f in details_marked(Case(unmarked, (unmarked,), profile_of(part)))] == ["detail-unmarked"]
    silent = replace(detail, items=tuple(i for i in detail.items if not isinstance(i, Text)))
    untitled = replace(sheet, groups=tuple(silent if g is detail else g for g in sheet.groups))
    assert [f.code for f in scale_true(Case(untitled, (untitled,), profile_of(part)))] == ["view-scale"]


def _is_ring(item: object) -> bool:
    return isinstance(item, Circle) and item.pen is Pen.THIN


def test_the_groove_is_measured_in_its_detail_alone() -> None:
    """The depth of the cover's groove stands in the detail, with its limits, and is neither missing nor doubled."""
    part, sheets = drawn("drive-cover")
    _, detail = detail_of(sheets)
    (depth,) = [d for d in detail.items if isinstance(d, Dimension)]
    assert (depth.text, depth.value, depth.scale) == ("1.5 +0.1/0", 1.5, detail.scale)
    a, b = depth.points
    assert abs(a[1] - b[1]) / detail.scale == pytest.approx(1.5)
    dims = dimensions_of(sheets)
    assert missing(part, dims) == []
    assert doubled(dims) == []
    assert missing(part, [d for d in dims if d is not depth]) != []


@pytest.mark.parametrize("name", PARTS)
def test_everything_in_a_detail_lies_in_its_rim(name: str) -> None:
    """Edges and hatching end at the rim or before it."""
    _, detail = detail_of(drawn(name)[1])
    (rim,) = [item for item in detail.items if _is_ring(item)]
    assert isinstance(rim, Circle)
    lines = [i for i in detail.items if isinstance(i, Line)]
    assert len(lines) >= 3
    assert all(distance(p, rim.centre) <= rim.radius + 1e-6 for line in lines for p in (line.a, line.b))


def test_the_dxf_prints_the_value_of_a_detail_as_text() -> None:
    """The value of a dimension in a detail stands in the file as text, since readers know one factor a file."""
    _, sheets = drawn("drive-cover")
    sheet, detail = detail_of(sheets)
    doc = read(io.StringIO(dxf.sheet_dxf(sheet).decode()))
    texts = [entity.dxf.text for entity in doc.modelspace().query("DIMENSION TEXT")]
    assert any(text.startswith("1.5") for text in texts)
    assert detail.scale > sheet.scale
