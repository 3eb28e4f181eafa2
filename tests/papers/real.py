"""Pages of real parts: the plan, its pictures, the HTML and the PDF, each made once."""

from __future__ import annotations

import functools
from dataclasses import dataclass
from pathlib import Path

from setupsheet.papers import bodies, html, pdf
from setupsheet.papers.setup_sheet import sheets
from setupsheet.papers.views import Views
from setupsheet.plan.make import make_plan, prove
from setupsheet.plan.record import Plan
from setupsheet.solid.solids import make_solids
from setupsheet.spec.reader import read_part

PROJECT = Path(__file__).resolve().parents[2]
DEMOS = ("worm-bracket", "indicator-foot")


@dataclass(frozen=True, slots=True)
class Pages:
    """A plan and what was made of it."""

    plan: Plan
    views: Views
    html: str


@functools.cache
def pages(name: str) -> Pages:
    """Return the pages of a demo part or of a part of the corpus."""
    path = next(
        p for p in (PROJECT / "specs" / f"{name}.yaml", PROJECT / "tests" / "corpus" / f"{name}.yaml") if p.exists()
    )
    part, shop, _ = read_part(path)
    assert part is not None
    assert shop is not None
    solids, _ = make_solids(part)
    planned = prove(make_plan(part, shop, solids), solids)
    seen = bodies.views(planned.plan, solids.nominal, planned.bodies)
    return Pages(planned.plan, seen, html.page_html(sheets(planned.plan, seen)))


@functools.cache
def printed(name: str) -> bytes:
    """Return the PDF of a part's pages."""
    return pdf.setups_pdf(pages(name).html)
