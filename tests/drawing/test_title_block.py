"""The title block holds every field, and no text touches a line."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import pytest

from setupsheet.drawing import frame, projection_symbol, signs, title_block
from setupsheet.drawing.ink import Group, Line, Stroke, Text
from setupsheet.drawing.title_block import TitleBlock

FULL = TitleBlock(
    "iso",
    "first",
    "Workshop of the old mill",
    "ST-04",
    "Worm-shaft bracket",
    "E. Example",
    "A. Nother",
    "2026-11-24",
    "Part drawing",
    "en",
    "A3",
    "1:1",
    "B",
    "1/2",
    "Aluminium EN AW-6082 T6",
    "0.19 kg",
    "mm",
    "outside -0.3  inside +0.3",
    "Ra 3.2",
    "ISO 8015",
    ("ISO 2768-1 m",),
)


def _strokes(group: Group) -> list[Stroke]:
    assert all(not hasattr(item, "strokes") for item in group.items)
    return list(group.items)  # type: ignore[arg-type]


def _clear_of_lines(group: Group) -> None:
    """Assert that texts with their hanging letters touch neither a rule nor another text."""
    texts = [(t, signs.box(t)) for t in _strokes(group) if isinstance(t, Text)]
    lines = [s for s in _strokes(group) if isinstance(s, Line)]
    for text, (low, _, high, _) in texts:
        bottom = low[1] - 0.3 * text.height
        for line in lines:
            beside = max(line.a[0], line.b[0]) <= low[0] or min(line.a[0], line.b[0]) >= high[0]
            off = max(line.a[1], line.b[1]) <= bottom or min(line.a[1], line.b[1]) >= high[1]
            assert beside or off, (text.text, line)
    for (_, a), (_, b) in combinations(texts, 2):
        assert a[2][0] <= b[0][0] or b[2][0] <= a[0][0] or a[2][1] <= b[0][1] or b[2][1] <= a[0][1]


@pytest.mark.parametrize("sheet", ["A4", "A3", "A2", "Letter", "B"])
@pytest.mark.parametrize("standard", ["iso", "asme"])
def test_no_text_touches_a_line(sheet: str, standard: str) -> None:
    """Every text has clear paper round it, captions in capitals too."""
    lines = ("ISO 2768-1 m",) if standard == "iso" else ("DIMENSIONS IN INCHES", ".XX ±.010 .XXX ±.005", "ANGLES ±1°")
    _clear_of_lines(
        title_block.title_block(replace(FULL, standard=standard, tolerances=lines), frame.sheet_size(sheet))
    )


def test_long_values_are_set_smaller_or_in_two_lines() -> None:
    """A long title, material and owner stay inside their cells."""
    long_ = "An unusually long name that nobody would write on purpose but that a spec may carry all the same"
    block = replace(FULL, title=long_, material=long_, owner=long_, document_type=long_, tolerances=(long_,) * 4)
    _clear_of_lines(title_block.title_block(block, frame.sheet_size("A4")))


def test_every_field_is_printed_with_its_pointer() -> None:
    """All values stand in the block; those of plan.json carry their JSON pointer."""
    group = title_block.title_block(FULL, frame.sheet_size("A3"))
    texts = [stroke for stroke in _strokes(group) if isinstance(stroke, Text)]
    printed = " ".join(text.text for text in texts)
    for name, value in FULL.as_fields().items():
        assert name in {"standard", "projection"} or value in printed
    assert {t.path for t in texts if t.text in {"ST-04", "B", "Worm-shaft bracket"}} == {
        "/number",
        "/revision",
        "/part",
    }


def test_mandatory_fields_are_those_of_iso_7200() -> None:
    """The eight data fields that ISO 7200:2004 asks for (encyclopedia article) have a place in the block."""
    asked = {"owner", "number", "date", "sheet", "title", "approver", "creator", "document_type"}
    assert asked <= set(FULL.as_fields())


@pytest.mark.parametrize("projection", ["first", "third"])
def test_symbol_in_the_block_is_that_of_the_projection(projection: str) -> None:
    """The drawn symbol reads back as the projection of the drawing."""
    group = title_block.title_block(replace(FULL, projection=projection), frame.sheet_size("A4"))
    assert projection_symbol.read(group.items) == projection


def test_block_is_180_mm_and_in_the_corner() -> None:
    """180 mm wide in the lower right corner of the drawing space (ISO 7200, encyclopedia article)."""
    size = frame.sheet_size("A3")
    group = title_block.title_block(FULL, size)
    assert group.box[1][0] - group.box[0][0] == 180
    assert (group.box[1][0], group.box[0][1]) == (size.space[1][0], size.space[0][1])


def test_no_edge_is_drawn_twice() -> None:
    """On an upright A4 the block's sides are the frame's; only its top is drawn with the frame's pen."""
    group = title_block.title_block(FULL, frame.sheet_size("A4"))
    (x0, y0), (x1, _) = group.box
    for line in (s for s in _strokes(group) if isinstance(s, Line)):
        assert not (line.a[0] == line.b[0] and line.a[0] in {x0, x1})
        assert not (line.a[1] == line.b[1] == y0)


def test_revision_table_stands_on_the_block() -> None:
    """The last five revisions are shown, right over the title block and clear of lines; none gives none."""
    size = frame.sheet_size("A4")
    rows = [
        (letter, "2026-01-01", f"Change {letter} of something that takes many, many words to say")
        for letter in "ABCDEFG"
    ]
    group = title_block.revision_table(rows, size)
    assert group is not None
    assert group.box[0][1] == pytest.approx(title_block.room_above(size)[1])
    assert group.box[1][0] == pytest.approx(size.space[1][0])
    letters = [s.text for s in _strokes(group) if isinstance(s, Text) and len(s.text) == 1]
    assert letters == list("CDEFG")
    _clear_of_lines(group)
    assert title_block.revision_table([], size) is None
