"""One setup from start to end: machine, turn, corners to drive to, witness."""

from __future__ import annotations

from dataclasses import replace

import pytest

from setupsheet.plan.setup.clamping import machine_for
from tests.plan.planned import DEMOS, SPECS, asked, plan_of, setup_of, small_shop


def test_machine_by_name_or_the_first() -> None:
    """A setup may name its machine; otherwise the shop's first one is used."""
    shop = small_shop()
    two = replace(shop, machines=(shop.machines[0], replace(shop.machines[0], name="big mill")))
    assert machine_for(two, replace(asked(), machine="big mill")).name == "big mill"
    assert machine_for(two, asked()).name == "mill"


@pytest.mark.parametrize("name", [*DEMOS, *SPECS])
def test_frames_are_right_handed_motions(name: str) -> None:
    """Each matrix turns and shifts only: rows of length 1, square to each other, no mirror."""
    for setup in plan_of(name).setups:
        x, y, z = (row[:3] for row in setup.part_to_setup[:3])
        assert sum(a * b for a, b in zip(x, y, strict=True)) == 0
        crossed = (x[1] * y[2] - x[2] * y[1], x[2] * y[0] - x[0] * y[2], x[0] * y[1] - x[1] * y[0])
        assert crossed == pytest.approx(z)
        assert sum(value * value for value in x) == 1


@pytest.mark.parametrize("name", [*DEMOS, *SPECS])
def test_numbers_count_from_one(name: str) -> None:
    """Setups and steps are numbered as they are worked through."""
    plan = plan_of(name)
    assert [setup.number for setup in plan.setups] == list(range(1, len(plan.setups) + 1))
    for setup in plan.setups:
        assert [step.number for step in setup.steps] == list(range(1, len(setup.steps) + 1))
        assert setup.steps[-1].operation == "file"


def test_turned_front_over_back() -> None:
    """The front edge goes to the fixed jaw: about X by half a turn; the bore that zero comes from is no witness."""
    second = setup_of("hole-limits-below", 2)
    assert (second.turn.axis, abs(second.turn.angle_deg)) == ("x", 180)
    assert second.witness is None
    assert any("go by the corner mark" in line for line in second.before_cutting)


def test_first_setup_drives_to_two_corners() -> None:
    """Without a witness the finished corners are driven to: raw metal has to stand outside both."""
    line = next(text for text in setup_of("level-leave-box", 1).before_cutting if "raw metal" in text)
    assert "X -60.000 Y 0.000 and to X 0.000 Y +40.000" in line
