"""Sides of the part: how deep, where the jaws forbid it, and nothing twice."""

from __future__ import annotations

import pytest

from setupsheet.part.face import Face
from setupsheet.plan.milling.sides import cut_floor, lowest_needed, side_draft
from setupsheet.plan.record import Step
from tests.parts import block
from tests.plan.planned import asked, bench, setup_of, small_shop


def test_side_is_cut_half_past_the_bottom_where_nothing_is_in_the_way() -> None:
    """An end beyond the jaws goes 0.5 below the part; between them only to 1 over their tops."""
    clamped = bench(block(), asked(grip_mm=5.0))
    assert clamped.jaw_top == pytest.approx(-17.0)
    assert clamped.jaws_x == pytest.approx((-30.0, 70.0))
    assert cut_floor(clamped, -20.0, (70.5, 90.0), "right") == (-20.5, [])
    floor, findings = cut_floor(clamped, -20.0, (-2.0, 42.0), "front")
    assert floor == pytest.approx(-16.0)
    assert [finding.code for finding in findings] == ["side-hidden-by-jaws"]
    assert findings[0].message.startswith("4 mm of front stays uncut")


def test_no_caution_where_the_jaws_hide_nothing() -> None:
    """What has to go ends over the jaws: no finding, and half a millimetre past it if there is room."""
    clamped = bench(block(), asked(grip_mm=5.0))
    assert cut_floor(clamped, -10.0, (-2.0, 42.0), "front") == (-10.5, [])
    assert cut_floor(clamped, -15.8, (-2.0, 42.0), "front") == (-16.0, [])


def test_stop_lies_a_radius_outside() -> None:
    """Right side of 40 with a cutter of 12: last stop X +46.000, metal on the left."""
    clamped = bench(block(), asked(grip_mm=5.0))
    (draft,), _ = side_draft(clamped, (), Face.RIGHT)
    assert [(lim.shown, lim.side) for lim in draft.step.limits] == [("+46.000", "left")]


def test_second_setup_cuts_only_what_the_jaws_hid() -> None:
    """Cut from below first, then from the top: the rest down to half a millimetre past, and then nothing more."""
    part, shop = block(), small_shop()
    below = bench(part, asked(Face.BOTTOM, grip_mm=5.0), shop)
    (draft,), _ = side_draft(below, (), Face.FRONT)
    gone = draft.takes
    above = bench(part, asked(Face.TOP, grip_mm=5.0), shop, gone)
    (rest,), findings = side_draft(above, gone, Face.FRONT)
    reached = -below.jaw_top - 1.0 - 20.0
    assert float(rest.step.z_shown[-1]) == pytest.approx(reached - 0.5)
    assert findings == []
    assert side_draft(above, (*gone, *rest.takes), Face.FRONT) == ([], [])


def test_lowest_metal_beside_an_edge() -> None:
    """Where the stock is there to its bottom the finished bottom counts; beyond the stock nothing does."""
    clamped = bench(block())
    inside = [(20.0, 0.05)]
    assert lowest_needed(clamped, (), inside, [(20.0, -0.05)]) == pytest.approx(-20.0)
    assert lowest_needed(clamped, (), inside, [(20.0, -9.0)]) is None


def _titled(name: str, number: int, title: str) -> list[Step]:
    return [step for step in setup_of(name, number).steps if step.title.startswith(title)]


@pytest.mark.parametrize("side", ["left side", "right side", "front side", "back side"])
def test_both_setups_of_a_plate_share_its_sides(side: str) -> None:
    """A plate of 12 that the jaws hold by 4: 8 less 1 over the jaws from below, the rest from the top."""
    (first,), (second,) = (_titled("level-leave-box", number, side) for number in (1, 2))
    assert float(first.z_shown[-1]) == pytest.approx(-8.0)
    assert float(second.z_shown[-1]) == pytest.approx(8.0 - 0.5)
