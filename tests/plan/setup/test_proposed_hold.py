"""How deep a proposed setup is gripped, and which end of the part hangs out."""

from __future__ import annotations

from dataclasses import replace

import pytest

from setupsheet.part.face import Face
from setupsheet.part.feature import Feature, Level, Pocket, RoundedEnd
from setupsheet.part.part import HoldAsked
from setupsheet.part.shape import BoxShape
from setupsheet.plan.setup.proposed_hold import PAST_END_MM, fits_vise, hold_for
from setupsheet.solid.laid import lay
from tests.parts import HERE, block, size
from tests.plan.planned import small_shop

TOP = lay(Face.TOP, Face.BACK, (0.0, 0.0, 0.0))
NOSE = RoundedEnd("nose", HERE, Face.TOP, (28.0, 15.0), size(12.0), Face.RIGHT)


def _held(*here: Feature, low_grip: bool = False) -> HoldAsked:
    shop = small_shop(heights=(10.0, 15.0, 18.0, 20.0, 23.0, 25.0))
    held = hold_for(block(*here), shop, TOP, here, low_grip)
    assert held is not None
    return held


def test_half_the_height_where_nothing_is_in_the_way() -> None:
    """On these parallels jaws grip 20, 15, 12, 10, 7 or 5: 10 is half of 20; 7 is a third, where sides are cut."""
    assert _held().grip_mm == 10.0
    assert _held(low_grip=True).grip_mm == 7.0


def test_a_grip_from_either_end_hides_no_side() -> None:
    """Block of 20, grips of 12.7 or 6.35: two of 12.7 would hide a part of it, two of 6.35 leave 7.3 to meet in."""
    shop = small_shop(heights=(17.3, 23.65))
    held = hold_for(block(), shop, TOP, (), low_grip=True)
    assert held is not None
    assert held.grip_mm == pytest.approx(6.35)


@pytest.mark.parametrize(("floor", "grip"), [(15.0, 10.0), (10.0, 7.0), (8.0, 5.0)])
def test_jaws_stay_under_a_step_that_runs_out_over_them(floor: float, grip: float) -> None:
    """A level across the part that goes down to its floor leaves the jaws two millimetres less."""
    level = Level("step", HERE, Face.TOP, BoxShape((30.0, 0.0), (40.0, 30.0)), size(floor))
    assert _held(level).grip_mm == grip


def test_a_level_inside_does_not_meet_the_jaws() -> None:
    """An area that ends before the front and the back may go below the top of the jaws."""
    level = Level("pan", HERE, Face.TOP, BoxShape((10.0, 5.0), (30.0, 25.0)), size(5.0))
    assert _held(level).grip_mm == 10.0


def test_a_rounded_end_hangs_out() -> None:
    """The end is round from 12 before it: that far and a cutter past the jaws."""
    assert _held(NOSE).overhang_mm == {Face.RIGHT: 12.0 + PAST_END_MM}
    both = _held(NOSE, replace(NOSE, id="tail", centre=(12.0, 15.0), side=Face.LEFT))
    assert both.overhang_mm == {}


def test_the_vise_opens_so_far_and_no_farther() -> None:
    """The small shop's vise opens 80."""
    assert [fits_vise(small_shop(), width) for width in (80.0, 80.1)] == [True, False]


def _notch(name: str, x: tuple[float, float], y: tuple[float, float], floor: float | None) -> Pocket:
    shape = BoxShape((x[0], y[0]), (x[1], y[1]), 5.0)
    return Pocket(name, HERE, Face.TOP, shape, 20.0, size(floor) if floor is not None else None, 0.0)


def test_an_end_with_notches_right_through_hangs_out() -> None:
    """Both corners of the left end are cut away, 14 in: no grip is below them, so that end stands past the jaws."""
    front, back = _notch("front", (-10.0, 14.0), (-10.0, 8.0), None), _notch("back", (-10.0, 14.0), (22.0, 40.0), None)
    held = _held(front, back)
    assert held.overhang_mm == {Face.LEFT: 14.0 + PAST_END_MM}
    assert held.grip_mm == 10.0


def test_a_shallow_notch_stays_over_the_jaws() -> None:
    """A notch down to 15 of 20 leaves the jaws room below it, as a level does."""
    assert _held(_notch("front", (-10.0, 14.0), (-10.0, 8.0), 15.0)).overhang_mm == {}
