"""Texts of sizes and hole callouts."""

from __future__ import annotations

from dataclasses import replace

import pytest

from setupsheet.drawing.signs import COUNTERBORE, COUNTERSINK, DEPTH, DIAMETER
from setupsheet.drawing.words import hole_lines, words_of
from setupsheet.length import Unit
from setupsheet.part.feature import Counterbore, Countersink, HoleChamfer, Size
from setupsheet.part.part import Written
from tests.drawing import parts

ISO = words_of(parts.part(()))
INCH = words_of(parts.part((), standard="asme", unit=Unit.INCH))


def test_a_fit_prints_its_class_and_its_deviations() -> None:
    """12 H7 is 12 +0.018/0 (ISO 286-2)."""
    assert ISO.size(parts.fit_size(12.0, 0.018)) == "12 H7 (+0.018/0)"


def test_limits_print_as_written() -> None:
    """Equal deviations become one ±, unequal ones stand upper over lower (ISO 129-1)."""
    assert ISO.size(parts.size(34.0, "34 ±0.05", "limits", -0.05, 0.05)) == "34 ±0.05"
    assert ISO.size(parts.size(24.0, "24 -0.05/-0.15", "limits", -0.15, -0.05)) == "24 -0.05/-0.15"


@pytest.mark.parametrize(("written", "text"), [("0.500", ".500"), ("0.50", ".50"), ("1/2", "1/2"), ("1/2 in", "1/2")])
def test_inch_decimals_are_those_written(written: str, text: str) -> None:
    """The number of decimals is a tolerance statement (ASME practice), so it is never changed."""
    assert INCH.size(Size(12.7, 12.6, 12.8, written, "general")) == text


def test_operations_stand_in_their_order() -> None:
    """Hole, counterbore, countersink, one line each, count first (ASME Y14.5; ISO 15786 order of sizes)."""
    hole = replace(
        parts.plain_hole("S1", (10.0, 10.0), 5.5, 15.0),
        counterbore=Counterbore(parts.size(10.0), 5.4, "for M5"),
        countersink=Countersink(parts.size(11.0), 90.0, ""),
    )
    assert hole_lines(hole, ISO) == (
        f"{DIAMETER}5.5 through",
        f"{COUNTERBORE} {DIAMETER}10 {DEPTH}5.4",
        f"{COUNTERSINK} {DIAMETER}11 × 90°",
    )


def test_a_ring_says_count_and_pitch_circle() -> None:
    """Six holes say six times, and their circle."""
    assert hole_lines(parts.ring("r", (40.0, 30.0), 42.0, 6, 15.0), ISO) == (
        f"6× {DIAMETER}4.5 through",
        f"equally spaced on {DIAMETER}42 PCD",
    )


def test_a_blind_thread_gives_both_depths() -> None:
    """Full thread and drill depth stand, no drill size (ISO 6410-1: a blind thread gives both depths)."""
    assert hole_lines(parts.tapped("T1", (10.0, 10.0), 15.0, 8.0), ISO) == (f"M5 {DEPTH}8 / {DEPTH}10",)


def test_like_chamfers_share_a_line() -> None:
    """Both ends alike: one line."""
    rims = tuple(HoleChamfer(6.0, 90.0, end, "") for end in ("mouth", "exit"))
    hole = replace(parts.plain_hole("P1", (10.0, 10.0), 5.0, 15.0), chamfers=rims)
    assert hole_lines(hole, ISO)[1] == f"{COUNTERSINK} {DIAMETER}6 × 90° both ends"


def test_inch_lengths_keep_the_decimals_that_were_written() -> None:
    """.30 stays .30 and 1/4 stays 1/4, each in its own feature; what nobody wrote has three decimals."""
    mm = 25.4
    written = (
        Written("a", 0.3 * mm, "0.30"),
        Written("b", 0.3 * mm, "0.300"),
        Written("b", 0.25 * mm, "1/4"),
        Written("", 2.0 * mm, "2.00"),
    )
    plain = parts.everything()
    inch = replace(
        plain,
        unit=Unit.INCH,
        written=written,
        drawing=replace(plain.drawing, standard="asme"),
        tolerance=replace(plain.tolerance, standard="by places", by_places_mm={2: 0.254, 3: 0.127, -1: 0.4}),
    )
    words = words_of(inch)
    assert (words.of("a").length(0.3 * mm), words.of("b").length(0.3 * mm)) == (".30", ".300")
    assert words.of("b").length(0.25 * mm) == "1/4"
    assert (words.of("a").length(2.0 * mm), words.of("a").length(0.7 * mm)) == ("2.00", ".700")
    assert words.of("a").signed(-0.3 * mm) == "-.30"
