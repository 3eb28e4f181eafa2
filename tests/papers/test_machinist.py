"""The questions of a machinist who has only the pages: each answer stands where machinist.md says."""

from __future__ import annotations

from dataclasses import dataclass, field
from html.parser import HTMLParser
from pathlib import Path

import pytest

from tests.papers.reading_html import VOID
from tests.papers.real import pages

QUESTIONS = [
    tuple(cell.strip() for cell in line.strip().strip("|").split("|"))
    for line in Path(__file__).with_name("machinist.md").read_text(encoding="utf-8").splitlines()
    if line.startswith("| ") and not line.startswith(("| part", "| ---"))
]


@dataclass(slots=True)
class Parts(HTMLParser):
    """The texts of a page by where they stand: (page, name of a section or class of a box)."""

    texts: dict[tuple[str, str], list[str]] = field(default_factory=dict)
    open: list[tuple[str, str, tuple[str, ...]]] = field(default_factory=list)

    def __post_init__(self) -> None:
        """Start the parser."""
        HTMLParser.__init__(self, convert_charrefs=True)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Keep the names of an element."""
        found = {name: value or "" for name, value in attrs}
        kinds = tuple(found.get("class", "").split())
        page = found.get("id", "") if tag == "section" and "page" in kinds else ""
        label = found.get("aria-labelledby", "").removeprefix(f"{self.page()}-")
        if tag not in VOID:
            self.open.append((tag, page, (*kinds, label)))

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Pass over an empty element."""

    def handle_endtag(self, tag: str) -> None:
        """Close the nearest element of this name."""
        while self.open and self.open.pop()[0] != tag:
            pass

    def handle_data(self, data: str) -> None:
        """Give a text to everything that is around it."""
        for name in {name for _, _, names in self.open for name in names if name}:
            self.texts.setdefault((self.page(), name), []).append(data)

    def page(self) -> str:
        """Return the page that is open."""
        return next((page for _, page, _ in self.open if page), "")


def said(part: str, page: str, where: str) -> str:
    """Return the text of one part of a page, with single blanks."""
    found = Parts()
    found.feed(pages(part).html)
    return " ".join(" ".join(found.texts.get((page, where), [])).split())


@pytest.mark.parametrize("question", QUESTIONS, ids=[f"{row[0]}, {row[1]}: {row[2]}" for row in QUESTIONS])
def test_answer_stands_where_the_document_says(question: tuple[str, ...]) -> None:
    """The words of the answer are on the page, in the part of it that is named."""
    part, page, _, where, answer = question
    assert answer in said(part, page, where)


def test_every_page_has_its_questions() -> None:
    """Front page, every setup of the bracket, measuring page and template are asked about."""
    asked = {row[1] for row in QUESTIONS if row[0] == "worm-bracket"}
    setups = {f"setup-{setup.number}" for setup in pages("worm-bracket").plan.setups}
    assert {"front", "measure", "template-1-1", *setups} <= asked
