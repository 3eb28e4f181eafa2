"""Which end mill: the largest that reaches, the exact one, or the one to buy."""

from __future__ import annotations

import pytest

from setupsheet.plan.milling import area
from setupsheet.plan.milling.mills import MillNeed, pick_mill, to_buy
from tests.parts import block
from tests.plan.planned import bench

OPEN = area.rectangle((0, 0), (40, 30))


def test_largest_in_the_open() -> None:
    """Nothing stands: the 12 of the shop's 12, 10, 8, 6, 4."""
    assert pick_mill(bench(block()), MillNeed(OPEN, area.nothing(), 2.0)).diameter_mm == 12.0


@pytest.mark.parametrize(("gap", "diameter"), [(11.0, 10.0), (9.0, 8.0), (6.5, 6.0)])
def test_largest_that_goes_between(gap: float, diameter: float) -> None:
    """A groove between two walls takes the largest cutter that fits in."""
    keep = area.union([area.rectangle((-90, -90), (10, 90)), area.rectangle((10 + gap, -90), (90, 90))])
    groove = area.rectangle((10, 0), (10 + gap, 30))
    assert pick_mill(bench(block()), MillNeed(groove, keep, 2.0)).diameter_mm == diameter


def test_flutes_must_be_long_enough() -> None:
    """20 deep: the 12 (26 of flute) and the 10 (22) reach, the 8 (19) does not."""
    assert pick_mill(bench(block()), MillNeed(OPEN, area.nothing(), 20.0, 10.0)).owned
    assert not pick_mill(bench(block()), MillNeed(OPEN, area.nothing(), 20.0, 8.0)).owned


def test_exact_size_or_one_to_buy() -> None:
    """A slot of 8 takes the 8; one of 7 a cutter to buy, marked so and long enough."""
    clamped = bench(block())
    assert pick_mill(clamped, MillNeed(OPEN, area.nothing(), 3.0, 8.0)).owned
    bought = pick_mill(clamped, MillNeed(OPEN, area.nothing(), 3.0, 7.0))
    assert (bought.owned, bought.diameter_mm) == (False, 7.0)
    assert bought.flute_length_mm >= 3.0
    assert "7" in to_buy(clamped, 7.0, 3.0).label


def test_deeper_than_any_flute_takes_a_long_one_of_the_largest_size_that_goes_in() -> None:
    """30 deep, no flute longer than 26: in the open a long 12, in a gap of 9 a long 8, not the thinnest."""
    keep = area.union([area.rectangle((-90, -90), (10, 90)), area.rectangle((19, -90), (90, 90))])
    for target, beside, diameter in ((OPEN, area.nothing(), 12.0), (area.rectangle((10, 0), (19, 30)), keep, 8.0)):
        bought = pick_mill(bench(block()), MillNeed(target, beside, 30.0))
        assert (bought.owned, bought.diameter_mm) == (False, diameter)
        assert bought.flute_length_mm >= 30.0
