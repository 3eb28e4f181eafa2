"""Threads and tap drills printed in standards, handbooks and charts, typed in with their source beside each.

Sources are named by the ids of setupsheet/tables/hole_sources.csv where they stand there.
"""

from __future__ import annotations

import pytest

from setupsheet.tables import tapping, threads

ISO2306 = "ISO 2306 as quoted in S07"
S06 = "S06, about 75 % column"
S36 = "S36: handbook machine-screw table"
S02 = "S02: Machinery's Handbook 31st ed. p. 2168"

# thread, drill in inches or mm as printed, unit, where printed
TAP_DRILLS: list[tuple[str, str, float, str]] = [
    ("M2", "mm", 1.6, ISO2306),
    ("M2.5", "mm", 2.05, ISO2306),
    ("M3", "mm", 2.5, ISO2306),
    ("M3.5", "mm", 2.9, ISO2306),
    ("M4", "mm", 3.3, ISO2306),
    ("M5", "mm", 4.2, ISO2306),
    ("M6", "mm", 5.0, ISO2306),
    ("M8", "mm", 6.8, ISO2306),
    ("M10", "mm", 8.5, ISO2306),
    ("M14", "mm", 12.0, ISO2306),
    ("M16", "mm", 14.0, ISO2306),
    ("M20", "mm", 17.5, ISO2306),
    ("M24", "mm", 21.0, ISO2306),
    ("M22", "mm", 19.5, "S07; the 18.5 of S06 does not fit pitch 2.5"),
    ("M8x1", "mm", 7.0, "S23"),
    ("2-56 UNC", "in", 0.0700, f"{S06}: #50"),
    ("4-40 UNC", "in", 0.0890, f"{S36}: #43"),
    ("6-32 UNC", "in", 0.1065, f"{S36}: #36"),
    ("8-32 UNC", "in", 0.1360, f"{S36}: #29"),
    ("10-24 UNC", "in", 0.1495, f"{S36}: #25"),
    ("10-32 UNF", "in", 0.1590, f"{S36}: #21"),
    ("1/4-20 UNC", "in", 0.2010, f"{S36}: #7"),
    ("1/4-28 UNF", "in", 0.2130, f"{S36}: #3"),
    ("5/16-18 UNC", "in", 0.2570, f"{S36}: F"),
    ("5/16-24 UNF", "in", 0.2720, f"{S36}: I"),
    ("3/8-16 UNC", "in", 0.3125, f"{S36}: 5/16"),
    ("3/8-24 UNF", "in", 0.3320, f"{S36}: Q"),
    ("7/16-14 UNC", "in", 0.3680, f"{S06}: U"),
    ("7/16-20 UNF", "in", 0.390625, f"{S06}: 25/64"),
    ("1/2-13 UNC", "in", 0.421875, f"{S06}: 27/64"),
    ("1/2-20 UNF", "in", 0.453125, f"{S06}: 29/64"),
    ("9/16-12 UNC", "in", 0.484375, f"{S02}: 31/64"),
    ("5/8-11 UNC", "in", 0.53125, f"{S02}: 17/32"),
    ("3/4-10 UNC", "in", 0.65625, f"{S02}: 21/32"),
    ("3/4-16 UNF", "in", 0.6875, f"{S02}: 11/16"),
    ("7/8-9 UNC", "in", 0.765625, f"{S02}: 49/64"),
    ("1-8 UNC", "in", 0.875, f"{S02}: 7/8"),
    ("1-12 UNF", "in", 0.921875, f"{S02}: 59/64, not the 15/16 of S06 above the 2B limit"),
    ("6BA", "mm", 2.3, "S29"),
    ("G1/4", "mm", 11.8, "S07, S64, S65b"),
    ("G1/2", "mm", 19.0, "S07, S64; the 18.5 of S65 is under the least minor diameter"),
    ("1/4-20 BSW", "mm", 5.1, "S07, S31, S23"),
    ("1/4-18 NPT", "in", 0.4375, "S18, S20: tapped straight from the drill"),
]


@pytest.mark.parametrize(("designation", "unit", "drill", "printed"), TAP_DRILLS)
def test_tap_drill_is_the_printed_one(designation: str, unit: str, drill: float, printed: str) -> None:
    """The drill for a thread is the one in print (a no. 7 and a 5.1 count as one), to 0.012 mm."""
    assert printed
    found, _, source = tapping.tap_drill(threads.find(designation), "mild steel")
    assert found == pytest.approx(drill * (25.4 if unit == "in" else 1.0), abs=0.012)
    assert source


# designation, least and greatest minor diameter, unit, where printed
MINOR_LIMITS: list[tuple[str, float, float, str, str]] = [
    ("M3", 2.459, 2.599, "mm", "S12: 6H"),
    ("M4", 3.242, 3.422, "mm", "S12: 6H"),
    ("M10", 8.376, 8.676, "mm", "S12, S13: 6H"),
    ("M12", 10.106, 10.441, "mm", "S13: 6H"),
    ("M16", 13.835, 14.210, "mm", "S13: 6H"),
    ("10-32 UNF", 0.156, 0.164, "in", "S12, S24: 2B"),
    ("1/4-20 UNC", 0.196, 0.207, "in", "S15, S24: 2B"),
    ("3/8-16 UNC", 0.307, 0.321, "in", "S15: 2B"),
    ("1/2-13 UNC", 0.417, 0.434, "in", "S15; S17 misprints .4700"),
    ("2BA", 3.730, 4.034, "mm", "S34: BS 93 nut"),
    ("G1/4", 11.445, 11.890, "mm", "S06: ISO 228-1"),
]


@pytest.mark.parametrize(("designation", "lower", "upper", "unit", "printed"), MINOR_LIMITS)
def test_minor_diameter_limits_as_printed(
    designation: str, lower: float, upper: float, unit: str, printed: str
) -> None:
    """Limits of the internal minor diameter are those in print."""
    assert printed
    scale = 25.4 if unit == "in" else 1.0
    assert threads.minor_limits_mm(threads.find(designation)) == pytest.approx((lower * scale, upper * scale), abs=1e-3)


# thread, per cent, hole as printed, unit, where printed
PERCENT: list[tuple[str, float, float, str, str]] = [
    ("M4", 75, 3.32, "mm", "S12"),
    ("M3", 60, 2.61, "mm", "S12"),
    ("M2", 80, 1.58, "mm", "S12"),
    ("4-40 UNC", 75, 0.0876, "in", "S18"),
    ("6-32 UNC", 70, 0.1096, "in", "S18"),
    ("10-24 UNC", 65, 0.1548, "in", "S18"),
]


@pytest.mark.parametrize(("designation", "percent", "hole", "unit", "printed"), PERCENT)
def test_percent_of_thread_on_the_full_height_basis(
    designation: str, percent: float, hole: float, unit: str, printed: str
) -> None:
    """The charts' columns are reproduced: they count on 1.299 P, to the rounding of the printed hole."""
    assert printed
    thread = threads.find(designation)
    scale, rounding = (25.4, 0.00006) if unit == "in" else (1.0, 0.006)
    found = threads.percent(thread, hole * scale)
    assert found is not None
    assert found == pytest.approx(percent, abs=100.0 * rounding * scale / (1.299 * thread.pitch_mm))
    assert threads.percent_basis(thread) == "of 1.299 P on diameter"


def test_m6_with_5_mm_is_77_percent_on_charts_and_92_on_the_profile() -> None:
    """The two bases of F08 and F11 (thread_formulas): 77 % and 92 % for one hole."""
    thread = threads.find("M6")
    assert threads.percent(thread, 5.0) == pytest.approx(77.0, abs=0.05)
    assert 100.0 * (6.0 - 5.0) / (6.0 - thread.minor_basic_mm) == pytest.approx(92.4, abs=0.1)


def test_basic_sizes_as_printed() -> None:
    """Minor diameters: M8 6.647 (S13, S71: ISO 724), 1/4 BSW .1860 in (S30), 2BA 3.73 (S05)."""
    assert threads.find("M8").minor_basic_mm == pytest.approx(6.647, abs=5e-4)
    assert threads.find("1/4 BSW").minor_basic_mm == pytest.approx(0.1860 * 25.4, abs=2e-3)
    assert threads.find("2BA").minor_basic_mm == pytest.approx(3.73, abs=1e-9)
