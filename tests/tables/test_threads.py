"""Threads by designation, special threads by the formulae."""

from __future__ import annotations

import pytest

from setupsheet.tables import loader, tapping, threads
from setupsheet.tables.unknown import NotInTables


def test_every_listed_thread_is_found_by_its_name() -> None:
    """A designation finds its own row."""
    for row in loader.rows("threads"):
        assert threads.find(row["designation"]).designation == row["designation"]


@pytest.mark.parametrize(
    ("text", "designation"),
    [
        ("M8x1.25", "M8"),
        ("M8 × 1", "M8x1"),
        ("M5-6H", "M5"),
        ("#10-32 UNF", "10-32 UNF"),
        ("no. 10-32", "10-32 UNF"),
        ("1/4-20", "1/4-20 UNC"),
        ("1/4 UNC", "1/4-20 UNC"),
        ("1/4-20 UNC 2B", "1/4-20 UNC"),
        ("1/4 BSPP", "G1/4"),
        ("G 1/4", "G1/4"),
        ("1/4 NPT", "1/4-18 NPT"),
        ("6 BA", "6BA"),
        ("1/4 BSW", "1/4-20 BSW"),
        ("1/4x40 ME", "1/4-40 ME"),
    ],
)
def test_ways_to_write_a_thread(text: str, designation: str) -> None:
    """People write one thread in several ways."""
    assert threads.find(text).designation == designation


@pytest.mark.parametrize(
    ("text", "near"),
    [("M5.5", "M5, M6, M5.5x0.5"), ("12BA", "10BA"), ("G3/4", "G1/2"), ("11-32 UNF", "10-32"), ("M5x4", "M5")],
)
def test_what_is_no_thread_says_what_is(text: str, near: str) -> None:
    """A thread that no table holds names the nearest ones."""
    with pytest.raises(NotInTables) as fault:
        threads.find(text)
    assert near in fault.value.nearest


def test_special_threads_follow_the_standard_ones() -> None:
    """The formulae give the listed limits of UNC, UNF and UNEF from 1/4 in up to print's three decimals."""
    for row in loader.rows("threads"):
        if row["tolerance_class"] == "2B" and float(row["major_mm"]) >= 6.35:
            thread = threads.special(float(row["major_mm"]), float(row["pitch_mm"]), "x UNS")
            lower, upper = threads.minor_limits_mm(thread)
            assert lower == pytest.approx(float(row["minor_lower_mm"]), abs=0.0005 * 25.4)
            assert upper == pytest.approx(float(row["minor_upper_mm"]), abs=0.0011 * 25.4)


def test_special_metric_threads_have_the_pitch_s_tolerance() -> None:
    """M13x1 has the minor tolerance of pitch 1, 236 µm (ISO 965-1: M6 4.917 to 5.153 in S12)."""
    lower, upper = threads.minor_limits_mm(threads.find("M13x1"))
    assert upper - lower == pytest.approx(0.236)


def test_5_16_27_uns() -> None:
    """5/16-27: major 7.9375, pitch 25.4/27, minor D - 1.0825 P."""
    thread = threads.find("5/16-27 UNS")
    assert (thread.major_mm, thread.pitch_mm) == pytest.approx((7.9375, 25.4 / 27))
    assert thread.minor_basic_mm == pytest.approx(7.9375 - 1.082532 * 25.4 / 27, abs=1e-4)


def test_every_tap_drill_lies_inside_the_minor_limits() -> None:
    """No thread is given a drill that leaves its minor diameter outside the class."""
    for row in loader.rows("threads"):
        thread = threads.find(row["designation"])
        lower, upper = threads.minor_limits_mm(thread)
        for drill in tapping.tap_drills(thread, "mild steel"):
            assert lower - 0.001 <= drill.diameter_mm <= upper + 0.001, (thread.designation, drill)


def test_tough_material_asks_for_no_more_thread_than_soft() -> None:
    """Stainless steel is never given a thinner drill than aluminium."""
    for row in loader.rows("threads"):
        thread = threads.find(row["designation"])
        soft, tough = (tapping.tap_drill(thread, group)[0] for group in ("aluminium", "stainless (austenitic)"))
        assert tough >= soft - 1e-9, thread.designation


def test_materials_by_their_words() -> None:
    """Stainless is not taken for steel, and plastics go by their own names."""
    assert tapping.practice("stainless (austenitic)").material == "stainless"
    assert tapping.practice("mild steel").material == "steel"
    assert tapping.practice("tool steel (annealed)").material == "tool steel"
    assert tapping.practice("free-machining brass").material == "brass"
    assert tapping.practice("acetal").material == "plastic"
    assert tapping.practice("unobtainium").material == "general"
