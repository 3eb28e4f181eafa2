"""Inch fits printed in handbooks, typed in with their source beside each; thousandths of an inch."""

from __future__ import annotations

import pytest

from setupsheet.tables.inch_fits import inch_fit

MHB27 = "Machinery's Handbook 27th ed. p. 663, table 11 (ANSI B4.1-1967 R1999)"
MHB31A = "Machinery's Handbook 31st ed. table 8a (ANSI/ASME B4.1-1967)"
MHB31B = "Machinery's Handbook 31st ed. table 8b (ANSI/ASME B4.1-1967)"
COB = "engineering reference page, LC6 to LC11 (ANSI B4.1-1967 R1987)"

# size in inches, class, hole upper, shaft lower, shaft upper, least and greatest clearance, where printed
PRINTED: list[tuple[str, str, float, float, float, float, float, str]] = [
    ("0.1", "FN1", 0.25, 0.3, 0.5, -0.5, -0.05, MHB27),
    ("0.1", "FN2", 0.4, 0.6, 0.85, -0.85, -0.2, MHB27),
    ("0.1", "FN4", 0.4, 0.7, 0.95, -0.95, -0.3, MHB27),
    ("0.1", "FN5", 0.6, 0.9, 1.3, -1.3, -0.3, MHB27),
    ("0.2", "FN2", 0.5, 0.7, 1.0, -1.0, -0.2, MHB27),
    ("0.375", "FN1", 0.4, 0.5, 0.75, -0.75, -0.1, MHB27),
    ("1/2", "FN1", 0.4, 0.5, 0.8, -0.8, -0.1, MHB27),
    ("0.6", "FN1", 0.4, 0.6, 0.9, -0.9, -0.2, MHB27),
    ("0.75", "FN2", 0.8, 1.4, 1.9, -1.9, -0.6, MHB27),
    ("1.0", "FN3", 0.8, 1.6, 2.1, -2.1, -0.8, MHB27),
    ("1.0", "FN4", 0.8, 1.8, 2.3, -2.3, -1.0, MHB27),
    ("1-1/2", "FN2", 1.0, 1.8, 2.4, -2.4, -0.8, MHB27),
    ("1.75", "FN3", 1.0, 2.2, 2.8, -2.8, -1.2, MHB27),
    ("2.0", "FN5", 1.8, 5.0, 6.2, -6.2, -3.2, MHB27),
    ("3.0", "FN4", 1.2, 4.0, 4.7, -4.7, -2.8, MHB27),
    ("0.1", "RC1", 0.2, -0.25, -0.1, 0.1, 0.45, MHB31A),
    ("0.1", "RC2", 0.25, -0.3, -0.1, 0.1, 0.55, MHB31A),
    ("0.2", "RC1", 0.2, -0.3, -0.15, 0.15, 0.5, MHB31A),
    ("0.1", "RC4", 0.6, -0.7, -0.3, 0.3, 1.3, MHB31A),
    ("0.2", "RC4", 0.7, -0.9, -0.4, 0.4, 1.6, MHB31A),
    ("0.3", "RC4", 0.9, -1.1, -0.5, 0.5, 2.0, MHB31A),
    ("0.5", "RC4", 1.0, -1.3, -0.6, 0.6, 2.3, MHB31A),
    ("1.0000", "RC4", 1.2, -1.6, -0.8, 0.8, 2.8, MHB31A),
    ("1.5", "RC4", 1.6, -2.0, -1.0, 1.0, 3.6, MHB31A),
    ("2.5", "RC4", 1.8, -2.4, -1.2, 1.2, 4.2, MHB31A),
    ("4.0", "RC4", 2.2, -2.8, -1.4, 1.4, 5.0, MHB31A),
    ("0.2", "RC3", 0.5, -0.7, -0.4, 0.4, 1.2, MHB31A + "; one page prints 1.12"),
    ("1.0", "RC3", 0.8, -1.3, -0.8, 0.8, 2.1, MHB31A),
    ("0.1", "RC5", 0.6, -1.0, -0.6, 0.6, 1.6, MHB31B),
    ("0.2", "RC5", 0.7, -1.3, -0.8, 0.8, 2.0, MHB31B),
    ("0.1", "RC7", 1.0, -1.6, -1.0, 1.0, 2.6, MHB31B),
    ("0.2", "RC6", 1.2, -1.5, -0.8, 0.8, 2.7, MHB31B),
    ("0.2", "RC9", 3.0, -6.0, -4.5, 4.5, 9.0, MHB31B),
    ("0.2", "LC6", 1.2, -1.1, -0.4, 0.4, 2.3, COB),
    ("0.5", "LC6", 1.6, -1.6, -0.6, 0.6, 3.2, COB),
    ("0.3", "LC7", 2.2, -2.4, -1.0, 1.0, 4.6, COB),
    ("0.6", "LC8", 2.8, -3.6, -2.0, 2.0, 6.4, COB),
    ("0.6", "LC9", 4.0, -6.3, -3.5, 3.5, 10.3, COB),
    ("1.0", "LC10", 8, -15, -7, 7, 23, COB),
    ("0.3", "LC11", 9, -16, -7, 7, 25, COB),
]


@pytest.mark.parametrize("printed", PRINTED, ids=lambda row: f"{row[0]} {row[1]}")
def test_a_printed_inch_fit(printed: tuple[str, str, float, float, float, float, float, str]) -> None:
    """Hole from 0 to the printed limit, the shaft and the printed clearance or interference agree."""
    size, name, *values, source = printed
    found = inch_fit(f"{size} {name}")
    inches = [found.hole_upper_in, found.shaft_lower_in, found.shaft_upper_in]
    inches += [found.clearance_min_in, found.clearance_max_in]
    assert [round(value * 1000, 4) for value in inches] == values, source
    assert found.hole_lower_in == 0


def test_a_row_that_was_not_seen_in_print_says_so() -> None:
    """LC1 was put together from other tables; its status must not claim a print."""
    assert "not seen" in inch_fit("1.0 LC1").status
