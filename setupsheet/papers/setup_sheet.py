"""What stands on the setup papers, page by page, as records: made from the plan and the bodies' outlines.

The templates turn these records into HTML and compute nothing. Every printed value is a ``Said`` that
carries its place in plan.json; numbers without a place are counts of pages, setups and steps.
"""

from __future__ import annotations

from dataclasses import dataclass

from setupsheet.papers.front_page import FrontPage, front_page
from setupsheet.papers.layout_page import LayoutPage, layout_pages, shared
from setupsheet.papers.measure_page import MeasurePage, measure_page
from setupsheet.papers.setup_page import SetupPage, setup_page
from setupsheet.papers.views import Views
from setupsheet.plan.record import Plan

_HASH_SHOWN = 12
"""Digits of the spec's hash at the foot of a page: enough to tell two specs apart."""


@dataclass(frozen=True, slots=True)
class Sheets:
    """All pages. ``foot`` is printed at the foot of each page before its number; ``key`` names the ticks."""

    foot: str
    key: str
    revision_key: str
    front: FrontPage
    setups: tuple[SetupPage, ...]
    measure: MeasurePage
    layouts: tuple[LayoutPage, ...]


def sheets(plan: Plan, views: Views) -> Sheets:
    """Return the pages of a plan; ``views`` has one entry a setup."""
    numbered = list(enumerate(views.setups))
    return Sheets(
        foot=f"{_cut(plan.part, 60)}   {_cut(plan.number, 24)} rev {_cut(plan.revision, 8)}   "
        f"spec {plan.spec_sha256[:_HASH_SHOWN]}",
        key=f"{plan.number}/{plan.revision}",
        revision_key=plan.spec_sha256[:_HASH_SHOWN],
        front=front_page(plan, views),
        setups=tuple(setup_page(plan, index, seen) for index, seen in numbered),
        measure=measure_page(plan),
        layouts=shared(page for index, seen in numbered for page in layout_pages(plan, index, seen)),
    )


def _cut(text: str, most: int) -> str:
    """Return a text that is no longer than ``most`` signs, for the one line at the foot."""
    return text if len(text) <= most else f"{text[: most - 1]}…"
