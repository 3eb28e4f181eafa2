"""The list of worked examples E01 to E58: where each is tested, the last ones here, and which are not ours and why.

A print that is wrong stands as a trap: the right value must come out, and the printed one must not.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest

from setupsheet.length import Unit
from setupsheet.part.shop import Axis
from setupsheet.plan.blank import stock_plan
from setupsheet.plan.milling.boss import head_settings
from setupsheet.plan.shown import Scale
from setupsheet.tables import drills, speeds, threads
from tests import house
from tests.parts import block
from tests.plan.planned import read

IN = 25.4

TESTED = {
    "tests/plan/holes/test_rings.py": ("E01", "E02", "E03", "E04", "E05", "E06", "E07", "E08", "E09", "E10"),
    "tests/plan/milling/test_angle_setting.py": ("E12", "E13", "E14", "E15", "E16", "E55"),
    "tests/published/test_speeds_and_feeds.py": (
        *("E20", "E21", "E22", "E23", "E24", "E25", "E26", "E27", "E28", "E29", "E30", "E31", "E32", "E33", "E35"),
    ),
    "tests/plan/holes/test_drilling.py": ("E39", "E40"),
    "tests/plan/test_shown.py": ("E50",),
    "tests/plan/setup/test_zero.py": ("E52",),
    "tests/plan/milling/test_passes.py": ("E53",),
    "tests/plan/test_blank.py": ("E58",),
    "tests/published/test_worked_examples.py": ("E34", "E36", "E37", "E38", "E49", "E51", "E57"),
}
"""Module -> the examples that it tests."""

NOT_OURS = {
    "E11": "polar form of a hole's place: no sheet prints one",
    "E17": "size over pins in two V grooves: no feature of a part is a V groove",
    "E18": "height over a pin on a sine bar to a face: measured at the plate, and printed nowhere",
    "E19": "a fixed gauge pin for a true position: positions are measured from edges and over pins",
    "E41": "dividing head: no machine of a shop file has one",
    "E42": "dividing head",
    "E43": "dividing head",
    "E44": "dividing head",
    "E45": "dividing head",
    "E46": "dividing head (a wrong print)",
    "E47": "handle turns of a rotary table: its angles are printed in degrees, as its scale reads",
    "E48": "handle turns of a rotary table (a muddled print)",
    "E54": "a hole tilted in two planes: a setup is turned about one axis",
    "E56": "reading a micrometer (a wrong print): no sheet prints sleeve and thimble",
}
"""Examples of things that the program does not work out."""


def test_every_example_has_its_place() -> None:
    """E01 to E58 are each tested in one named module, or named as not ours; none is both."""
    told = [name for names in TESTED.values() for name in names]
    assert sorted([*told, *NOT_OURS]) == [f"E{k:02d}" for k in range(1, 59)]


@pytest.mark.parametrize("module", TESTED)
def test_the_module_names_them(module: str) -> None:
    """The module named for an example speaks of it."""
    text = (house.PROJECT / module).read_text(encoding="utf-8").replace('"E34", "E36"', "")
    assert [name for name in TESTED[module] if name not in text] == []


@pytest.mark.parametrize(
    ("diameter_in", "factor", "printed"), [(0.25, 2.0, 2800), (0.375, 0.5, 465), (1.0, 1.0, 350)], ids=str
)
def test_rule_of_700(diameter_in: float, factor: float, printed: int) -> None:
    """E34: 700 rev/min for 1/2 in in steel, scaled by size and material; it is 91.6 ft/min whatever the diameter.

    Open machine-shop tutorials (MIT licence, snapshot 2025-08-12), docs/drill_press/speeds_feeds_fluids.md.
    """
    speed = speeds.cutting_speed_m_min(700, 0.5 * IN)
    assert speed / 0.3048 == pytest.approx(91.6, abs=0.1)
    assert speeds.rpm(speed * factor, diameter_in * IN) == pytest.approx(printed, abs=2)


def test_tap_drill_is_major_less_pitch() -> None:
    """E36: 1/4-20 is 0.250 - 1/20 = 0.200, and No. 7 is taken, which is 0.2010.

    Open vertical-mill textbook (CC BY-SA 4.0, snapshot 2025-08-14), docs/14_tapping_threads.md.
    """
    thread = threads.find("1/4-20 UNC")
    assert (thread.major_mm - thread.pitch_mm) / IN == pytest.approx(0.200, abs=1e-6)
    assert drills.find("no. 7").diameter_mm / IN == pytest.approx(0.2010, abs=1e-6)


def test_share_of_thread() -> None:
    """E37: 75 % of 1/4-20 asks for 0.201 (homemadetools.net, note on tap drill size); major less pitch is 77 %."""
    thread = threads.find("1/4-20 UNC")
    assert threads.percent(thread, 0.20129 * IN) == pytest.approx(75.0, abs=0.1)
    assert threads.percent(thread, 0.200 * IN) == pytest.approx(76.98, abs=0.05)


def test_tap_drill_of_m10() -> None:
    """E38: M10 x 1.5 is drilled 8.5 (ask.okorder.com, answer on tapping hole sizes); its 9.27 is for forming taps."""
    thread = threads.find("M10")
    assert thread.major_mm - thread.pitch_mm == pytest.approx(8.5)
    low, high = threads.minor_limits_mm(thread)
    assert low <= 8.5 <= high < 9.27


def test_turns_and_a_rest() -> None:
    """E49: 0.0218 in at 0.00625 a turn is 3 turns and 0.00305, never the 3.488 turns of a calculator.

    Practical Treatise on Milling and Milling Machines (public domain), p. 184.
    """
    axis = Axis("dial", 0.00005 * IN, 0.00625 * IN, 1, "inch")
    scale = Scale(axis)
    assert scale.text(scale.settle(0.0218 * IN)) == "3 + .00305"


def test_weight_of_a_slab() -> None:
    """E57: iron of 1.05 m x 70 cm x 1.5 cm at 8 g/cm3 weighs 88.2 kg (esaral.com, school problem 19061)."""
    part = replace(block(high=(1048.0, 698.0, 13.0), over=1.0), density_kg_m3=8000.0, unit=Unit.MM)
    assert stock_plan(part, ()).mass_kg == pytest.approx(88.2)


def test_a_turn_of_a_boring_head() -> None:
    """E51: a screw of pitch 0.5 moves the tool by 0.5 and the diameter by 1.0 a turn.

    homemodelenginemachinist.com, boring head build thread. Trap: some heads' dials read the diameter (a maker's page).
    """
    head = read("boss-with-head")[1].boring_head
    assert head is not None
    for reads, per_turn in (("radius", 1.0), ("diameter", 0.5)):
        told = replace(head, dial_reads=reads, division_mm=0.5)
        settings = head_settings(31.0, 24.0, told)
        assert {round(a - b, 6) % per_turn for a, b in pairwise(settings)} == {0.0}
        assert settings[-1] == 24.0
    assert any(round(a - b, 6) % 1.0 for a, b in pairwise(settings))
