"""The browser page in a real browser: tablet and phone, touch, network off, strict policy, with and without script."""

from __future__ import annotations

import itertools
import json
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from setupsheet.drawing import lettering
from setupsheet.papers.html import page_html
from setupsheet.papers.setup_sheet import sheets
from tests.papers.browser import Browser, program
from tests.papers.real import pages
from tests.papers.small_plan import plan, views
from tests.plan.planned import DEMOS

TABLET, PHONE = (820, 1180), (390, 844)
SIZES = pytest.mark.parametrize("size", [TABLET, PHONE], ids=["tablet", "phone"])
TARGET_PX = 56
CURRENT = "document.querySelector('.bench .main')"
NEXT = "document.querySelector('.card .bar .main')"
TICKED = "document.querySelectorAll('li.step.ticked').length"
_BOXES = """Array.from(document.querySelectorAll(%r)).map(node => {
  const b = node.getBoundingClientRect(); return [node.textContent, b.left, b.top, b.right, b.bottom]; })"""
_LETTERS = """Array.from(document.querySelectorAll(%r)).map(node => {
  const b = node.getBBox(), y = +node.getAttribute('y'), cap = +node.getAttribute('font-size') / %f;
  const at = (x, y) => new DOMPoint(x, y).matrixTransform(node.getScreenCTM());
  const p = at(b.x, y - cap), q = at(b.x + b.width, y);
  return [node.textContent, Math.min(p.x, q.x), Math.min(p.y, q.y), Math.max(p.x, q.x), Math.max(p.y, q.y)]; })"""
"""Boxes of a text from its base line to the height of its capitals, in px of the window."""

pytestmark = pytest.mark.skipif(not program(), reason="chromium is not installed here: Debian package chromium")


@pytest.fixture(scope="module")
def browser(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    """Give one browser to all tests of this file."""
    with Browser(tmp_path_factory.mktemp("profile")) as made:
        yield made


@pytest.fixture
def page(tmp_path: Path) -> Path:
    """Return the file of the small plan's pages."""
    return written(tmp_path / "setups.html", page_html(sheets(plan(), views())))


def written(file: Path, html: str) -> Path:
    """Write a page and return its file."""
    file.write_text(html, encoding="utf-8")
    return file


def fresh(browser: Browser, page: Path, size: tuple[int, int]) -> None:
    """Open a page with nothing kept from before."""
    browser.open(page, size)
    browser.ask("localStorage.clear()")
    browser.open(page, size)
    browser.complaints.clear()


def button(text: str, inside: str = ".bench") -> str:
    """Return the expression that finds a button by its text."""
    return f"Array.from(document.querySelectorAll('{inside} button')).find(b => b.textContent === {text!r})"


def state(browser: Browser) -> dict[str, Any]:
    """Return what the page keeps."""
    found: dict[str, Any] = json.loads(browser.ask("localStorage.getItem('setupsheet/P-1/A')") or "{}")
    return found


@SIZES
def test_page_opens_without_a_complaint(browser: Browser, page: Path, size: tuple[int, int]) -> None:
    """No error, nothing that the policy refuses, no request, no sideways scrolling."""
    browser.complaints.clear()
    browser.open(page, size)
    assert browser.complaints == []
    assert browser.ask("document.documentElement.scrollWidth") <= size[0]


@SIZES
def test_step_by_step_with_a_finger(browser: Browser, page: Path, size: tuple[int, int]) -> None:
    """One large step at a time; done goes on; what was done is ticked on the pages and kept."""
    fresh(browser, page, size)
    browser.tap(CURRENT)
    first = browser.ask("document.querySelector('.card h2').textContent")
    browser.tap(NEXT)
    second = browser.ask("document.querySelector('.card h2').textContent")
    assert (first, second) == ("face all", "level")
    assert browser.ask(TICKED) == 1
    browser.open(page, size)
    assert browser.ask(TICKED) == 1
    assert state(browser)["at"] == "s1-2"
    assert browser.complaints == []


@SIZES
def test_undo_takes_back_one_thing_at_a_time(browser: Browser, page: Path, size: tuple[int, int]) -> None:
    """Two ticks, two undos; a third has nothing to take back and says so."""
    fresh(browser, page, size)
    for _ in range(2):
        browser.ask("document.querySelectorAll('button.tick[aria-pressed=false]')[0].click()")
    assert len(state(browser)["ticks"]) == 2
    browser.tap(button("Undo"))
    assert len(state(browser)["ticks"]) == 1
    browser.tap(button("Undo"))
    browser.tap(button("Undo"))
    assert state(browser)["ticks"] == {}
    assert "Nothing" in browser.ask("document.querySelector('.told').textContent")


def test_sizes_are_kept_saved_and_loaded(browser: Browser, page: Path, tmp_path: Path) -> None:
    """A measured size and a tick go into a small file and come back from it; another part's file is refused."""
    fresh(browser, page, TABLET)
    browser.tell("Page.setDownloadBehavior", behavior="allow", downloadPath=str(tmp_path))
    browser.ask(
        "(() => { const i = document.querySelector('td.blank input'); i.value = '<2.01>';"
        " i.dispatchEvent(new Event('change')); })()"
    )
    browser.tap("document.querySelector('li.step button.tick')")
    browser.tap(button("Save ticks"))
    file = tmp_path / "P-1-A-ticks.json"
    browser.ask("new Promise(done => setTimeout(() => done(0), 500))")
    saved = json.loads(file.read_text("utf-8"))
    assert saved["sizes"] == {"m1": "<2.01>"}
    assert saved["ticks"] == {"s1-1.0": True}
    assert len(file.read_bytes()) < 1000
    fresh(browser, page, TABLET)
    browser.give_file("input[type=file]", file)
    assert browser.ask("document.querySelector('td.blank input').value") == "<2.01>"
    assert browser.ask(TICKED) == 1
    other = written(tmp_path / "other.json", json.dumps({**saved, "part": "P-2/A", "ticks": {}}))
    browser.give_file("input[type=file]", other)
    assert browser.ask(TICKED) == 1
    assert "another part" in browser.ask("document.querySelector('.told').textContent")


@pytest.mark.parametrize("text", ["", "nonsense", "[]", '{"format": 1, "part": "P-1/A", "ticks": [], "sizes": null}'])
def test_a_bad_file_is_refused_in_words(browser: Browser, page: Path, tmp_path: Path, text: str) -> None:
    """A file that cannot be read changes nothing and raises nothing."""
    fresh(browser, page, TABLET)
    browser.tap("document.querySelector('li.step button.tick')")
    browser.give_file("input[type=file]", written(tmp_path / "bad.json", text))
    assert browser.ask(TICKED) == 1
    assert "nothing was loaded" in browser.ask("document.querySelector('.told').textContent")
    assert browser.complaints == []


def test_another_revision_has_its_own_ticks(browser: Browser, page: Path, tmp_path: Path) -> None:
    """Revision B starts without the ticks of revision A, and A keeps them."""
    fresh(browser, page, TABLET)
    browser.tap("document.querySelector('li.step button.tick')")
    later = written(tmp_path / "b.html", page_html(sheets(replace(plan(), revision="B"), views())))
    browser.open(later, TABLET)
    assert browser.ask(TICKED) == 0
    browser.open(page, TABLET)
    assert browser.ask(TICKED) == 1


@SIZES
@pytest.mark.parametrize("card", [False, True], ids=["pages", "step"])
def test_targets_are_large_enough(browser: Browser, page: Path, size: tuple[int, int], card: bool) -> None:
    """Every button, link and field that shows is at least 56 px wide and high, and none lies on another."""
    fresh(browser, page, size)
    if card:
        browser.tap(CURRENT)
    kinds = ".card button" if card else "nav a, nav button, main button, main input, ol.order a"
    boxes = browser.ask(_BOXES % kinds)
    small = [b for b in boxes if 0 < b[3] - b[1] < TARGET_PX - 0.5 or 0 < b[4] - b[2] < TARGET_PX - 0.5]
    assert boxes
    assert small == []
    assert crossing(boxes) == []


def crossing(boxes: list[list[Any]], by: float = 1.0) -> list[tuple[str, str]]:
    """Return the pairs of texts whose boxes lie on each other by more than ``by`` px in both ways."""
    return [
        (a[0], b[0])
        for a, b in itertools.combinations(boxes, 2)
        if min(a[3], b[3]) - max(a[1], b[1]) > by and min(a[4], b[4]) - max(a[2], b[2]) > by
    ]


@pytest.mark.parametrize("name", DEMOS)
def test_no_label_lies_on_another_in_the_browser(browser: Browser, tmp_path: Path, name: str) -> None:
    """In every plan view the letters' boxes stand apart, as the browser measures and turns them."""
    browser.open(written(tmp_path / "setups.html", pages(name).html), TABLET)
    for number in range(1, len(pages(name).plan.setups) + 1):
        boxes = browser.ask(_LETTERS % (f"#setup-{number} figure.plan svg text", lettering.EM_PER_CAP))
        assert len(boxes) > 8
        assert crossing(boxes) == []


@SIZES
@pytest.mark.parametrize("name", DEMOS)
def test_no_text_sticks_out_of_the_window(browser: Browser, tmp_path: Path, name: str, size: tuple[int, int]) -> None:
    """Nothing of a real part's page lies beside the window; the templates at full size may scroll."""
    browser.open(written(tmp_path / "setups.html", pages(name).html), size)
    assert browser.ask("document.documentElement.scrollWidth") <= size[0]
    narrow = browser.ask(_BOXES % ".turn > p, .beside li, .first li")
    assert [b for b in narrow if b[3] - b[1] < 110] == []  # no column so narrow that words fall apart
    out = browser.ask(_BOXES % "section.page:not(.layout) data")
    assert [b for b in out if b[3] > size[0] + 1 or b[1] < -1] == []


def test_complete_without_script(browser: Browser, page: Path) -> None:
    """Without script every value is there, boxes to tick are empty squares, and no dead button is shown."""
    browser.open(page, TABLET, script=False)
    tree = browser.tell("DOM.getDocument", depth=-1)["root"]
    names: list[str] = []

    def walk(node: dict[str, Any]) -> None:
        names.append(str(node["nodeName"]))
        for child in node.get("children", ()):
            walk(child)

    walk(tree)
    assert "BUTTON" not in names
    assert names.count("DATA") > 150
    assert names.count("SPAN") > 20


def test_keys_do_what_fingers_do(browser: Browser, page: Path) -> None:
    """Tab reaches every control in order with a visible ring; Enter ticks; arrows and Escape work in the large step."""
    fresh(browser, page, TABLET)
    browser.press("Tab")
    assert browser.ask("document.activeElement.textContent") == "front page"
    ring = browser.ask("getComputedStyle(document.activeElement).outlineStyle")
    assert ring == "solid"
    browser.ask("document.querySelector('li.step button.tick').focus()")
    browser.press("Enter")
    assert browser.ask(TICKED) == 1
    browser.ask(f"{CURRENT}.focus()")
    browser.press("Enter")
    assert browser.ask("document.querySelector('.card').hidden") is False
    browser.press("ArrowRight")
    assert browser.ask("document.querySelector('.card h2').textContent") == "level"
    browser.press("Escape")
    assert browser.ask("document.querySelector('.card').hidden") is True


def test_a_reader_that_hears_the_page_finds_its_way(browser: Browser, page: Path) -> None:
    """Controls have names, tables have headers, headings do not skip a level, text is black on white."""
    fresh(browser, page, TABLET)
    nameless = (
        "Array.from(document.querySelectorAll('button, input, a')).filter(n => !n.hidden &&"
        " !(n.textContent.trim() || n.getAttribute('aria-label'))).length"
    )
    assert browser.ask(nameless) == 0
    assert browser.ask("Array.from(document.querySelectorAll('table')).filter(t => !t.querySelector('th')).length") == 0
    levels = browser.ask("Array.from(document.querySelectorAll('main h1, main h2, main h3')).map(h => +h.tagName[1])")
    assert levels[0] == 1
    assert all(after - before <= 1 for before, after in itertools.pairwise(levels))
    colours = browser.ask(
        "[...new Set(Array.from(document.querySelectorAll('main *')).map(n => getComputedStyle(n).color))]"
    )
    assert colours == ["rgb(0, 0, 0)"]
