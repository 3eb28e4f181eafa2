"""The three solids: what is said where the finished part is not as large as its spec says."""

from __future__ import annotations

from pathlib import Path

from setupsheet.part.part import Part
from setupsheet.solid.solids import make_solids
from setupsheet.spec.reader import read_part

PLATE = """\
format: 1
part: Low plate
number: T-02
revision: A
units: mm
material: aluminium 6082
tolerances: ISO 2768-1 m
stock: {form: plate, size: [64 mm, 44 mm, 14 mm]}
size: [60 mm, 40 mm, 12 mm]
features:
  floor: {kind: level, area: all, to: 5 mm}
"""

PEG = "  peg: {kind: round boss, at: [20 mm, 20 mm], diameter: 10 mm, top: 12 mm}\n"


def read(folder: Path, text: str) -> Part:
    """Return the part of a text."""
    spec = folder / "low.yaml"
    spec.write_text(text, encoding="utf-8")
    part = read_part(spec)[0]
    assert part is not None
    return part


def test_a_size_that_nothing_reaches_is_refused(tmp_path: Path) -> None:
    """With its peg the plate is 12 high; without, 5, and the drawing would say 12."""
    assert make_solids(read(tmp_path, PLATE + PEG))[1] == []
    (found,) = make_solids(read(tmp_path, PLATE))[1]
    assert (found.code, found.message) == ("size-not-reached", "the finished part is 5 mm in Z; size: says 12 mm")
