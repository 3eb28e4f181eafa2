"""The demo parts: each is drawn without an error in its own profile, and its holes stand where the spec says."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from setupsheet.drawing.completeness import dimensions_of
from setupsheet.drawing.compose import outline_of
from setupsheet.drawing.draw import draw
from setupsheet.drawing.ink import Circle, Pen, Sheet
from setupsheet.finding import Severity
from setupsheet.part.face import Face
from setupsheet.part.feature import Hole
from setupsheet.part.part import Part
from setupsheet.solid.body import finished
from setupsheet.spec.reader import read_part

SPECS = Path(__file__).parent.parent.parent / "specs"
DEMOS = sorted(path.stem for path in SPECS.glob("*.yaml") if "\npart:" in path.read_text(encoding="utf-8"))


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
def test_holes_from_above_stand_where_the_spec_has_them(name: str) -> None:
    """Centres and diameters re-measured from the circles of the main view."""
    part, sheets = drawn(name)
    top = next(g for s in sheets for g in s.groups if g.name == "top")
    zero, k = outline_of(top)[0], top.scale
    circles = [i for i in top.items if isinstance(i, Circle) and i.pen is Pen.VISIBLE]
    for hole in (f for f in part.features if isinstance(f, Hole) and f.face is Face.TOP):
        for spot in hole.spots:
            at = tuple(z + v * k for z, v in zip(zero, spot.at, strict=True))
            here = [c.radius for c in circles if c.centre == pytest.approx(at, abs=1e-4)]
            assert any(r == pytest.approx(hole.diameter.nominal_mm / 2 * k, abs=1e-4) for r in here), spot.label


def test_the_bracket_says_what_its_maker_needs() -> None:
    """The sizes of the worm-bracket's spec that matter most stand on its sheet as written there."""
    _, sheets = drawn("worm-bracket")
    texts = {dim.text for dim in dimensions_of(sheets)}
    assert "34 ±0.05" in texts
    assert any(text.startswith("⌀12 H7 (+0.018/0)") for text in texts)
    assert any("6× ⌀4.5" in text and "⌀42 PCD" in text for text in texts)
    assert {"15°", "1.5", "6", "8", "15"} <= texts
