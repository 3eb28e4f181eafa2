"""The hole tables are sound: sources, units, ranges, and nothing that was rejected."""

from __future__ import annotations

import re

import pytest

from setupsheet.tables import loader

TABLES = (
    "centre_drills",
    "clearance_holes",
    "counterbores",
    "countersinks",
    "dowel_holes",
    "dowel_pins",
    "drill_points",
    "drills",
    "hole_practice",
    "pointed_cutters",
    "process_holds",
    "reamer_limits",
    "reamer_limits_inch",
    "reamer_sizes",
    "reaming_stock",
    "tap_drills",
    "tap_leads",
    "thread_forms",
    "thread_practice",
    "thread_tolerance_6h",
    "thread_tolerance_formulas",
    "threads",
)
RANGES = (("process_holds", ("process",)), ("reamer_limits", ("hole_class",)), ("reaming_stock", ("material",)))


@pytest.mark.parametrize("name", TABLES)
def test_every_row_has_source_and_status(name: str) -> None:
    """Each row says where it comes from and how far it is trusted; rejected rows are not there."""
    for row in loader.rows(name):
        assert row["source"]
        assert row["status"]
        assert "REJECT" not in row["status"]


@pytest.mark.parametrize(("name", "by"), RANGES)
def test_ranges_have_no_gap_and_no_overlap(name: str, by: tuple[str, ...]) -> None:
    """Sizes follow each other in every group."""
    assert loader.ranges(name, by)


def test_source_numbers_are_all_explained() -> None:
    """Every S-number in a source or a check stands in hole_sources."""
    known = {row["id"] for row in loader.rows("hole_sources")}
    for name in TABLES:
        for row in loader.rows(name):
            text = row["source"] + " " + row.get("checked_against", "")
            assert set(re.findall(r"\bS\d\d\b", text)) <= known


def test_limits_do_not_cross() -> None:
    """Lower limits lie below upper ones in every table that has both."""
    for name, low, high in (
        ("threads", "minor_lower_mm", "minor_upper_mm"),
        ("reamer_limits", "lower_um", "upper_um"),
        ("reamer_limits_inch", "lower_um", "upper_um"),
        ("process_holds", "lower_um", "upper_um"),
        ("dowel_pins", "pin_lower_mm", "pin_upper_mm"),
        ("dowel_pins", "hole_lower_mm", "hole_upper_mm"),
        ("reaming_stock", "least_mm", "most_mm"),
        ("thread_practice", "least_percent", "most_percent"),
    ):
        for row in loader.rows(name):
            assert float(row[low]) < float(row[high]), row
