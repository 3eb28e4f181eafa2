"""Clearance holes, drills, reamers, screw seats and pins as printed, typed in with their source beside each."""

from __future__ import annotations

import pytest

from setupsheet.tables import clearance, drills, reaming, screws
from setupsheet.tables.drills import point_height_mm

ISO273 = "ISO 273:1979 as printed in S07 and S35"

# screw, fine, medium, coarse, where printed
METRIC: list[tuple[str, float, float, float, str]] = [
    ("M2", 2.2, 2.4, 2.6, ISO273),
    ("M3", 3.2, 3.4, 3.6, ISO273),
    ("M4", 4.3, 4.5, 4.8, ISO273),
    ("M5", 5.3, 5.5, 5.8, ISO273),
    ("M6", 6.4, 6.6, 7.0, ISO273),
    ("M8", 8.4, 9.0, 10.0, ISO273),
    ("M10", 10.5, 11.0, 12.0, ISO273),
    ("M12", 13.0, 13.5, 14.5, f"{ISO273}; BS 4186:1967 has 14 and 15"),
    ("M16", 17.0, 17.5, 18.5, f"{ISO273}; BS 4186:1967 has 18 and 19"),
    ("M20", 21.0, 22.0, 24.0, ISO273),
]


@pytest.mark.parametrize(("screw", "fine", "medium", "coarse", "printed"), METRIC)
def test_metric_clearance_holes(screw: str, fine: float, medium: float, coarse: float, printed: str) -> None:
    """Three holes a screw; the words of ASME mean the same three."""
    assert printed
    words = ("fine", "medium", "coarse")
    assert tuple(clearance.hole(screw, word)[0] for word in words) == (fine, medium, coarse)
    assert tuple(clearance.hole(screw, word)[0] for word in ("close", "normal", "loose")) == (fine, medium, coarse)


# screw, drill of the normal hole and its size in inches, greatest loose hole in inches
INCH: list[tuple[str, str, float, float | None, str]] = [
    ("#0", "#48", 0.0760, 0.104, "S06 drill; S03 loose limit"),
    ("#2", "#38", 0.1015, 0.126, "S06 drill; S03 loose limit"),
    ("#4", "#30", 0.1285, 0.156, "S06 drill; S03 loose limit"),
    ("#6", "#18", 0.1695, 0.197, "S06 drill; S03 loose limit"),
    ("#8", "#9", 0.1960, 0.225, "S06 drill; S03 loose limit"),
    ("#10", "#2", 0.2210, None, "S06 drill"),
    ("1/4", "9/32", 0.28125, 0.311, "S06 drill; S03 loose limit"),
    ("5/16", "11/32", 0.34375, 0.373, "S06 drill; S03 loose limit"),
    ("3/8", "13/32", 0.40625, 0.438, "S06 drill; S03 loose limit"),
    ("1/2", "9/16", 0.5625, 0.625, "S06 drill; S03 loose limit"),
    ("3/4", "13/16", 0.8125, 0.926, "S06 drill; S03 loose limit"),
]


@pytest.mark.parametrize(("screw", "drill", "inch", "loosest", "printed"), INCH)
def test_inch_clearance_holes(screw: str, drill: str, inch: float, loosest: float | None, printed: str) -> None:
    """ASME B18.2.8: the normal drill, and the loose hole's upper limit (H14 on the drill), to print's rounding."""
    assert printed
    assert clearance.drill(screw, "normal") == drill
    assert clearance.hole(screw, "normal")[0] == pytest.approx(inch * 25.4, abs=1e-6)
    if loosest is not None:
        assert clearance.hole(screw, "loose")[1] / 25.4 == pytest.approx(loosest, abs=1e-9)


def test_clearance_tolerances_lie_above_the_nominal() -> None:
    """M4 medium is H13 on 4.5: +0.18 (ISO 286: IT13 over 3 to 6 = 180 µm, MD213); fine H12 +0.12, coarse H14 +0.30."""
    assert clearance.hole("M4", "medium")[:2] == pytest.approx((4.5, 4.68))
    assert clearance.hole("M4", "fine")[:2] == pytest.approx((4.3, 4.42))
    assert clearance.hole("M4", "coarse")[:2] == pytest.approx((4.8, 5.1))


ASME_B94 = "ASME B94.11M as printed in S54, S25"
# drill, inches, where printed
NAMED: list[tuple[str, float, str]] = [
    ("#1", 0.2280, ASME_B94),
    ("no. 7", 0.2010, ASME_B94),
    ("#10", 0.1935, "four decimals; S06 rounds to .194"),
    ("#21", 0.1590, ASME_B94),
    ("#29", 0.1360, ASME_B94),
    ("#36", 0.1065, ASME_B94),
    ("#40", 0.0980, "S54 misprints .980"),
    ("#43", 0.0890, ASME_B94),
    ("#50", 0.0700, ASME_B94),
    ("#60", 0.0400, ASME_B94),
    ("#80", 0.0135, ASME_B94),
    ("A", 0.2340, ASME_B94),
    ("F", 0.2570, ASME_B94),
    ("I", 0.2720, ASME_B94),
    ("Q", 0.3320, ASME_B94),
    ("U", 0.3680, ASME_B94),
    ("Z", 0.4130, ASME_B94),
    ("1/4", 0.25, "arithmetic"),
    ("17/64", 0.265625, "arithmetic"),
]


@pytest.mark.parametrize(("name", "inch", "printed"), NAMED)
def test_number_letter_and_fraction_drills(name: str, inch: float, printed: str) -> None:
    """A named drill has the printed size, exactly in inches."""
    assert printed
    assert drills.named(name)[0] == pytest.approx(inch * 25.4, abs=1e-6)


def test_drill_points() -> None:
    """Point of a 10 mm drill: 3.004 at 118 and 2.071 at 135 degrees (factors .3004 and .2071, S67)."""
    assert point_height_mm(10.0) == pytest.approx(3.004, abs=5e-4)
    assert point_height_mm(10.0, 135.0) == pytest.approx(2.071, abs=5e-4)
    assert point_height_mm(10.0, 90.0) == pytest.approx(5.0)


# size, class, reamer's lower and upper deviation in µm, where printed
REAMERS: list[tuple[float, str, int, int, str]] = [
    (2, "H7", 4, 8, "S10: table of reamers for H7"),
    (5, "H7", 5, 10, "S10: table of reamers for H7"),
    (10, "H7", 6, 12, "S10: table of reamers for H7, worked example"),
    (12, "H7", 8, 15, "S10: table of reamers for H7"),
    (25, "H7", 9, 17, "S10: table of reamers for H7"),
    (40, "H7", 12, 21, "S10: table of reamers for H7"),
    (10, "H8", 10, 18, "S10: the rule 0.15 IT and 0.35 IT, IT8 = 22"),
]


@pytest.mark.parametrize(("size", "hole_class", "lower", "upper", "printed"), REAMERS)
def test_reamer_limits(size: float, hole_class: str, lower: int, upper: int, printed: str) -> None:
    """A reamer for H7 measures what the maker's table prints (ISO 522, DIN 1420)."""
    assert printed
    limits = reaming.reamer_limits_mm(size, hole_class)
    assert limits == pytest.approx((size + lower / 1000, size + upper / 1000))


def test_reaming_allowance() -> None:
    """0.1 to 0.2 up to 5 mm, 0.2 to 0.3 up to 20, 0.3 to 0.5 up to 50 on diameter (S55, S56)."""
    for size, least, most in ((4.0, 0.1, 0.2), (5.0, 0.1, 0.2), (5.01, 0.2, 0.3), (20.0, 0.2, 0.3), (30.0, 0.3, 0.5)):
        stock = reaming.stock(size, "mild steel")
        assert (stock.least_mm, stock.most_mm) == (least, most)


def test_screw_seats() -> None:
    """Counterbores of DIN 974-1 (S37, S38), sinks of DIN 74-1 form B (S40), heads of ISO 4762 and ASME B18.3."""
    assert screws.counterbore("M5")[:2] == (10.0, 5.4)
    assert screws.counterbore("M6")[0] == 11.0
    assert screws.counterbore("M8")[:2] == (15.0, 8.6)
    assert screws.countersink("M4")[:2] == (9.0, 90.0)
    assert screws.countersink("1/4")[:2] == pytest.approx((0.531 * 25.4, 82.0))
    assert (screws.head("M6").diameter_mm, screws.head("M6").height_mm) == (10.0, 6.0)
    assert screws.head("#10").diameter_mm == pytest.approx(0.312 * 25.4)


def test_dowel_pins() -> None:
    """6 m6: 6.004 to 6.012 in 6.000 to 6.012 (S83, S50); 1/4: .2501 to .2503 in .2495 to .2500 in (S46, S47)."""
    pin = screws.dowel("6")
    assert (pin.pin_lower_mm, pin.pin_upper_mm, pin.hole_lower_mm, pin.hole_upper_mm) == (6.004, 6.012, 6.0, 6.012)
    inch = screws.dowel("1/4")
    limits = [inch.pin_lower_mm, inch.pin_upper_mm, inch.hole_lower_mm, inch.hole_upper_mm]
    assert [size / 25.4 for size in limits] == pytest.approx([0.2501, 0.2503, 0.2495, 0.2500], abs=1e-5)
