"""Whole drawings: no fault, everything there, the same every time, true to the part."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache

import pytest

from setupsheet.drawing.arrange import block_of
from setupsheet.drawing.boxes import inside, overlap
from setupsheet.drawing.check_record import FURNITURE
from setupsheet.drawing.completeness import dimensions_of, missing
from setupsheet.drawing.compose import outline_of
from setupsheet.drawing.draw import draw
from setupsheet.drawing.frame import sheet_size
from setupsheet.drawing.ink import Circle, Pen, Sheet, Text
from setupsheet.drawing.svg import sheet_svg
from setupsheet.finding import Severity
from setupsheet.length import Unit
from setupsheet.part.feature import Hole
from setupsheet.part.part import Drawing, Part
from setupsheet.solid.body import finished
from tests.drawing import parts

PARTS: dict[str, Callable[[], Part]] = {"everything": parts.everything, "rounded": parts.rounded}
PROFILES = [("iso", "first"), ("iso", "third"), ("asme", "first"), ("asme", "third")]


@cache
def drawn(name: str, standard: str, projection: str) -> tuple[Sheet, ...]:
    """Return the sheets of a part in a profile, which must be free of errors."""
    part = replace(PARTS[name](), drawing=Drawing(standard, projection))
    sheets, findings = draw(part, finished(part))
    assert [f for f in findings if f.severity is Severity.ERROR] == []
    return sheets


@pytest.mark.parametrize("name", PARTS)
@pytest.mark.parametrize(("standard", "projection"), PROFILES)
def test_no_group_overlaps_another_or_the_frame(name: str, standard: str, projection: str) -> None:
    """Boxes on a sheet have no area in common and lie inside the drawing space."""
    for sheet in drawn(name, standard, projection):
        paper = sheet_size(sheet.fields["sheet_size"])
        groups = [g for g in sheet.groups if g.name not in ("frame", "title block")]
        block = block_of(paper, None)
        for k, group in enumerate(groups):
            assert inside(group.box, block.space), group.name
            assert not any(overlap(group.box, other.box) for other in groups[k + 1 :]), group.name
            assert not any(overlap(group.box, taken) for taken in block.taken), group.name


@pytest.mark.parametrize(("standard", "projection"), PROFILES)
def test_views_stand_as_the_projection_says(standard: str, projection: str) -> None:
    """First angle: the main view below the front view; third: above; both in line."""
    (sheet, *_) = drawn("rounded", standard, projection)
    boxes = {g.name: outline_of(g) for g in sheet.groups if g.name in ("top", "front")}
    assert (boxes["top"][0][1] > boxes["front"][0][1]) is (projection == "third")
    assert boxes["top"][0][0] == pytest.approx(boxes["front"][0][0], abs=1e-6)


@pytest.mark.parametrize("name", PARTS)
def test_completeness_objects_to_any_dimension_that_is_missing(name: str) -> None:
    """Take one dimension away, whichever it is: something is missing."""
    part = PARTS[name]()
    dims = dimensions_of(drawn(name, "iso", "first"))
    assert missing(part, dims) == []
    for k, dim in enumerate(dims):
        assert missing(part, dims[:k] + dims[k + 1 :]), dim.text


def test_holes_stand_where_the_part_has_them() -> None:
    """Circles re-measured from the ink: centre less the view's own zero, over the scale."""
    part = parts.everything()
    (sheet, *_) = drawn("everything", "iso", "first")
    top = next(g for g in sheet.groups if g.name == "top")
    zero = outline_of(top)[0]
    circles = [i for i in top.items if isinstance(i, Circle) and i.pen is Pen.VISIBLE]
    for hole in (f for f in part.features if isinstance(f, Hole)):
        for spot in hole.spots:
            at = tuple(z + v * sheet.scale for z, v in zip(zero, spot.at, strict=True))
            radius = hole.diameter.nominal_mm / 2 * sheet.scale
            assert any(c.centre == pytest.approx(at, abs=1e-5) and c.radius == pytest.approx(radius) for c in circles)


def test_values_are_those_of_the_part() -> None:
    """Every size that a dimension gives is one that the part has, and it is printed in the drawing's unit."""
    part = parts.everything()
    for dim in dimensions_of(drawn("everything", "iso", "first")):
        for feature, _, _ in dim.gives:
            assert feature == "part" or any(f.id == feature for f in part.features)


def test_the_same_part_gives_the_same_sheets() -> None:
    """Two runs give equal ink and equal bytes."""
    part = parts.everything()
    one, two = (draw(part, finished(part))[0] for _ in range(2))
    assert one == two
    assert [sheet_svg(s) for s in one] == [sheet_svg(s) for s in two]


def test_a_small_part_is_drawn_larger() -> None:
    """A part of 20 mm is drawn at a scale of ISO 5455 at which it reads."""
    part = parts.part((parts.plain_hole("P1", (8.0, 5.0), 3.0, 4.0),), (20.0, 10.0, 4.0))
    sheets, _ = draw(part, finished(part))
    assert sheets[0].scale == 5.0


def test_a_large_part_is_drawn_smaller() -> None:
    """A plate that no sheet holds at full size is reduced by a scale of ISO 5455."""
    part = parts.part((parts.plain_hole("P1", (80.0, 50.0), 30.0, 40.0),), (900.0, 600.0, 40.0))
    sheets, findings = draw(part, finished(part))
    assert sheets[0].scale in (0.5, 0.2)
    assert [f for f in findings if f.severity is Severity.ERROR] == []


def test_many_holes_get_a_table_over_several_blocks() -> None:
    """Sixty holes: labels in the view, places in the table, nothing missing."""
    holes = tuple(
        parts.plain_hole(f"H{k}", (10.0 + 12.0 * (k % 10), 10.0 + 12.0 * (k // 10)), 4.0, 10.0) for k in range(60)
    )
    part = parts.part(holes, (130.0, 80.0, 10.0))
    sheets, findings = draw(part, finished(part))
    names = [g.name for s in sheets for g in s.groups]
    assert "hole table" in names
    cells = {i.text for s in sheets for g in s.groups if g.name == "hole table" for i in g.items if isinstance(i, Text)}
    assert {"H59", "118", "4 through"} <= cells
    assert [f.message for f in findings if f.code == "size-not-drawn"] == []


def test_inch_sheets_say_inch_and_print_no_zero_before_the_point() -> None:
    """ASME inch: the unit stands in the block and numbers below one start with the point."""
    part = parts.part(
        (parts.plain_hole("P1", (12.7, 12.7), 6.35, 12.7),), (63.5, 38.1, 12.7), "asme", "third", Unit.INCH
    )
    sheets, findings = draw(part, finished(part))
    assert sheets[0].fields["unit"] == "INCH"
    assert [f for f in findings if f.severity is Severity.ERROR] == []
    assert any(d.text == ".500" for d in dimensions_of(sheets))


def test_only_views_are_checked_as_views() -> None:
    """Names of furniture and views do not clash."""
    (sheet, *_) = drawn("everything", "iso", "first")
    assert {"top", "front"} <= {g.name for g in sheet.groups} - set(FURNITURE)


def test_equal_features_share_a_callout() -> None:
    """Three like holes of three features are said once, with their count."""
    holes = tuple(parts.plain_hole(f"P{k}", (15.0 + 20 * k, 20.0 + 5 * k), 6.0, 15.0) for k in range(3))
    part = parts.part(holes)
    texts = [d.text for d in dimensions_of(draw(part, finished(part))[0]) if d.kind == "callout"]
    assert texts == ["3× ⌀6 through"]


def test_an_unknown_sheet_is_said() -> None:
    """A sheet that does not exist is a caution, never passed over in silence."""
    part = replace(parts.rounded(), drawing=Drawing("iso", "first", sheet="A9"))
    sheets, findings = draw(part, finished(part))
    assert sheets[0].fields["sheet_size"] == "A4"
    assert [f.code for f in findings] == ["sheet-unknown"]
