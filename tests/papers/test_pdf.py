"""The PDF: pages counted, equal bytes, nothing outside of the paper, nothing fetched, no scaling asked for."""

from __future__ import annotations

import os
import re
import subprocess
import sys
import zlib
from dataclasses import replace
from pathlib import Path

import pytest

from setupsheet.papers import pdf
from setupsheet.papers.html import page_html
from setupsheet.papers.setup_sheet import sheets
from setupsheet.plane import Point2
from tests.papers.real import tool
from tests.papers.small_plan import plan, views
from tests.papers.test_html import HOSTILE


def html_of(places: tuple[tuple[str, Point2], ...] | None = None) -> str:
    """Return the pages of the small plan, or of one with many holes."""
    return page_html(sheets(plan(places), views(places)) if places else sheets(plan(), views()))


def grid(count: int) -> tuple[tuple[str, Point2], ...]:
    """Return many holes in rows of ten."""
    return tuple((f"G{i + 1}", (3.0 + 6.0 * (i % 10), 2.0 + 3.0 * (i // 10))) for i in range(count))


def plain(data: bytes) -> bytes:
    """Return a PDF's bytes together with all of its streams unpacked."""
    return data + b"".join(_inflated(part) for part in re.findall(rb"stream\r?\n(.*?)endstream", data, re.S))


def pages_of(data: bytes) -> int:
    """Return the number of pages that the PDF holds."""
    return len(re.findall(rb"/Type\s*/Page\b", plain(data)))


def _inflated(data: bytes) -> bytes:
    try:
        return zlib.decompress(data)
    except zlib.error:
        return b""


def test_page_count_is_front_two_setups_measure_and_templates() -> None:
    """The small plan has 1 front page, 2 pages a setup, 1 measuring page and 1 page of two templates."""
    assert pages_of(pdf.setups_pdf(html_of())) == 7


def test_equal_bytes_on_two_runs(monkeypatch: pytest.MonkeyPatch) -> None:
    """The clock does not show, and the variable that stops it is put back."""
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    html = html_of()
    first = pdf.setups_pdf(html)
    monkeypatch.setenv("TZ", "Asia/Tokyo")
    assert pdf.setups_pdf(html) == first
    assert "SOURCE_DATE_EPOCH" not in os.environ


def test_equal_bytes_in_another_process() -> None:
    """Another process with another hash seed writes the same PDF."""
    code = (
        "import sys,hashlib;from tests.papers.test_pdf import html_of;from setupsheet.papers import pdf;"
        "sys.stdout.write(hashlib.sha256(pdf.setups_pdf(html_of())).hexdigest())"
    )
    runs = [
        subprocess.run(
            [sys.executable, "-c", code], env={**os.environ, "PYTHONHASHSEED": seed}, capture_output=True, check=True
        ).stdout
        for seed in ("1", "2")
    ]
    assert runs[0] == runs[1]


@pytest.mark.parametrize("count", [3, 24, 120])
def test_no_text_outside_of_the_paper(count: int) -> None:
    """With few and with many holes all texts lie inside of the margins."""
    assert pdf.texts_outside(html_of(grid(count))) == []


@pytest.mark.parametrize("text", HOSTILE, ids=range(len(HOSTILE)))
def test_hostile_text_stays_on_the_paper(text: str) -> None:
    """A name without a blank, markup or signs of another script break the line and stay inside of the margins."""
    made = plan()
    first = made.setups[0]
    step = replace(first.steps[0], title=text, words=(text,), cautions=(text,))
    spoiled = replace(first, mark=text, cautions=(text,), before_cutting=(text,), steps=(step, *first.steps[1:]))
    tools = (replace(made.tools[0], label=text),)
    bad = replace(made, part=text, material=text, notes=(text,), tools=tools, setups=(spoiled, made.setups[1]))
    assert pdf.texts_outside(page_html(sheets(bad, views()))) == []


def test_a_text_that_is_too_wide_is_found() -> None:
    """The check itself works: a line that cannot break sticks out."""
    assert pdf.texts_outside("<style>@page{size:60mm 60mm}</style><p style='white-space:nowrap'>" + "wide " * 60) != []


def test_no_scaling_is_asked_for() -> None:
    """The print dialogue is told not to scale."""
    assert b"/PrintScaling /None" in plain(pdf.setups_pdf(html_of()))


def test_nothing_but_data_is_fetched(caplog: pytest.LogCaptureFixture) -> None:
    """An address in the HTML is refused, not fetched."""
    pdf.setups_pdf("<img src='http://127.0.0.1:9/x.png'><p>a</p>")
    assert any("127.0.0.1" in record.getMessage() for record in caplog.records)


def test_drawing_sheets_have_their_size() -> None:
    """Each sheet is a page of its own size in points (1 mm is 72/25.4 points)."""
    picture = '<svg xmlns="http://www.w3.org/2000/svg" width="{0}mm" height="{1}mm" viewBox="0 0 {0} {1}"></svg>'
    sizes = [(420.0, 297.0), (210.0, 297.0)]
    data = pdf.drawing_pdf([picture.format(*size) for size in sizes], sizes)
    found = re.findall(rb"/MediaBox\s*\[([^\]]+)\]", plain(data))
    boxes = [tuple(float(value) for value in box.split()) for box in found]
    assert [(round(b[2] * 25.4 / 72, 2), round(b[3] * 25.4 / 72, 2)) for b in boxes] == sizes


READINGS = ("X 16 + .045", "Y 16 + .045", "Y 32 + .055", "X -12.500", "22 + .000")


def test_readings_amid_a_sentence_are_never_broken() -> None:
    """Whatever the width of a column, from little over one reading to three, each reading stands whole on one line."""
    said = "passes at {}; {}; {}; {}, and that is {}".format(*READINGS)
    columns = "".join(f'<div style="width:{22 + step / 4}mm;font-size:10pt">{said}</div>' for step in range(200))
    lines = subprocess.run(
        [tool("pdftotext", "poppler-utils"), "-raw", "-", "-"],
        input=pdf.setups_pdf(f'<html><body style="overflow-wrap:anywhere">{columns}</body></html>'),
        capture_output=True,
        check=True,
    ).stdout.decode()
    assert "\u2060" not in lines
    plain = lines.replace("\u00a0", " ").splitlines()
    whole = {reading: sum(line.count(reading) for line in plain) for reading in READINGS}
    assert whole == dict.fromkeys(READINGS, 200)


def test_edges_are_never_broken_on_a_page_of_their_own() -> None:
    """Three rows fit a page, the fourth does not: the third goes over with it, as the templates' style says."""
    style = (Path(pdf.__file__).parent / "templates" / "sheet.css").read_text(encoding="utf-8")
    rows = "".join(f'<li style="height:30mm">row{number}</li>' for number in range(1, 5))
    text = f'<style>{style} @page {{size:100mm 100mm;margin:0}}</style><ol class="steps">{rows}</ol>'
    found = subprocess.run(
        [tool("pdftotext", "poppler-utils"), "-raw", "-", "-"],
        input=pdf.setups_pdf(f"<html><body>{text}</body></html>"),
        capture_output=True,
        check=True,
    ).stdout.decode()
    assert [page.split() for page in found.split("\f") if page.strip()] == [["row1", "row2"], ["row3", "row4"]]
