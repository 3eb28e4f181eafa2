"""The demo parts: each is drawn without an error in its own profile, and its holes stand where the spec says."""

from __future__ import annotations

import io
import math
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from ezdxf.filemanagement import read

from setupsheet.drawing import dxf
from setupsheet.drawing.completeness import dimensions_of, missing
from setupsheet.drawing.compose import outline_of
from setupsheet.drawing.draw import draw
from setupsheet.drawing.frames import FRAME, bounds, seen_at
from setupsheet.drawing.ink import Sheet
from setupsheet.finding import Severity
from setupsheet.part.face import Face
from setupsheet.part.feature import Hole
from setupsheet.part.part import Part
from setupsheet.solid.body import finished
from setupsheet.spec.reader import read_part

SPECS = Path(__file__).parent.parent.parent / "specs"
DEMOS = sorted(path.stem for path in SPECS.glob("*.yaml") if "\npart:" in path.read_text(encoding="utf-8"))

CORPUS = [
    path
    for path in sorted((SPECS.parent / "tests" / "corpus").glob("*.yaml"))
    if "\npart:" in path.read_text(encoding="utf-8")
]


@cache
def drawn(name: str) -> tuple[Part, tuple[Sheet, ...]]:
    """Return a demo part and its sheets, which must have no error."""
    part = read_part(SPECS / f"{name}.yaml")[0]
    assert part is not None
    sheets, findings = draw(part, finished(part))
    assert [f.message for f in findings if f.severity is Severity.ERROR] == []
    return part, sheets


@pytest.mark.parametrize("name", DEMOS)
def test_a_demo_is_drawn_at_full_size_in_its_profile(name: str) -> None:
    """Every demo fits a small sheet at 1:1; inch parts are ASME in third angle, mm parts ISO in first."""
    part, sheets = drawn(name)
    assert sheets[0].scale == 1.0
    expected = ("iso", "first") if part.unit.value == "mm" else ("asme", "third")
    assert (sheets[0].fields["standard"], sheets[0].fields["projection"]) == expected


@pytest.mark.parametrize("name", DEMOS)
def test_every_hole_is_in_the_dxf_where_the_spec_has_it(name: str) -> None:
    """Circles of the file, read by the DXF library alone: one of the hole's size at each spot, and no other there."""
    part, sheets = drawn(name)
    docs = [read(io.StringIO(dxf.sheet_dxf(sheet).decode())) for sheet in sheets]
    counted = 0
    for hole in (f for f in part.features if isinstance(f, Hole)):
        n, group = next((n, g) for n, s in enumerate(sheets) for g in s.groups if shows(g.name, hole.face))
        zero, k, frame = outline_of(group)[0], group.scale, FRAME[hole.face]
        low = bounds(part.box, frame)[0]
        circles = [c for c in docs[n].modelspace().query("CIRCLE") if c.dxf.layer == "OUTLINE"]
        for spot in hole.spots:
            seen = seen_at(spot.at, hole.face, frame)
            at = [z + (v - o) * k for z, v, o in zip(zero, seen, low, strict=True)]
            here = [c.dxf.radius for c in circles if math.dist(c.dxf.center.vec2, at) < 1e-4]
            radius = hole.diameter.nominal_mm / 2 * k
            assert [r for r in here if abs(r - radius) < 1e-4] == [pytest.approx(radius, abs=1e-4)], spot.label
            counted += 1
    assert counted == sum(len(f.spots) for f in part.features if isinstance(f, Hole))


def shows(name: str, face: Face) -> bool:
    """Tell whether a view shows a face; the one that stands out of line has a letter instead of a name."""
    return name == face.value or (face is Face.BOTTOM and name.startswith("view "))


@pytest.mark.parametrize("name", DEMOS)
def test_every_dimension_is_missed_when_it_is_gone(name: str) -> None:
    """Take any one dimension out of the sheets, and the completeness check objects."""
    part, sheets = drawn(name)
    dims = dimensions_of(sheets)
    assert missing(part, dims) == []
    for gone in dims:
        if gone.gives:
            assert missing(part, [dim for dim in dims if dim is not gone]), gone.text


def test_the_bracket_says_what_its_maker_needs() -> None:
    """The sizes of the worm-bracket's spec that matter most stand on its sheet as written there."""
    _, sheets = drawn("worm-bracket")
    texts = {dim.text for dim in dimensions_of(sheets)}
    assert "34 ±0.05" in texts
    assert any(text.startswith("⌀12 H7 (+0.018/0)") for text in texts)
    assert any("6× ⌀4.5" in text and "⌀42 PCD" in text for text in texts)
    assert {"15°", "1.5", "6", "8", "15"} <= texts


@pytest.mark.parametrize("path", CORPUS, ids=lambda path: str(path.stem))
def test_every_spec_of_the_corpus_is_drawn_without_an_error(path: Path) -> None:
    """Whatever a spec of the corpus shows, its sheets pass the checks and say every size."""
    part = read_part(path)[0]
    assert part is not None
    sheets, findings = draw(part, finished(part))
    assert sheets
    assert [f.message for f in findings if f.severity is Severity.ERROR] == []
    dims = dimensions_of(sheets)
    for gone in dims:
        assert not gone.gives or missing(part, [dim for dim in dims if dim is not gone]), gone.text


@pytest.mark.parametrize("index", range(len(CORPUS)))
def test_the_corpus_is_drawn_in_the_other_ways_too(index: int) -> None:
    """Specs in turn in the other standard, in the other projection and in both: no sheet has an error."""
    part = read_part(CORPUS[index])[0]
    assert part is not None
    own = part.drawing
    standard = own.standard if index % 3 == 0 else {"iso": "asme", "asme": "iso"}[own.standard]
    projection = own.projection if index % 3 == 1 else {"first": "third", "third": "first"}[own.projection]
    other = replace(part, drawing=replace(own, standard=standard, projection=projection, sheet=""))
    sheets, findings = draw(other, finished(other))
    assert (sheets[0].fields["standard"], sheets[0].fields["projection"]) == (standard, projection)
    assert [f.message for f in findings if f.severity is Severity.ERROR] == []
