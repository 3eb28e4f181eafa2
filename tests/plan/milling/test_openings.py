"""Pockets, windows and slots: cutter, floor, entry."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest

from setupsheet.part.face import Face
from setupsheet.part.feature import Slot
from setupsheet.part.shape import SlotShape
from setupsheet.plan.milling.openings import slot_drafts
from setupsheet.plan.record import Step
from tests.parts import HERE, block, size
from tests.plan.planned import bench, setup_of, small_shop


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


def _slot_steps(flutes: tuple[int, ...], floor: float | None) -> list[Step]:
    """Return the steps of a slot 8 wide, closed, in a shop that owns end mills 8 with so many flutes."""
    shop = small_shop()
    mill = next(c for c in shop.cutters if c.kind == "end mill")
    own = tuple(
        replace(mill, diameter_mm=8.0, label=f"end mill 8, {count} flutes", flutes=count, flute_length_mm=26.0)
        for count in flutes
    )
    shop = replace(shop, cutters=(*(c for c in shop.cutters if c.kind != "end mill"), *own))
    sized = None if floor is None else size(floor)
    slot = Slot("key", HERE, Face.TOP, SlotShape((12.0, 15.0), (28.0, 15.0), 8.0), size(8.0), 20.0, sized, 0.0)
    clamped = bench(block(slot), None, shop)
    return [draft.step for draft in slot_drafts(clamped, (), slot)[0]]


def test_a_closed_slot_is_plunged_by_a_slot_drill() -> None:
    """Of two cutters of the slot's width the one with two flutes cuts to its centre."""
    steps = _slot_steps((4, 2), 10.0)
    assert [step.tool.label for step in steps if step.tool] == ["end mill 8, 2 flutes"]
    assert {move.entry for move in steps[0].moves} == {"plunge"}


def test_four_flutes_go_down_a_drilled_hole_or_a_ramp() -> None:
    """Through: a drill 0.4 under the width first, where the slot begins; over a floor: to and fro, ever lower."""
    drilled, milled = _slot_steps((4,), None)
    assert drilled.operation == "drill"
    assert drilled.tool is not None
    assert drilled.tool.diameter_mm <= 7.6
    assert (drilled.positions[0].x, drilled.positions[0].y) == milled.moves[0].path[0]
    assert {move.entry for move in milled.moves} == {"drilled"}
    (ramped,) = _slot_steps((4,), 10.0)
    assert {move.entry for move in ramped.moves} == {"ramp"}


def test_no_pass_of_a_slot_runs_in_air() -> None:
    """Open at the left, out over an edge that is finished already: the first pass is less than a depth below the top.

    The blank's box reaches higher and farther, but nothing stands there any more.
    """
    step = _step_of("hinge-block", 7, "leaf-slot")
    top = 28.0
    depths = [a - b for a, b in pairwise([top, *dict.fromkeys(move.z for move in step.moves)])]
    assert all(0 < depth <= 0.175 * 10 + 1e-6 for depth in depths)  # steel, from memory: 0.1 to 0.25 of the diameter


def _step_of(name: str, number: int, feature: str) -> Step:
    return next(step for step in setup_of(name, number).steps if feature in step.features)
