"""Cutting speeds and the choice of a spindle speed."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setupsheet.tables import loader, material, speeds
from setupsheet.tables.speeds import Spindle, pick, start
from setupsheet.tables.unknown import NotInTables

GROUPS = material.groups()
STEPS = Spindle((100, 200, 350, 600, 1000, 1800), stepless=False)
SPINDLES = st.lists(st.integers(20, 5000), min_size=1, max_size=9, unique=True).map(
    lambda steps: Spindle(tuple(sorted(steps)), stepless=False)
)


@pytest.mark.parametrize("group", GROUPS)
@pytest.mark.parametrize("operation", speeds.operations())
@pytest.mark.parametrize("tool", ["hss", "carbide"])
def test_the_start_lies_inside_its_range(group: str, operation: str, tool: str) -> None:
    """Every group, operation and cutter material has a start value inside its range, with a source."""
    found = start(group, operation, tool)
    assert 0 < found.low_m_min <= found.start_m_min <= found.high_m_min
    assert found.source
    assert found.status


def test_every_group_of_materials_has_speeds() -> None:
    """The groups of the materials and of the speeds are the same."""
    assert set(GROUPS) == {row["group"] for row in loader.rows("speeds")}


def test_reaming_and_countersinking_are_slower_than_drilling() -> None:
    """Half the drilling speed for reamers (US War Department TM 1-420); countersinks at most 0.6 of it."""
    for group in GROUPS:
        drill = start(group, "drill")
        assert start(group, "ream").start_m_min == pytest.approx(drill.start_m_min / 2, rel=0.04)
        assert start(group, "countersink").start_m_min <= 0.6 * drill.start_m_min


def test_a_carbide_tap_gets_the_figure_of_hss_and_says_so() -> None:
    """Nothing is made up where the table is silent."""
    assert start("aluminium", "tap", "carbide").start_m_min == start("aluminium", "tap").start_m_min
    assert "that of HSS" in start("aluminium", "tap", "carbide").status


@given(diameter=st.floats(0.5, 60), most=st.integers(150, 4000), stepless=st.booleans())
def test_never_above_what_the_holder_bears(diameter: float, most: int, stepless: bool) -> None:
    """With a limit the speed stays below it; without need of it nothing changes."""
    ends = Spindle((100, 200, 350, 600, 1000, 1800), stepless)
    speed = start("aluminium", "drill")
    free, held = (pick(speed, diameter, "drill", ends._replace(most_rpm=limit)) for limit in (0, most))
    assert held.rpm <= most
    assert held.held_back == (free.rpm > most)
    assert held.rpm == free.rpm or held.held_back


@given(st.sampled_from(GROUPS), st.sampled_from(speeds.operations()), st.floats(0.5, 100), SPINDLES)
def test_the_machine_has_the_speed_and_it_is_never_too_fast_unsaid(
    group: str, operation: str, diameter: float, spindle: Spindle
) -> None:
    """One of the machine's steps; at or below the ideal where asked; above the printed range only if flagged."""
    speed = start(group, operation)
    found = pick(speed, diameter, operation, spindle)
    assert found.rpm in spindle.speeds_rpm
    rule = next(row for row in loader.rows("speed_rules") if row["operation"] == operation)
    careful = rule["not_above_ideal"] == "yes" or diameter > 10
    top = found.ideal_rpm if careful else speeds.rpm(speed.high_m_min, diameter)
    assert found.too_fast == (found.rpm > top * (1 + 1e-9))
    if found.too_fast:
        assert found.rpm == min(spindle.speeds_rpm)


@pytest.mark.parametrize("operation", ["ream", "tap", "countersink", "counterbore", "bore"])
def test_careful_work_is_never_above_the_ideal(operation: str) -> None:
    """Even a small cutter of these takes the step below."""
    found = pick(start("aluminium", operation), 5, operation, Spindle((10, 100000), stepless=False))
    assert found.rpm == 10


def test_a_small_drill_may_take_the_step_above_inside_the_range() -> None:
    """A 6 mm drill in aluminium: ideal 3236, range to 4851; 3400 is nearer than 2000, 5000 is outside."""
    speed = start("aluminium", "drill")
    assert pick(speed, 6, "drill", Spindle((2000, 3400), stepless=False)).rpm == 3400
    assert pick(speed, 6, "drill", Spindle((2000, 5000), stepless=False)).rpm == 2000
    assert pick(speed, 10.5, "drill", Spindle((1000, 1900), stepless=False)).rpm == 1000


def test_when_no_speed_is_low_enough_the_lowest_is_flagged() -> None:
    """A 60 mm cutter in tool steel wants 81 rpm: 15.2 m/min over pi 60 mm."""
    found = pick(start("tool steel (annealed)", "mill"), 60, "mill", STEPS)
    assert (found.rpm, found.too_fast) == (100, True)
    assert speeds.spindle_rpm(start("tool steel (annealed)", "mill"), 60, "mill", STEPS) == 100


@given(st.floats(0.5, 100), st.sampled_from(GROUPS))
def test_a_stepless_spindle_stays_within_its_ends(diameter: float, group: str) -> None:
    """Rounded down to two figures, so never above the ideal but for the lowest speed."""
    found = pick(start(group, "mill"), diameter, "mill", Spindle((100, 3000)))
    assert 100 <= found.rpm <= 3000
    assert found.rpm <= found.ideal_rpm or found.rpm == 100
    free = pick(start(group, "mill"), diameter, "mill", speeds.ANY_SPINDLE)
    assert 0.9 * free.ideal_rpm < free.rpm <= free.ideal_rpm


@given(st.floats(1, 500), st.floats(0.5, 200))
def test_speed_and_rpm_are_inverse(speed: float, diameter: float) -> None:
    """From m/min to rpm and back."""
    assert speeds.cutting_speed_m_min(speeds.rpm(speed, diameter), diameter) == pytest.approx(speed)


@pytest.mark.parametrize(
    ("group", "operation", "tool", "near"),
    [
        ("aluminum", "drill", "hss", "aluminium"),
        ("aluminium", "drilling", "hss", "drill"),
        ("aluminium", "drill", "HS", "hss"),
    ],
)
def test_unknown_words_offer_the_nearest(group: str, operation: str, tool: str, near: str) -> None:
    """One thing that exists."""
    with pytest.raises(NotInTables) as caught:
        start(group, operation, tool)
    assert caught.value.nearest == near


@pytest.mark.parametrize("diameter", [0.0, -1.0, math.nan, math.inf])
def test_a_cutter_needs_a_diameter(diameter: float) -> None:
    """No diameter, no speed."""
    with pytest.raises(NotInTables, match="diameter"):
        pick(start("aluminium", "drill"), diameter, "drill", STEPS)
