"""Pages of real parts: numbers have places, the PDF says the same, texts stand apart, no page is nearly empty."""

from __future__ import annotations

import functools
import itertools
import re
import subprocess
from dataclasses import dataclass
from pathlib import Path

import pytest

from setupsheet.drawing.boxes import Rect, overlap, rect
from setupsheet.drawing.ink import Text
from setupsheet.drawing.signs import box as text_box
from setupsheet.papers.plan_view import plan_view
from setupsheet.papers.setup_page import standing
from setupsheet.plan.record import as_json
from tests.papers.reading_html import page, shown_at
from tests.papers.real import EVERY, SAMPLE, pages, printed_file, tool
from tests.papers.test_html import COUNTS
from tests.plan.planned import DEMOS

MOST = {
    "worm-bracket": 10,
    "drive-cover": 8,
    "hinge-block": 12,
    "motor-plate": 7,
    "indicator-foot": 11,
    "drill-fence": 9,
    "drill-press-only": 5,
    "dials-turned-over": 7,
    "ring-of-many": 5,
    "table-of-many": 6,
    "plate-of-two-sheets": 5,
}
"""So many pages at most for each part that is printed here: front, setups, measuring, templates."""

_FOOT_SHARE = 0.93
"""Below this share of a page's height stands its foot."""
_LEAST_SHARE = 0.1
"""A page whose ink ends above this share of its height is nearly empty."""
_PT = 72 / 25.4
_SHEET_MM, _MARGIN_MM = (210.0, 279.4), 10.0
"""The part of the sheet that A4 (210 x 297) and US Letter (215.9 x 279.4) both have, and the margin on it."""
_WORD = re.compile(r'<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">([^<]*)</word>')
_CAPITALS = (0.35, 0.25)
"""Share of a word's box above its capitals and below its base line."""


@dataclass(frozen=True, slots=True)
class Word:
    """A word of a printed page, with the box of its letters in mm from the upper left corner of the sheet."""

    text: str
    box: Rect


@functools.cache
def words(name: str, folder: Path) -> list[list[Word]]:
    """Return the words of each page of a part's PDF."""
    command = [tool("pdftotext", "poppler-utils"), "-bbox", str(printed_file(name, folder)), "-"]
    made = subprocess.run(command, capture_output=True, check=True).stdout.decode()
    return [[_word(found) for found in _WORD.finditer(part)] for part in made.split("<page ")[1:]]


def _word(found: re.Match[str]) -> Word:
    x0, y0, x1, y1 = (float(found[i]) / _PT for i in range(1, 5))
    wide, high = x1 - x0, y1 - y0
    if high > 0.8 * wide:  # a reading that runs upwards, or a sign or two
        return Word(found[5], rect(x0 + 0.3 * wide, y0 + 0.2 * high, x1 - 0.3 * wide, y1 - 0.2 * high))
    return Word(found[5], rect(x0 + 0.1, y0 + _CAPITALS[0] * high, x1 - 0.1, y1 - _CAPITALS[1] * high))


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return one folder for the PDFs of this file."""
    return tmp_path_factory.mktemp("printed")


@pytest.mark.parametrize("name", EVERY)
def test_every_value_stands_in_the_plan_as_it_is_printed(name: str) -> None:
    """Each pointer on the pages resolves in plan.json, to the text beside it."""
    document = as_json(pages(name).plan)
    found = page(pages(name).html).values
    assert len(found) > 60
    assert [(pointer, text) for pointer, text in found if shown_at(document, pointer) != text] == []


@pytest.mark.parametrize("name", EVERY)
def test_numbers_without_a_place_are_counts(name: str) -> None:
    """A digit outside of a value stands only in a count or in a note."""
    loose = page(pages(name).html).loose
    assert [(text, where) for text, where in loose if re.search(r"\d", text) and not COUNTS & set(where)] == []


@pytest.mark.parametrize("name", EVERY)
def test_labels_of_plan_views_stand_apart_and_inside(name: str) -> None:
    """No text of a plan view lies on another, and none is cut."""
    made = pages(name)
    for index, seen in enumerate(made.views.setups):
        group = plan_view(made.plan, index, seen, standing(made.plan, index, seen)[1])
        boxes = [(item.text, _upright(item)) for item in group.items if isinstance(item, Text)]
        pairs = itertools.combinations(boxes, 2)
        assert [(a, b) for (a, one), (b, other) in pairs if overlap(one, other)] == []
        (x0, y0), (x1, y1) = group.box
        assert [t for t, ((a, b), (c, d)) in boxes if a < x0 or b < y0 or c > x1 or d > y1] == []


@pytest.mark.parametrize("name", DEMOS)
def test_doubts_about_sources_stand_low(name: str) -> None:
    """What was not seen in print is told at the end of the front page, not among what to watch at the machine."""
    html = pages(name).html
    low = html.index('id="tried-title"')
    said = [found.start() for found in re.finditer("from memory, not seen in print", html)]
    assert said
    assert min(said) > low


def _upright(text: Text) -> Rect:
    corners = text_box(text)
    xs, ys = [c[0] for c in corners], [c[1] for c in corners]
    return rect(min(xs), min(ys), max(xs), max(ys))


PRINTED = pytest.mark.parametrize("name", [*DEMOS, *SAMPLE])


@PRINTED
def test_pdf_says_the_same_numbers(name: str, folder: Path) -> None:
    """Every value with a digit on the HTML page is found in the PDF's text."""
    file = printed_file(name, folder)
    made = subprocess.run([tool("pdftotext", "poppler-utils"), "-raw", str(file), "-"], capture_output=True, check=True)
    said = "".join(made.stdout.decode().split())
    values = {"".join(text.split()) for _, text in page(pages(name).html).values if re.search(r"\d", text)}
    assert len(values) > 30
    assert sorted(value for value in values if value not in said) == []


@PRINTED
def test_pages_are_counted_and_stay_few(name: str, folder: Path) -> None:
    """Each page says which of how many it is, and no part takes more pages than it did."""
    told = [" ".join(word.text for word in one[-4:]) for one in words(name, folder)]
    assert told == [f"page {i} of {len(told)}" for i in range(1, len(told) + 1)]
    assert len(told) <= MOST[name]


@PRINTED
def test_no_text_outside_of_both_papers(name: str, folder: Path) -> None:
    """All words lie inside of the margins of the sheet that A4 and US Letter share: printed at 100 %, none is cut."""
    low, (wide, high) = _MARGIN_MM - 0.1, _SHEET_MM
    out = [
        (number, word.text)
        for number, one in enumerate(words(name, folder), 1)
        for word in one
        if not (low <= word.box[0][0] and word.box[1][0] <= wide - low and low <= word.box[0][1])
        or word.box[1][1] > high - low
    ]
    assert out == []


@PRINTED
def test_no_word_lies_on_another(name: str, folder: Path) -> None:
    """The boxes of the letters on every page stand apart, as the PDF places them."""
    assert [pair for one in words(name, folder) for pair in _crossing(one)] == []


def _crossing(one: list[Word]) -> list[tuple[str, str]]:
    found = []
    one = [word for word in one if any(sign.isalnum() for sign in word.text)]
    ordered = sorted(one, key=lambda word: word.box[0][1])
    for i, word in enumerate(ordered):
        for other in itertools.takewhile(lambda o, y=word.box[1][1]: o.box[0][1] < y, ordered[i + 1 :]):  # type: ignore[misc]
            if overlap(word.box, other.box):
                found.append((word.text, other.text))
    return found


@PRINTED
def test_no_page_is_nearly_empty(name: str, folder: Path, tmp_path: Path) -> None:
    """A page that holds a line or two is paper that gets lost."""
    command = [tool("pdftoppm", "poppler-utils"), "-r", "40", "-gray", str(printed_file(name, folder))]
    subprocess.run([*command, str(tmp_path / "page")], check=True)
    ends = [_ink_end(image.read_bytes()) for image in sorted(tmp_path.glob("page*.pgm"))]
    assert [share for share in ends if share < _LEAST_SHARE] == []


def _ink_end(image: bytes) -> float:
    """Return how far down a page's ink reaches, the foot left out, as a share of the height."""
    head, _, grey = image.partition(b"\n255\n")
    wide, high = (int(number) for number in head.split()[1:3])
    rows = [row for row in range(int(high * _FOOT_SHARE)) if min(grey[row * wide : (row + 1) * wide]) < 128]
    return max(rows, default=0) / high
