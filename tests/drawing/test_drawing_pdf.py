"""drawing.pdf read by its own operators: true scale, no print scaling, fonts inside, words that can be found."""

from __future__ import annotations

import math
import re
import shutil
import subprocess
import zlib
from functools import cache
from pathlib import Path

import pytest

from setupsheet.drawing import svg
from setupsheet.drawing.ink import Line, Sheet, Text
from setupsheet.drawing.svg import strokes_of
from setupsheet.papers import html, pdf
from setupsheet.plane import Point2
from tests.drawing.test_demo_drawings import DEMOS, drawn

MM_PER_POINT = 25.4 / 72
Matrix = tuple[float, float, float, float, float, float]
PARTS = tuple(DEMOS)
_TOKEN = re.compile(rb"\((?:\\.|[^\\)])*\)|<[0-9A-Fa-f\s]*>|[^\s\[\]<>()]+")


@cache
def printed(name: str) -> tuple[Sheet, bytes]:
    """Return the first sheet of a part and its PDF."""
    sheet = drawn(name)[1][0]
    return sheet, written(sheet)


def written(sheet: Sheet) -> bytes:
    """Return the PDF of one sheet."""
    return pdf.drawing_pdf([svg.sheet_svg(sheet)], [(sheet.width, sheet.height)], html.font_faces())


def plain(data: bytes) -> list[bytes]:
    """Return the unpacked streams of a PDF."""
    found = []
    for part in re.findall(rb"stream\r?\n(.*?)\r?\nendstream", data, re.S):
        try:
            found.append(zlib.decompress(part))
        except zlib.error:
            found.append(part)
    return found


def times(inner: Matrix, outer: Matrix) -> Matrix:
    """Return the matrix that applies the inner one first (PDF 32000-1, 8.3.3)."""
    a, b, c, d, e, f = inner
    g, h, i, j, k, m = outer
    return a * g + b * i, a * h + b * j, c * g + d * i, c * h + d * j, e * g + f * i + k, e * h + f * j + m


def segments(data: bytes) -> list[tuple[Point2, Point2]]:
    """Return the straight pieces of all paths in mm from the lower left corner, by the PDF's own matrices."""
    found: list[tuple[Point2, Point2]] = []
    for stream in plain(data):
        if b" cm" not in stream:
            continue
        now: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
        stack: list[Matrix] = []
        values: list[float] = []
        at: Point2 = (0.0, 0.0)
        for token in _TOKEN.findall(stream):
            try:
                values.append(float(token))
                continue
            except ValueError:
                word = token
            if word == b"q":
                stack.append(now)
            elif word == b"Q":
                now = stack.pop()
            elif word == b"cm":
                now = times(tuple(values[-6:]), now)  # type: ignore[arg-type]
            elif word in (b"m", b"l"):
                to = on_page(values[-2:], now)
                if word == b"l":
                    found.append((at, to))
                at = to
            elif word == b"c":
                at = on_page(values[-2:], now)
            values = []
    return found


def on_page(values: list[float], matrix: Matrix) -> Point2:
    """Return a point in mm of the page."""
    x, y = values
    a, b, c, d, e, f = matrix
    return (a * x + c * y + e) * MM_PER_POINT, (b * x + d * y + f) * MM_PER_POINT


def is_drawn(line: Line, pieces: list[tuple[Point2, Point2]]) -> bool:
    """Tell whether a line stands in the PDF, both ends within 0.05 mm."""
    return any(
        (math.dist(a, line.a) < 0.05 and math.dist(b, line.b) < 0.05)
        or (math.dist(a, line.b) < 0.05 and math.dist(b, line.a) < 0.05)
        for a, b in pieces
    )


@pytest.mark.parametrize("name", PARTS)
def test_the_check_bar_is_100_mm_long(name: str) -> None:
    """The 100 mm bar of the title block measures 100 mm to 0.1 in the PDF's own coordinates, and so does the rest."""
    sheet, data = printed(name)
    pieces = segments(data)
    block = next(g for g in sheet.groups if g.name == "title block")
    bars = [s for s in block.items if isinstance(s, Line) and abs(math.dist(s.a, s.b) - 100.0) < 1e-9]
    assert bars
    assert any(abs(math.dist(a, b) - 100.0) < 0.1 and math.dist(a, bars[0].a) < 0.1 for a, b in pieces)
    long = [s for g in sheet.groups for s in strokes_of(g.items) if isinstance(s, Line) and math.dist(s.a, s.b) > 20]
    assert len(long) > 10
    assert [line for line in long if not is_drawn(line, pieces)] == []


@pytest.mark.parametrize("name", PARTS)
def test_the_page_has_the_size_of_the_sheet(name: str) -> None:
    """The media box is the sheet's size to 0.1 mm."""
    sheet, data = printed(name)
    box = re.search(rb"/MediaBox \[([^\]]*)\]", b"".join((data, *plain(data))))
    assert box
    _, _, wide, high = (float(value) * MM_PER_POINT for value in box[1].split())
    assert (wide, high) == pytest.approx((sheet.width, sheet.height), abs=0.1)


@pytest.mark.parametrize("name", PARTS)
def test_printing_asks_for_no_scaling(name: str) -> None:
    """The viewer preferences switch print scaling off (PDF 32000-1, table 150)."""
    data = b"".join((printed(name)[1], *plain(printed(name)[1])))
    assert re.search(rb"/ViewerPreferences <<\s*/PrintScaling /None\s*>>", data)


@pytest.mark.parametrize("name", PARTS)
def test_every_font_is_embedded(name: str) -> None:
    """Each font descriptor holds its font file."""
    data = b"".join((printed(name)[1], *plain(printed(name)[1])))
    descriptors = re.findall(rb"/Type /FontDescriptor.*?>>", data, re.S)
    assert descriptors
    assert all(b"/FontFile" in one for one in descriptors)


@pytest.mark.parametrize("name", PARTS)
def test_two_runs_write_equal_bytes(name: str) -> None:
    """Nothing of the day, and nothing of the files written in between, is in the file."""
    sheet, data = printed(name)
    assert written(sheet) == data


@pytest.mark.skipif(shutil.which("pdftotext") is None, reason="poppler-utils is not installed: words not searched")
@pytest.mark.parametrize("name", PARTS)
def test_words_can_be_found(name: str, tmp_path: Path) -> None:
    """A reader finds the texts of the sheet: title, callouts, values."""
    sheet, data = printed(name)
    (tmp_path / "d.pdf").write_bytes(data)
    found = subprocess.run(["pdftotext", "-raw", str(tmp_path / "d.pdf"), "-"], capture_output=True, check=True).stdout
    words = re.sub(r"\s+", "", found.decode())
    texts = [s.text for g in sheet.groups for s in strokes_of(g.items) if isinstance(s, Text)]
    missing = [text for text in texts if re.sub(r"\s+", "", text) not in words]
    assert missing == []
