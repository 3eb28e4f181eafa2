"""The few cautions that belong on a page, chosen by its work."""

from __future__ import annotations

from setupsheet.plan import cautions
from setupsheet.plan.draft import step
from setupsheet.tables import loader

TABLE = {row["text"]: row["when"] for row in loader.rows("cautions")}


def _when(operation: str, method: str, *, overhang: bool = False) -> set[str]:
    return {TABLE[text] for text in cautions.for_steps([step(operation, "", (), method=method)], overhang=overhang)}


def test_front_page_has_the_ones_for_everybody() -> None:
    """Glasses, stopping, keys and the shop's own rules, and nothing else."""
    assert {TABLE[text] for text in cautions.for_everybody()} == {"always"}
    assert len(cautions.for_everybody()) >= 3


def test_chosen_by_the_work() -> None:
    """Milling brings its own, drilling its own, a pilot counts as drilling, a boring head is told of."""
    assert _when("mill", "table") == _when("face", "table") == {"mill", "mill in jaws"}
    assert _when("drill", "quill") == _when("pilot", "quill") == {"drill"}
    assert "ream" in _when("ream", "quill")
    assert "boring_head" in _when("bore", "boring_head")


def test_overhang_only_where_something_hangs_out() -> None:
    """The light-cut warning stands only on the page of a part that hangs out past the jaws."""
    assert "overhang" in _when("mill", "table", overhang=True)
    assert "overhang" not in _when("mill", "table")
