"""Pages of real parts: numbers have places, the PDF says the same, labels stand apart, no page is nearly empty."""

from __future__ import annotations

import itertools
import re
import shutil
import subprocess
from pathlib import Path

import pytest

from setupsheet.drawing.boxes import Rect, overlap, rect
from setupsheet.drawing.ink import Text
from setupsheet.drawing.signs import box as text_box
from setupsheet.papers import pdf
from setupsheet.papers.plan_view import plan_view
from setupsheet.papers.setup_page import PLAN_ROOM
from setupsheet.plan.record import as_json
from tests.papers.reading_html import page, shown_at
from tests.papers.real import DEMOS, pages, printed
from tests.papers.test_html import COUNTS

NAMES = (*DEMOS, "hinge-block", "drill-press-only", "inch-dials", "levels-two", "pattern-grid")
COUNT = {"worm-bracket": 9, "indicator-foot": 11}
"""Pages of the demo parts: front, setups, measuring, templates."""

_FOOT_SHARE = 0.93
"""Below this share of a page's height stands its foot."""
_LEAST_SHARE = 0.1
"""A page whose ink ends above this share of its height is nearly empty."""


def tool(name: str) -> str:
    """Return a program of the PDF tools, or skip with its name."""
    found = shutil.which(name)
    if not found:
        pytest.skip(f"{name} is not installed here: Debian package poppler-utils")
    return found


@pytest.mark.parametrize("name", NAMES)
def test_every_value_stands_in_the_plan_as_it_is_printed(name: str) -> None:
    """Each pointer on the pages resolves in plan.json, to the text beside it."""
    document = as_json(pages(name).plan)
    found = page(pages(name).html).values
    assert len(found) > 100
    assert [(pointer, text) for pointer, text in found if shown_at(document, pointer) != text] == []


@pytest.mark.parametrize("name", NAMES)
def test_numbers_without_a_place_are_counts(name: str) -> None:
    """A digit outside of a value stands only in a count or in a note."""
    loose = page(pages(name).html).loose
    assert [(text, where) for text, where in loose if re.search(r"\d", text) and not COUNTS & set(where)] == []


@pytest.mark.parametrize("name", DEMOS)
def test_pdf_says_the_same_numbers(name: str, tmp_path: Path) -> None:
    """Every value with a digit on the HTML page is found in the PDF's text, at least as often."""
    file = tmp_path / "setups.pdf"
    file.write_bytes(printed(name))
    made = subprocess.run([tool("pdftotext"), "-raw", str(file), "-"], capture_output=True, check=True)
    said = "".join(made.stdout.decode().split())
    values = {"".join(text.split()) for _, text in page(pages(name).html).values if re.search(r"\d", text)}
    assert len(values) > 80
    assert sorted(value for value in values if value not in said) == []


@pytest.mark.parametrize("name", NAMES)
def test_no_text_outside_of_the_paper(name: str) -> None:
    """All texts lie inside of the margins."""
    assert pdf.texts_outside(pages(name).html) == []


@pytest.mark.parametrize("name", sorted(COUNT))
def test_page_count(name: str, tmp_path: Path) -> None:
    """The demo parts keep their number of pages."""
    assert len(ink_ends(name, tmp_path)) == COUNT[name]


@pytest.mark.parametrize("name", NAMES)
def test_no_page_is_nearly_empty(name: str, tmp_path: Path) -> None:
    """A page that holds a line or two is paper that gets lost."""
    assert [share for share in ink_ends(name, tmp_path) if share < _LEAST_SHARE] == []


def ink_ends(name: str, folder: Path) -> list[float]:
    """Return for each page how far down its ink reaches, the foot left out, as a share of the height."""
    file = folder / "setups.pdf"
    file.write_bytes(printed(name))
    subprocess.run([tool("pdftoppm"), "-r", "40", "-gray", str(file), str(folder / "page")], check=True)
    return [_ink_end(image.read_bytes()) for image in sorted(folder.glob("page*.pgm"))]


def _ink_end(image: bytes) -> float:
    head, _, grey = image.partition(b"\n255\n")
    wide, high = (int(number) for number in head.split()[1:3])
    rows = [row for row in range(int(high * _FOOT_SHARE)) if min(grey[row * wide : (row + 1) * wide]) < 128]
    return max(rows, default=0) / high


@pytest.mark.parametrize("name", NAMES)
def test_labels_of_plan_views_stand_apart_and_inside(name: str) -> None:
    """No text of a plan view lies on another, and none is cut."""
    made = pages(name)
    for index, seen in enumerate(made.views.setups):
        group = plan_view(made.plan, index, seen, PLAN_ROOM)
        boxes = [(item.text, _upright(item)) for item in group.items if isinstance(item, Text)]
        pairs = itertools.combinations(boxes, 2)
        assert [(a, b) for (a, one), (b, other) in pairs if overlap(one, other)] == []
        (x0, y0), (x1, y1) = group.box
        assert [t for t, ((a, b), (c, d)) in boxes if a < x0 or b < y0 or c > x1 or d > y1] == []


def _upright(text: Text) -> Rect:
    corners = text_box(text)
    xs, ys = [c[0] for c in corners], [c[1] for c in corners]
    return rect(min(xs), min(ys), max(xs), max(ys))
