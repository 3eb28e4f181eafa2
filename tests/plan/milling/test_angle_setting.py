"""Sine bars and gauge blocks against published worked examples."""

from __future__ import annotations

import pytest

from setupsheet.plan.milling.angle_setting import angle_error_deg, block_stack, blocks_of, setting, sine_stack

PUBLISHED = [
    # practice E12: a metrology supplier's learning page on sine bars
    (5.0, 27.0, 2.27, 0.005),
    # practice E13: Handbook of Machining and Metalworking Calculations, ch. 4; 34 deg 25 min
    (5.0, 34 + 25 / 60, 2.826, 0.0005),
    # practice E14: Machinery's Handbook, 31st ed., p. 695; 28.6336 deg
    (5.0, 28.6336, 2.396, 0.0005),
    # practice E15: Machinery's Handbook, 31st ed., p. 695
    (5.0, 12.0, 1.03956, 0.000005),
]


@pytest.mark.parametrize(("length", "angle", "height", "last_digit"), PUBLISHED)
def test_stack_under_a_sine_bar(length: float, angle: float, height: float, last_digit: float) -> None:
    """The printed heights to their last digit."""
    assert sine_stack(length, angle) == pytest.approx(height, abs=last_digit * 1.01)


@pytest.mark.parametrize(("angle", "error"), [(30.0, 0.00132), (60.0, 0.00229)])
def test_error_grows_with_the_angle(angle: float, error: float) -> None:
    """Practice E16: 0.0001 in under a 5 in bar at 30 and at 60 degrees."""
    assert angle_error_deg(5.0, angle, 0.0001) == pytest.approx(error, abs=0.000006)


def test_steep_angles_are_set_by_their_complement() -> None:
    """60 degrees is set as 30; 45 as it is."""
    steep, half = setting(60.0, "mm"), setting(45.0, "mm")
    assert steep.complement
    assert steep.angle_deg == pytest.approx(30.0)
    assert steep.stack_mm == pytest.approx(50.0)
    assert not half.complement


@pytest.mark.parametrize(
    ("size", "series", "step"),
    [(3.7685, "inch", 0.0001), (2.826, "inch", 0.0001), (70.711, "mm", 0.001), (50.0, "mm", 0.001)],
)
def test_blocks_add_up(size: float, series: str, step: float) -> None:
    """Practice E55 (3.7685 in) and stacks of the angles above: the blocks are in the set, differ, and add up."""
    owned = blocks_of(series)
    blocks = block_stack(size, owned, step)
    assert sum(blocks) == pytest.approx(size, abs=step / 10)
    assert len(set(blocks)) == len(blocks) <= 5
    assert set(blocks) <= set(owned)


def test_a_size_that_the_set_cannot_make() -> None:
    """Below the thinnest block there is no stack."""
    assert block_stack(0.3, blocks_of("mm"), 0.001) == ()
