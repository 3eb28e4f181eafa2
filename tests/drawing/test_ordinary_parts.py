"""Ordinary small machine parts, dense and sparse, in mm and inches: each gets its drawing, all sizes in the views."""

from __future__ import annotations

import time
from pathlib import Path

import pytest

from setupsheet.drawing.draw import draw
from setupsheet.finding import Severity
from setupsheet.solid.body import finished
from setupsheet.spec.reader import read_part

SPECS = sorted((Path(__file__).parent / "ordinary").glob("*.yaml"))


@pytest.mark.parametrize("path", SPECS, ids=lambda path: path.stem)
def test_an_ordinary_part_gets_its_drawing(path: Path) -> None:
    """No error, no size that had to go among the notes, and no search that takes longer than a build may."""
    part, _, found = read_part(path)
    assert part is not None
    assert [f.message for f in found if f.severity is Severity.ERROR] == []
    body, start = finished(part), time.process_time()
    sheets, found = draw(part, body)
    assert time.process_time() - start < 15.0
    assert sheets
    assert [f.message for f in found if f.severity is Severity.ERROR or f.code == "size-in-notes"] == []
