"""The blank: weight, and the least piece that cleans up."""

from __future__ import annotations

from dataclasses import replace

import pytest

from setupsheet.length import Unit
from setupsheet.part.face import Face
from setupsheet.plan.blank import mass_text, stock_plan
from tests.parts import block
from tests.plan.planned import asked


def test_mass() -> None:
    """D20: aluminium 60 x 40 x 20 at 2.70 weighs 129.6 g."""
    part = block(high=(58.0, 38.0, 18.0), over=1.0)
    assert stock_plan(part, ()).mass_kg == pytest.approx(0.1296)
    assert stock_plan(part, ()).shown_mass == "130 g"


def test_published_mass() -> None:
    """E58: 2 x 0.5 x 0.25 m at 7.8 g/cm3 weighs 1950 kg (lidolearning.com, a school problem)."""
    part = replace(block(high=(1998.0, 498.0, 248.0), over=1.0), density_kg_m3=7800.0)
    assert stock_plan(part, ()).mass_kg == pytest.approx(1950.0)


def test_mass_in_both_units() -> None:
    """One pound is 0.45359237 kg."""
    assert mass_text(0.45359237, Unit.INCH) == "1.00 lb (454 g)"
    assert mass_text(1.25, Unit.MM) == "1.25 kg"


def test_least_blank_from_the_side_that_is_touched() -> None:
    """Zero from the raw left end: 2 come off there, 0.3 cleans up the right; free axes need a clean-up at both."""
    part = block()
    assert stock_plan(part, (asked(x="left: stock left"),)).least_mm == pytest.approx((42.3, 30.6, 22.2))
    assert stock_plan(part, ()).least_mm == pytest.approx((40.6, 30.6, 20.4))


def test_faces_as_bought_need_no_metal() -> None:
    """Nothing comes off the top and bottom of a part that uses them as they come."""
    part = block()
    part = replace(part, stock=replace(part.stock, as_bought={Face.TOP: 0.1, Face.BOTTOM: 0.1}))
    plan = stock_plan(part, ())
    assert plan.least_mm[2] == pytest.approx(20.0)
    assert sorted(plan.as_bought) == ["bottom", "top"]


def test_where_the_part_lies_in_the_stock() -> None:
    """The stock's corner lies 2 outside the part's in all three directions."""
    matrix = stock_plan(block(), ()).stock_to_part
    assert [row[3] for row in matrix] == [-2.0, -2.0, -2.0, 1.0]
