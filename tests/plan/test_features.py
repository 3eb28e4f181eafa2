"""Features as other programs find them in plan.json."""

from __future__ import annotations

import pytest

from setupsheet.plan.features import callout_of, size_of
from tests.plan.planned import plan_of, read


def test_place_axis_and_limits_of_a_bore() -> None:
    """12 H7 at (34, 29), opening in the boss' top at 15."""
    bore = next(f for f in plan_of("worm-bracket").features if f.id == "bearing-bore")
    assert bore.places == ((34.0, 29.0, 15.0),)
    assert bore.axis == (0.0, 0.0, 1.0)
    assert (bore.size_mm, bore.lower_mm, bore.upper_mm) == (12.0, 12.0, 12.018)
    assert (bore.callout, bore.labels) == ("12 H7", ("bore",))


def test_side_holes_keep_their_face() -> None:
    """A hole from the right end at y 11, z 16 opens at x 50 and points along +X."""
    end = next(f for f in plan_of("hole-in-sides").features if f.id == "end-thread")
    assert end.places[0] == pytest.approx((50.0, 11.0, 16.0))
    assert end.axis == (1.0, 0.0, 0.0)


def test_holes_on_a_level_open_there() -> None:
    """A hole on the step at 8 has its place at that height."""
    screw = next(f for f in plan_of("hole-on-level").features if f.id == "screw")
    assert screw.places == ((48.0, 15.0, 8.0),)


def test_made_in_names_setups_and_steps() -> None:
    """The bracket's bore is made in setup 1 and chamfered in setup 2; each step is one that names it."""
    plan = plan_of("worm-bracket")
    bore = next(f for f in plan.features if f.id == "bearing-bore")
    assert {made.setup for made in bore.made_in} == {1, 2}
    for made in bore.made_in:
        assert "bearing-bore" in plan.setups[made.setup - 1].steps[made.step - 1].features


def test_the_one_size_of_each_kind() -> None:
    """A boss is known by its diameter, a level by its height, a corner by its radius."""
    part, _ = read("worm-bracket")
    sizes = {f.id: size_of(f) for f in part.features}
    shown = {id_: size.nominal_mm for id_, size in sizes.items() if size}
    assert (shown["boss"], shown["flange-level"], shown["round-corner"], shown["left-end"]) == (24.0, 6.0, 10.0, 34.0)
    assert callout_of(part.feature("motor-screws"), sizes["motor-screws"]) == "M5"
