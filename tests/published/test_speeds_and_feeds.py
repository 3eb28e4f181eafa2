"""Worked examples printed in textbooks, courses and tool makers' pages; two wrong prints serve as traps.

E numbers are those of the project's list of worked examples. Prints differ in pi (3.14) and round to a
whole rev/min, so the tolerance stands beside each.
"""

from __future__ import annotations

import pytest

from setupsheet.tables import feeds
from setupsheet.tables.speeds import cutting_speed_m_min, rpm, start

FT = 0.3048
IN = 25.4


@pytest.mark.parametrize(
    ("surface_ft_min", "diameter_in", "printed", "tolerance", "source"),
    [
        (50, 1.5, 127, 1, "E20 mechanical engineering problem 1, milling"),
        (80, 0.5, 611, 1, "E21 article on HSS drill speeds"),
        (80, 0.375, 815, 1, "E22 recomputed; the article's 813 is wrong by 2"),
        (450, 0.375, 4584, 1, "E29 milling tool catalogue, p. 451"),
        (250, 1, 955, 1, "E31 university teaching-lab sheet, before its factor 0.6"),
        (55, 0.25, 841, 1, "E35 tapping speed chart (pi = 3.14)"),
        (55, 0.375, 561, 1, "E35 tapping speed chart (pi = 3.14)"),
        (55, 0.5, 420, 1, "E35 tapping speed chart (pi = 3.14)"),
    ],
)
def test_rpm_in_inches(
    surface_ft_min: float, diameter_in: float, printed: float, tolerance: float, source: str
) -> None:
    """The spindle speed agrees within the print's rounding."""
    assert rpm(surface_ft_min * FT, diameter_in * IN) == pytest.approx(printed, abs=tolerance), source


def test_the_wrong_print_is_not_met() -> None:
    """E22: 813 rev/min is printed for 80 sfm and 3/8 in; the formula gives 815."""
    assert abs(rpm(80 * FT, 0.375 * IN) - 813) > 1


@pytest.mark.parametrize(
    ("speed_m_min", "diameter_mm", "printed", "tolerance", "source"),
    [
        (80, 250, 101.91, 0.1, "E26 tool maker's technical page, milling power (pi = 3.14)"),
        (50, 15, 1061, 0.1, "E28 drill maker's formula page"),
        (25, 12.7, 626.6, 0.1, "E33 student answer to a textbook problem"),
        (14.13, 30, 150, 0.1, "E32 Fundamentals of Machining, p. 189"),
    ],
)
def test_rpm_in_millimetres(
    speed_m_min: float, diameter_mm: float, printed: float, tolerance: float, source: str
) -> None:
    """The spindle speed agrees within the print's rounding."""
    assert rpm(speed_m_min, diameter_mm) == pytest.approx(printed, abs=tolerance), source


@pytest.mark.parametrize(
    ("diameter_mm", "spindle_rpm", "printed", "source"),
    [
        (125, 350, 137.4, "E23 tool maker's technical pages, milling formulae"),
        (12, 1350, 50.9, "E27 drill maker's formula page"),
    ],
)
def test_surface_speed(diameter_mm: float, spindle_rpm: float, printed: float, source: str) -> None:
    """The cutting speed agrees to 0.1 m/min."""
    assert cutting_speed_m_min(spindle_rpm, diameter_mm) == pytest.approx(printed, abs=0.1), source


@pytest.mark.parametrize(
    ("per_tooth", "teeth", "spindle_rpm", "printed", "tolerance", "source"),
    [
        (0.1, 10, 500, 500, 1e-9, "E24 tool maker's milling formulae, mm"),
        (0.25, 16, 200, 800, 1e-9, "E25 tool maker's milling formulae, mm"),
        (0.004, 32, 88, 11.2, 0.1, "E30 milling handbook of 1973, inch; printed is the setting just below"),
        (0.004, 4, 4584, 73.3, 0.1, "E29 milling tool catalogue p. 451, inch"),
        (0.1, 8, 150, 120, 1e-9, "E32 Fundamentals of Machining p. 189, mm"),
        (0.3, 1, 626.594, 187.98, 0.01, "E33 drill, feed per turn, mm"),
        (0.008, 4, 573, 18, 0.4, "E31 university teaching-lab sheet, inch, 60 % of speed and feed (2 % off in print)"),
    ],
)
def test_table_feed(
    per_tooth: float, teeth: int, spindle_rpm: float, printed: float, tolerance: float, source: str
) -> None:
    """Feed vf = fz z n agrees within the print's rounding."""
    assert feeds.feed_mm_min(per_tooth, teeth, spindle_rpm) == pytest.approx(printed, abs=tolerance), source


def test_power_of_a_milling_cut() -> None:
    """E26: depth 2, width 80, 280 mm/min, 1800 N/mm2, efficiency 0.8 gives 1.68 kW (tool maker's page)."""
    removal = feeds.removal_mm3_min(2, 80, 280)
    assert feeds.power_kw(removal, 1800, 0.8) == pytest.approx(1.68, abs=0.005)


def test_power_of_a_slot() -> None:
    """E32: 4 deep, 30 wide, 120 mm/min, 1000 N/mm2 gives 0.24 kW, with efficiency 0.9 0.27 (p. 189)."""
    removal = feeds.removal_mm3_min(4, 30, 120)
    assert feeds.power_kw(removal, 1000, 1) == pytest.approx(0.24, abs=0.005)
    assert feeds.power_kw(removal, 1000, 0.9) == pytest.approx(0.27, abs=0.005)


def test_metal_removed() -> None:
    """E29: 0.125 deep, 0.10 wide, 73.3 in/min is 0.91 in3/min, printed cut short (0.917)."""
    assert feeds.removal_mm3_min(0.125, 0.1, 73.3386) == pytest.approx(0.917, abs=0.0005)


@pytest.mark.parametrize(
    ("group", "operation", "low_sfm", "high_sfm", "source"),
    [
        ("aluminium", "drill", 200, 300, "US Navy training course 14345"),
        ("mild steel", "drill", 80, 110, "US Navy training course 14345"),
        ("aluminium", "mill", 200, 400, "open vertical-mill textbook"),
        ("stainless (austenitic)", "mill", 40, 80, "open vertical-mill textbook"),
    ],
)
def test_printed_ranges_of_cutting_speed(
    group: str, operation: str, low_sfm: float, high_sfm: float, source: str
) -> None:
    """Start values lie inside the printed range."""
    assert low_sfm * FT - 0.05 <= start(group, operation).start_m_min <= high_sfm * FT + 0.05, source


@pytest.mark.parametrize(
    ("diameter_in", "low_ipr", "high_ipr"),
    [(0.1, 0.001, 0.002), (0.25, 0.002, 0.004), (0.5, 0.004, 0.007), (1.0, 0.007, 0.015), (1.5, 0.015, 0.025)],
)
def test_printed_drill_feeds(diameter_in: float, low_ipr: float, high_ipr: float) -> None:
    """Feeds per turn of US Navy training course 14345, p. 93; hard steel takes the low end."""
    found = feeds.feed_per_rev_mm("drill", diameter_in * IN, "mild steel")
    assert (found.low, found.high) == pytest.approx((low_ipr * IN, high_ipr * IN), abs=1e-4)
    hard = feeds.feed_per_rev_mm("drill", diameter_in * IN, "tool steel (annealed)")
    assert hard.start == pytest.approx(low_ipr * IN, abs=1e-4)


@pytest.mark.parametrize(
    ("group", "diameter_in", "ipt"),
    [
        ("aluminium", 0.25, 0.002),
        ("aluminium", 1, 0.008),
        ("mild steel", 0.5, 0.003),
        ("tool steel (annealed)", 0.75, 0.002),
    ],
)
def test_printed_chip_loads(group: str, diameter_in: float, ipt: float) -> None:
    """Inches per tooth of the carbide end mill speed and feed chart (protocutter.com)."""
    found = feeds.feed_per_tooth_mm(diameter_in * IN, group, "carbide")
    assert found.start == pytest.approx(ipt * IN, abs=1e-4)


@pytest.mark.parametrize(
    ("group", "depth_in"), [("aluminium", 0.05), ("free-machining brass", 0.05), ("mild steel", 0.03)]
)
def test_printed_depths_of_cut(group: str, depth_in: float) -> None:
    """Suggested depths of the laboratory handout 'Machine tool speeds and feeds' for a 12 mm cutter."""
    assert feeds.depth_of_cut_mm("level", 12, group).start == pytest.approx(depth_in * IN, abs=1e-3)
