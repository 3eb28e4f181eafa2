"""Pockets, windows and slots: cutter, floor, entry."""

from __future__ import annotations

import pytest

from setupsheet.plan.record import Step
from tests.plan.planned import setup_of


def _step(name: str, feature: str) -> Step:
    return next(step for step in setup_of(name, 1).steps if feature in step.features)


def test_pocket_takes_a_cutter_of_its_corners() -> None:
    """Corner radius 4: end mill 8; walls 10 to 42 and 9 to 29 give stops 14, 38, 13, 25; floor at -5."""
    step = _step("pocket-corner-radius", "recess")
    assert step.tool is not None
    assert step.tool.diameter_mm == 8.0
    stops = {(limit.axis, limit.shown) for limit in step.limits}
    assert stops == {("x", "+14.000"), ("x", "+38.000"), ("y", "+13.000"), ("y", "+25.000")}
    assert step.z_shown[-1] == "-5.000"
    assert {move.entry for move in step.moves if move.why == "rough"} == {"plunge"}


def test_window_goes_half_past_the_far_side() -> None:
    """12 thick: down to -12.500, over the vise's bed 26 lower."""
    step = _step("window", "window")
    assert step.z_shown[-1] == "-12.500"


def test_closed_slot_is_plunged_into() -> None:
    """Along Y +17 from X 15 to 34, cutter 6, down to -12.500; the cutter must cut to its centre."""
    step = _step("slot-closed", "tension")
    assert {move.entry for move in step.moves} == {"plunge"}
    assert [value for point in step.moves[-1].path for value in point] == pytest.approx([15.0, 17.0, 34.0, 17.0])
    assert step.where == "Y +17.000; X +15.000 to +34.000"
    assert any("cuts to its centre" in word for word in step.words)


def test_open_slot_comes_in_from_outside() -> None:
    """Open at the right end of 60: starts clear of it and ends at the round end's centre, X 36."""
    step = _step("slot-open", "fork")
    assert {move.entry for move in step.moves} == {"outside"}
    assert step.moves[0].path[0][0] >= 60.0 + 4.0
    assert step.moves[0].path[-1] == pytest.approx((36.0, 15.0))


def test_slot_right_across_starts_outside() -> None:
    """From one open end right through the other, floor 4 below the top."""
    step = _step("slot-across", "key")
    assert {move.entry for move in step.moves} == {"outside"}
    ys = sorted(point[1] for point in step.moves[-1].path)
    assert ys[0] <= -4.0
    assert ys[1] >= 44.0
    assert step.z_shown[-1] == "-4.000"


def test_a_width_that_nobody_has() -> None:
    """A slot of 7 with the owned 6: once along each wall, half a millimetre either side of the middle at 17."""
    step = _step("slot-odd-width", "guide")
    assert step.tool is not None
    assert (step.tool.diameter_mm, step.tool.owned) == (6.0, True)
    ys = {round(point[1], 6) for move in step.moves for point in move.path}
    assert (min(ys), max(ys)) == pytest.approx((16.5, 17.5))
