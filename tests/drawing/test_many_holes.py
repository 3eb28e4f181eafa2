"""A plate of more holes than one sheet's table takes: every hole stands in the table once, the picture is thinned."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from setupsheet.drawing.completeness import dimensions_of
from setupsheet.drawing.draw import draw
from setupsheet.drawing.furniture import labelled
from setupsheet.drawing.hole_labels import has_short_labels
from setupsheet.drawing.ink import Sheet, Text
from setupsheet.finding import Findings, Severity
from setupsheet.part.feature import Hole
from setupsheet.part.part import Part
from setupsheet.solid.body import finished
from setupsheet.solid.thinned import is_thinned, thinned
from tests.benchmarks.bench_plate import read

COUNT = 210


@cache
def plate() -> tuple[Part, tuple[Sheet, ...], Findings]:
    """Return the plate, its sheets and what is wrong with them."""
    part, _ = read(COUNT)
    return (part, *draw(part, finished(part)))


def test_the_table_holds_every_hole_once() -> None:
    """Rows of all blocks together: each label once, the place beside it the spec's; no error anywhere."""
    part, sheets, findings = plate()
    assert [f.message for f in findings if f.severity is Severity.ERROR] == []
    (hole,) = [f for f in part.features if isinstance(f, Hole)]
    blocks = [g for s in sheets for g in s.groups if g.name == "hole table"]
    assert len(blocks) > 1
    rows: dict[str, list[str]] = {}
    for block in blocks:
        texts = sorted((i for i in block.items if isinstance(i, Text)), key=lambda t: t.at[0])
        for label in (t for t in texts if t.text in {spot.label for spot in hole.spots}):
            assert label.text not in rows
            rows[label.text] = [t.text for t in texts if abs(t.at[1] - label.at[1]) < 0.1 and t is not label]
    assert len(rows) == COUNT == len([d for d in dimensions_of(sheets) if d.kind == "table"])
    for spot in hole.spots:
        assert [float(text) for text in rows[spot.label][:2]] == list(spot.at)


def test_no_hole_stands_in_neither_table_nor_view() -> None:
    """The thousandth hole has a label like the others; names of any length on some places go on none of them."""
    (hole,) = [f for f in plate()[0].features if isinstance(f, Hole)]
    thousandth = replace(hole.spots[0], label="H1000")
    named = replace(hole.spots[0], label="Long name 1")
    assert has_short_labels(replace(hole, spots=(*hole.spots, thousandth)))
    assert not has_short_labels(replace(hole, spots=(*hole.spots, named)))
    mixed = replace(plate()[0], features=(replace(hole, spots=(*hole.spots, named)),))
    assert labelled(mixed) == []


def test_the_picture_shows_one_hole_and_says_so() -> None:
    """The picture's body has one hole of the pattern, and a note tells."""
    part, sheets, _ = plate()
    assert is_thinned(part)
    assert [len(f.spots) for f in thinned(part).features if isinstance(f, Hole)] == [1]
    notes = [i.text for s in sheets for g in s.groups if g.name == "notes" for i in g.items if isinstance(i, Text)]
    assert "first hole of every pattern" in " ".join(notes)
