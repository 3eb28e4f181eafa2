"""Fits between a part and its mates."""

from __future__ import annotations

from dataclasses import replace

import pytest

from setupsheet.part.mate import HOLE, SHAFT, Mate
from setupsheet.plan.fits import fit_plans
from setupsheet.plan.record import FitPlan
from setupsheet.spec.reader import read_part
from setupsheet.tables import fits
from tests.plan.planned import PROJECT, read


def plan(**mate: object) -> FitPlan:
    """Return the fit of a mate of the bracket's 12 H7 bore."""
    part = read("worm-bracket")[0]
    whole = Mate("bearing-bore", str(mate.pop("written", "bush")), SHAFT, 12.0, **mate)  # type: ignore[arg-type]
    return fit_plans(replace(part, mates=(whole,)))[0]


def shaft(symbol: str) -> dict[str, object]:
    """Return the limits of a shaft of 12."""
    limits = fits.limits(12.0, symbol)
    return {"lower_mm": limits.lower_mm, "upper_mm": limits.upper_mm, "symbol": symbol}


@pytest.mark.parametrize(
    ("symbol", "least", "most", "kind"),
    [
        ("g6", 0.006, 0.035, "clearance"),  # ANSI B4.2 table of preferred fits, H7/g6 at 12: 0.035 to 0.006
        ("h6", 0.000, 0.029, "clearance"),  # H7/h6 at 12: 0.029 to 0.000
        ("k6", -0.012, 0.017, "transition"),  # H7/k6 at 12: 0.017 to -0.012
        ("n6", -0.023, 0.006, "transition"),  # H7/n6 at 12: 0.006 to -0.023
        ("p6", -0.029, 0.000, "interference"),  # H7/p6 at 12: 0.000 to -0.029
        ("s6", -0.039, -0.010, "interference"),  # H7/s6 at 12: -0.010 to -0.039
    ],
)
def test_preferred_fits(symbol: str, least: float, most: float, kind: str) -> None:
    """Clearances of preferred fits at 12 mm, by their limits in ISO 286-2."""
    found = plan(**shaft(symbol))
    assert (found.clearance_min_mm, found.clearance_max_mm) == pytest.approx((least, most))
    assert found.kind == kind
    assert found.use


def test_pressed_bush_is_reamed_afterwards() -> None:
    """A bush that is squeezed closes in; its bore is named where it is written."""
    found = plan(written="bush 12 r6, pressed, bore 8 H7", pressed=True, bore="8 H7", **shaft("r6"))
    assert found.kind == "interference"
    assert found.words == ("The bush closes in when it is pressed: ream its bore to 8 H7 afterwards.",)


def test_dowel_and_loose_bush_need_no_reaming() -> None:
    """A pin has no bore, and a bush with room keeps its own."""
    assert plan(written="dowel 12 p6", **shaft("p6")).words == ()
    assert plan(written="bush 12 g6", **shaft("g6")).words == ()


def test_pressed_with_room() -> None:
    """Words that ask for pressing where the limits may leave room are answered."""
    found = plan(written="bush 12 h6, pressed", pressed=True, **shaft("h6"))
    assert found.words[0].startswith("It is to be pressed, but")


def test_word_for_a_fit() -> None:
    """A word says its preferred fit, and where this hole is another."""
    assert plan(intent="slide", **shaft("g6")).words[0].startswith("slide is H7/g6: ")
    assert plan(intent="run", **shaft("f7")).words[1] == "This one is H7, not H8."


def test_bought_bush_with_own_limits() -> None:
    """A bush of 12.018 to 12.028 in 12.000 to 12.018: plain subtraction."""
    found = plan(written="bush 12 +0.028/+0.018", lower_mm=12.018, upper_mm=12.028)
    assert (found.clearance_min_mm, found.clearance_max_mm) == pytest.approx((-0.028, 0.0))
    assert found.shown["shaft"] == "12.018 to 12.028"
    assert found.shown["clearance"] == "-0.028 to 0.000"


def test_mate_over_a_boss_is_the_hole() -> None:
    """A ring 24 H8 over the boss of 24 -0.05/-0.15: least 0.05, most 0.15 + 0.033 (H8 at 24, ISO 286-2)."""
    part = read("worm-bracket")[0]
    ring = Mate("boss", "ring 24 H8", HOLE, 24.0, 24.0, 24.033, "H8")
    found = fit_plans(replace(part, mates=(ring,)))[0]
    assert (found.clearance_min_mm, found.clearance_max_mm) == pytest.approx((0.05, 0.183))


def test_cover_and_bracket_go_together() -> None:
    """The cover's recess slips over the bracket's boss, and the six screws meet their threads."""
    part = read_part(PROJECT / "specs" / "drive-cover.yaml")[0]
    assert part is not None
    recess, screws = fit_plans(part)
    assert (recess.kind, recess.other) == ("clearance", "ST-04 boss")
    assert recess.clearance_min_mm == pytest.approx(0.05)
    assert screws.clearance_min_mm is None
    assert screws.words[0] == "All 6 holes meet ST-04 cover-screws."
