"""HTML to PDF, for the setup pages and for drawing sheets at true scale.

The only file that imports the HTML-to-PDF library (and the PDF library under it).

Nothing is fetched: the only addresses served are ``data:``. SOURCE_DATE_EPOCH is set while writing, since
the embedded font subset would hold the time otherwise.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import Any

from setupsheet.papers.arcs import split_arcs

_EPOCH = "0"
_POINTER = re.compile(r'<data value="[^"<>]*">|</data>')
_WHOLE = re.compile(r'<span class="whole">([^<]*)</span>')
_BOLD = re.compile(" <b>(?=[A-Za-z])")
_DIAL = re.compile(r"(?<=\d) \+ \.(?=\d)")
_AXIS = re.compile(r"(?<![\w.])([XYZ]) (?=[-+]?\d)")
_NEAR_PX = 0.5
"""Rounding of the layout."""


def setups_pdf(html: str) -> bytes:
    """Return the PDF of the setup pages; equal HTML gives equal bytes on one machine.

    The pointers into plan.json are for readers of the HTML: without them there are a thousand boxes fewer to lay out.
    """
    return _write(_for_paper(html))


def _for_paper(html: str) -> str:
    """Return pages without pointers, and with lines that the PDF writer breaks where a reader would.

    Where a bold word or a reading does not fit on a line, the writer breaks the text before it at its *first* blank.
    So readings are held together by blanks that do not break, and the blank before a bold word stands in it. Axis and
    dial readings amid a sentence are held together too: "32 +" at the end of a line reads as another number. Between a
    point without a figure before it and its figures the writer would break too: a word joiner stands there.
    """
    bare = _AXIS.sub("\\1\u00a0", _DIAL.sub("\u00a0+\u00a0.\u2060", _POINTER.sub("", html)))
    held = _WHOLE.sub(lambda found: found[1].replace(" ", "\u00a0"), bare)
    return _BOLD.sub("<b> ", held)


def drawing_pdf(sheets_svg: Sequence[str], sizes: Sequence[tuple[float, float]], style: str = "") -> bytes:
    """Return a PDF with one page a sheet at true scale; ``sizes`` in mm, ``style`` holds the font faces."""
    rules = [
        f"@page s{i}{{size:{wide:.4f}mm {high:.4f}mm;margin:0}}"
        f".s{i}{{page:s{i};width:{wide:.4f}mm;height:{high:.4f}mm}}"
        for i, (wide, high) in enumerate(sizes)
    ]
    pages = "".join(f'<div class="s{i}">{sheet}</div>' for i, sheet in enumerate(sheets_svg))
    plain = "html,body{margin:0;padding:0}svg{display:block}div{overflow:hidden}div+div{break-before:page}"
    return _write(
        f"<!DOCTYPE html><html><head><style>{style}{plain}{''.join(rules)}</style></head><body>{pages}</body></html>"
    )


def _write(html: str) -> bytes:
    with _fixed_time():
        data: bytes = _laid_out(html).write_pdf(finisher=_print_unscaled)
    return data


def _laid_out(html: str) -> Any:
    """Return the pages with everything in its place."""
    from weasyprint import HTML  # noqa: PLC0415 - 0.3 s, only where a PDF is written
    from weasyprint.urls import URLFetcher  # noqa: PLC0415

    return HTML(string=split_arcs(html), url_fetcher=URLFetcher(allowed_protocols={"data"})).render()


def _print_unscaled(_document: Any, pdf: Any) -> None:
    """Ask the reader's print dialogue for no scaling: templates and drawings are at full size."""
    import pydyf  # noqa: PLC0415 - loaded by now

    pdf.catalog["ViewerPreferences"] = pydyf.Dictionary({"PrintScaling": "/None"})


@contextmanager
def _fixed_time() -> Iterator[None]:
    before = os.environ.get("SOURCE_DATE_EPOCH")
    os.environ["SOURCE_DATE_EPOCH"] = _EPOCH
    try:
        yield
    finally:
        if before is None:
            del os.environ["SOURCE_DATE_EPOCH"]
        else:
            os.environ["SOURCE_DATE_EPOCH"] = before


def texts_outside(html: str) -> list[str]:
    """Return the texts that stick out of their page's content area, with the page: what a printer would cut."""
    pages = _laid_out(_for_paper(html)).pages
    return [f"page {number}: {text}" for number, page in enumerate(pages, 1) for text in _outside(page)]


def _outside(page: Any) -> list[str]:
    area = page._page_box
    left, right = area.content_box_x(), area.content_box_x() + area.width
    bottom = area.content_box_y() + area.height
    flow = [child for child in area.children if type(child).__name__ != "MarginBox"]
    texts = [one for child in flow for one in child.descendants() if type(one).__name__ == "TextBox"]
    return [
        one.text
        for one in texts
        if one.position_x < left - _NEAR_PX
        or one.position_x + one.width > right + _NEAR_PX
        or one.position_y + one.height > bottom + _NEAR_PX
    ]
