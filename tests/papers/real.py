"""Pages of real parts: the plan, its pictures, the HTML and the PDF, each made once and shared with other tests."""

from __future__ import annotations

import functools
import shutil
from dataclasses import dataclass
from pathlib import Path

import pytest

from setupsheet.papers import bodies, html, pdf
from setupsheet.papers.setup_sheet import sheets
from setupsheet.papers.views import Views
from setupsheet.plan.record import Plan
from tests.plan.planned import DEMOS, SPECS, checked

EVERY = (*DEMOS, *SPECS)
SAMPLE = ("drill-press-only", "dials-turned-over", "ring-of-many", "table-of-many", "plate-of-two-sheets")
"""Parts of the corpus whose PDF is tried too: one of each way of work, long tables, a template in tiles."""


@dataclass(frozen=True, slots=True)
class Pages:
    """A plan and what was made of it."""

    plan: Plan
    views: Views
    html: str


@functools.cache
def pages(name: str) -> Pages:
    """Return the pages of a demo part or of a part of the corpus."""
    built = checked(name)
    assert built.planned is not None
    assert built.solids is not None
    assert built.part is not None
    seen = bodies.views(built.part, built.solids.nominal, built.planned)
    return Pages(built.planned.plan, seen, html.page_html(sheets(built.planned.plan, seen)))


@functools.cache
def printed(name: str) -> bytes:
    """Return the PDF of a part's pages."""
    return pdf.setups_pdf(pages(name).html)


def printed_file(name: str, folder: Path) -> Path:
    """Write the PDF of a part's pages into a folder and return its file."""
    file = folder / "setups.pdf"
    file.write_bytes(printed(name))
    return file


def tool(name: str, package: str) -> str:
    """Return a program, or skip with the name of its Debian package."""
    found = shutil.which(name)
    if not found:
        pytest.skip(f"{name} is not installed here: Debian package {package}")
    return found
