"""Speeds, feeds and depths: ones that the machine has and a hand can keep up."""

from __future__ import annotations

from dataclasses import replace

import pytest

from setupsheet.part.shop import BoringHead, Cutter
from setupsheet.plan.cutting import STEP_OVER, boring, hole_cut, milling
from tests.parts import block
from tests.plan.planned import bench, small_shop

MILL = Cutter("end mill", "end mill 12", 12.0, flutes=4)


def test_speed_is_one_that_the_machine_has() -> None:
    """Whatever the cutter, the rpm stands on the machine's own list."""
    clamped = bench(block())
    for diameter in (1.0, 4.5, 12.0, 40.0):
        assert milling(clamped, replace(MILL, diameter_mm=diameter), full_width=True).rpm in clamped.machine.speeds_rpm
        drill = Cutter("drill", "drill", diameter)
        assert hole_cut(clamped, drill, "drill", diameter).rpm in clamped.machine.speeds_rpm


def test_speed_is_under_the_table_s() -> None:
    """1000 v / (pi D) is the most for its surface speed: a drill of 11.7 turns slower than one of 4.5."""
    clamped = bench(block())
    small, large = (hole_cut(clamped, Cutter("drill", "d", d), "drill", d).rpm for d in (4.5, 11.7))
    assert (small, large) == (1800, 1000)


def test_feed_by_hand_is_at_most_a_turn_a_second() -> None:
    """2.5 mm a turn, one turn a second: 150 mm/min, told as seconds a turn."""
    cut = milling(bench(block()), MILL, full_width=True)
    assert cut.feed_mm_per_min == pytest.approx(150.0)
    assert (cut.feed_s_per_turn, cut.feed_shown) == (1.0, "1.0 s a turn")


def test_power_feed_is_told_in_mm_per_minute() -> None:
    """With a power feed the table's feed stands as it is."""
    shop = small_shop()
    fast = replace(shop, machines=(replace(shop.machines[0], power_feed=True),))
    cut = milling(bench(block(), None, fast), MILL, full_width=True)
    assert cut.feed_mm_per_min > 150
    assert cut.feed_shown.endswith(" mm/min")


def test_depth_and_width_of_a_pass() -> None:
    """0.7 of the diameter wide; depths in whole tenths of a millimetre."""
    cut = milling(bench(block()), MILL, full_width=True)
    assert cut.width_mm == pytest.approx(STEP_OVER * 12)
    assert cut.depth_mm == pytest.approx(round(cut.depth_mm, 1))
    assert milling(bench(block()), MILL, full_width=False).depth_mm > cut.depth_mm


@pytest.mark.parametrize(
    ("kind", "operation", "diameter", "rpm", "words"),
    [
        ("drill", "drill", 4.0, 1000, "at most for the chuck"),
        ("reamer", "ream", 12.0, 600, ""),
        ("boring head", "bore", 20.0, 350, "at most for the boring head"),
    ],
)
def test_never_faster_than_what_holds_the_cutter(
    kind: str, operation: str, diameter: float, rpm: int, words: str
) -> None:
    """A chuck for 1500 and a head for 400 rpm: the step below them, and it is said where that decides."""
    shop = small_shop()
    assert shop.boring_head is not None
    slow = replace(shop, chuck_rpm=1500, boring_head=replace(shop.boring_head, max_rpm=400))
    cut = hole_cut(bench(block(), None, slow), Cutter(kind, kind, diameter), operation, diameter)
    assert (cut.rpm, cut.rpm_words) == (rpm, words)


def test_a_boring_head_that_is_to_get_turns_no_faster_than_a_head_may() -> None:
    """A small bore asks for 1800 rpm; a shop without a head gets the step below what any head bears, never that."""
    none = replace(small_shop(), boring_head=None)
    cut = hole_cut(bench(block(), None, none), Cutter("boring head", "boring head", 9.5, owned=False), "bore", 9.5)
    assert (cut.rpm, cut.rpm_words) == (350, "at most for the boring head")


def test_an_end_mill_sits_in_a_collet() -> None:
    """The chuck's limit is none for an end mill."""
    slow = replace(small_shop(), chuck_rpm=350)
    assert milling(bench(block(), None, slow), replace(MILL, diameter_mm=4.0), full_width=True).rpm == 1800


def test_a_tap_has_no_speed() -> None:
    """A tap is turned by hand."""
    cut = hole_cut(bench(block()), Cutter("tap", "tap M5", 5.0), "tap", 5.0)
    assert (cut.rpm, cut.rpm_words) == (0, "by hand")


@pytest.mark.parametrize(("most", "rpm"), [(400, 350), (200, 200), (150, 100)])
def test_boring_head_keeps_under_its_own_limit(most: int, rpm: int) -> None:
    """The head's limit counts before the table's speed."""
    head = BoringHead("head", 10.0, 40.0, 10.0, 60.0, 40.0, "diameter", 0.02, True, most)
    assert boring(bench(block()), head, 25.0).rpm == rpm
