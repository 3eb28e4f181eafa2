"""Read a page as a strict reader would: values with their pointers, loose texts, everything that could fetch."""

from __future__ import annotations

from dataclasses import dataclass, field
from html.parser import HTMLParser
from typing import Any

VOID = {"meta", "link", "img", "br", "input", "hr", "path", "use", "base", "source", "track", "embed", "area", "col"}


@dataclass(slots=True)
class Page(HTMLParser):
    """What was found: (pointer, text) pairs, loose texts with the classes around them, and all attributes."""

    values: list[tuple[str, str]] = field(default_factory=list)
    loose: list[tuple[str, tuple[str, ...]]] = field(default_factory=list)
    attributes: list[tuple[str, str, str]] = field(default_factory=list)
    open: list[tuple[str, str, str]] = field(default_factory=list)
    tags: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        """Start the parser."""
        HTMLParser.__init__(self, convert_charrefs=True)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Keep the tag, its attributes and where it stands."""
        found = {name: value or "" for name, value in attrs}
        self.tags.append(tag)
        self.attributes += [(tag, name, value) for name, value in found.items()]
        pointer = found.get("value", "") if tag == "data" else found.get("data-path", "")
        if tag not in VOID:
            self.open.append((tag, found.get("class", ""), pointer))
            if pointer:
                self.values.append((pointer, ""))

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Keep an empty element's attributes."""
        self.tags.append(tag)
        self.attributes += [(tag, name, value or "") for name, value in attrs]

    def handle_endtag(self, tag: str) -> None:
        """Close the nearest element of this name."""
        while self.open and self.open.pop()[0] != tag:
            pass

    def handle_data(self, data: str) -> None:
        """Give the text to the value around it, or keep it as a loose text."""
        around = next((i for i in range(len(self.open) - 1, -1, -1) if self.open[i][2]), None)
        if around is not None:
            pointer, text = self.values[-1]
            self.values[-1] = (pointer, text + data)
        elif data.strip():
            self.loose.append((data, tuple(part for tag, kind, _ in self.open for part in (tag, *kind.split()))))


def page(html: str) -> Page:
    """Return what stands on the pages."""
    found = Page()
    found.feed(html)
    return found


def resolve(document: Any, pointer: str) -> tuple[Any, Any]:
    """Return the value at a JSON pointer and the object that holds it; KeyError or IndexError if there is none."""
    holder, value = None, document
    for part in pointer.removeprefix("/").split("/"):
        key = part.replace("~1", "/").replace("~0", "~")
        holder, value = value, value[int(key)] if isinstance(value, list) else value[key]
    return value, holder


def shown_at(document: Any, pointer: str) -> str:
    """Return the text that the plan shows for a pointer (papers/said.py says the rule)."""
    value, holder = resolve(document, pointer)
    if isinstance(value, str):
        return value
    beside = holder.get("shown") if isinstance(holder, dict) else None
    if isinstance(beside, dict) and pointer.rsplit("/", 1)[1] in beside:
        return str(beside[pointer.rsplit("/", 1)[1]])
    assert isinstance(value, int), f"{pointer} is a bare number without a shown text"
    return str(value)
