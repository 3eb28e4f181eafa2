"""Holding in the vise: grip, parallels, jaws, and what does not fit."""

from __future__ import annotations

from dataclasses import replace

import pytest

from setupsheet.part.face import Face
from setupsheet.part.part import HoldAsked, Part, Rest, SetupAsked
from setupsheet.part.shop import Shop
from setupsheet.plan.bench import Removed
from setupsheet.plan.setup.hold import Grip, body_box, ends_out, grip, hold_plan
from setupsheet.plan.setup.zero import laid_for
from setupsheet.solid.volume import EdgeLoop, LineEdge, Prism
from tests.parts import HERE, block
from tests.plan.planned import asked, small_shop


def _grip(part: Part, setup: SetupAsked, shop: Shop | None = None, removed: Removed = ()) -> tuple[Grip, list[str]]:
    laid, _ = laid_for(part, setup)
    held, findings = grip(part, shop or small_shop(), laid, setup, removed)
    return held, [finding.code for finding in findings]


def test_grip_is_the_jaws_less_the_parallels() -> None:
    """Jaws 30 high on parallels of 25: 5 of grip; the tops lie 5 over the raw bottom at -22."""
    held, faults = _grip(block(), asked(grip_mm=5.0))
    assert (held.grip_mm, held.rest_z, held.jaw_top) == pytest.approx((5.0, -22.0, -17.0))
    assert held.parallel is not None
    assert held.parallel.height_mm == 25.0
    assert faults == []


def test_grip_that_no_parallels_give() -> None:
    """8 of grip wants parallels of 22; the nearest owned are 20, which grip 10."""
    held, faults = _grip(block(), asked(grip_mm=8.0))
    assert (held.grip_mm, faults) == (10.0, ["grip-not-reached"])


def test_a_third_of_the_height_where_nobody_says() -> None:
    """24 high: a third is 8, so parallels of 20 (grip 10) rather than 25 (grip 5)."""
    assert _grip(block(), asked())[0].grip_mm == 10.0


def test_named_parallels_are_taken() -> None:
    """'packing 12' under the part gives 18 of grip, owned or not."""
    hold = HoldAsked("vise", None, Rest("packing", "A", 12.0), {}, HERE)
    held, faults = _grip(block(), replace(asked(), hold=hold))
    assert (held.grip_mm, faults) == (18.0, [])


def test_part_too_wide_for_the_vise() -> None:
    """90 of stock between jaws that open 80."""
    part = block(high=(40.0, 86.0, 20.0))
    assert _grip(part, asked())[1] == ["vise-too-small"]
    assert _grip(part, asked(back=Face.LEFT))[1] == []


@pytest.mark.parametrize(("face", "jaws"), [(Face.LEFT, (12.0, 112.0)), (Face.RIGHT, (-72.0, 28.0))])
def test_overhang(face: Face, jaws: tuple[float, float]) -> None:
    """14 of the raw end stand out past the jaws: they begin or end there."""
    hold = HoldAsked("vise", 5.0, None, {face: 14.0}, HERE)
    assert _grip(block(), replace(asked(), hold=hold))[0].jaws_x == pytest.approx(jaws)


def test_jaws_about_the_middle() -> None:
    """Without an overhang jaws of 100 stand evenly about 40 of part."""
    assert _grip(block(), asked())[0].jaws_x == pytest.approx((-30.0, 70.0))


def test_body_box_counts_what_is_gone() -> None:
    """With 2 mm faced off the top the body ends at 20, not at 22."""
    corners = ((-9.0, -9.0), (60.0, -9.0), (60.0, 50.0), (-9.0, 50.0))
    edges = tuple(LineEdge(a, b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True))
    part = block()
    laid, _ = laid_for(part, asked())
    gone = (Prism(2, EdgeLoop(edges), (), 20.0, 30.0),)
    assert body_box(part, laid, gone).high[2] == pytest.approx(0.0)
    assert body_box(part, laid, ()).high[2] == pytest.approx(2.0)


def test_ends_past_the_jaws_are_told_though_nobody_asked() -> None:
    """Jaws of 100 about the middle of 130 of part and its stock: half of what is left stands out at each end."""
    part = block(high=(130.0, 40.0, 20.0))
    held, _ = _grip(part, asked())
    out = (held.box.size[0] - 100.0) / 2
    assert ends_out(held, asked()) == pytest.approx({Face.LEFT: out, Face.RIGHT: out})
    words = " ".join(hold_plan(part, held, asked(), 0.0, ()).words)
    assert f"left end stands {out:g} and its right end {out:g} out past the jaws: light cuts" in words


def test_an_end_that_was_asked_for_is_told_once() -> None:
    """14 at the left as asked: the rest of 134 less jaws of 100 stands out at the right."""
    part = block(high=(130.0, 40.0, 20.0))
    setup = replace(asked(), hold=HoldAsked("vise", 5.0, None, {Face.LEFT: 14.0}, HERE))
    held, _ = _grip(part, setup)
    words = hold_plan(part, held, setup, 0.0, ()).words
    assert sum("left end" in line for line in words) == 1
    assert any(f"right end stands {held.box.size[0] - 114:g} out" in line for line in words)


def test_no_end_is_told_of_a_part_between_the_jaws() -> None:
    """40 of part in jaws of 100, and 100.8 of it in the same: less than anybody sees."""
    for length in (40.0, 96.8):
        part = block(high=(length, 40.0, 20.0))
        held, _ = _grip(part, asked())
        assert ends_out(held, asked()) == {}
        assert "out past the jaws" not in " ".join(hold_plan(part, held, asked(), 0.0, ()).words)


def test_proud_before_and_after() -> None:
    """24 of stock in 5 of grip: 19 proud, 17 once the top is faced to Z 0."""
    held, _ = _grip(block(), asked(grip_mm=5.0))
    plan = hold_plan(block(), held, asked(grip_mm=5.0), 0.0, ())
    assert (plan.proud_before_mm, plan.proud_after_mm) == pytest.approx((19.0, 17.0))
    assert plan.shown == {"grip": "5", "proud_before": "19", "proud_after": "17"}
    assert plan.rest == "parallels"


def test_bodies_touch_the_part_and_nothing_enters_it() -> None:
    """Jaws bear on the raw sides, parallels lie under it, one against each jaw; the bed is under those."""
    held, _ = _grip(block(), asked(grip_mm=5.0))
    bodies = {body.name: body for body in hold_plan(block(), held, asked(grip_mm=5.0), 0.0, ()).bodies}
    assert bodies["fixed jaw"].low[1] == pytest.approx(32.0)
    assert bodies["moving jaw"].high[1] == pytest.approx(-2.0)
    assert bodies["parallel at the front"].high == pytest.approx((70.0, 4.0, -22.0))
    assert bodies["parallel at the back"].low[1] == pytest.approx(26.0)
    assert bodies["vise bed"].high[2] == pytest.approx(-47.0)


def test_no_vise() -> None:
    """Clamped to the table: no jaws, the table as the only body."""
    held, _ = _grip(block(), replace(asked(), in_vise=False))
    plan = hold_plan(block(), held, asked(), 0.0, ())
    assert (held.vise, plan.in_, [body.name for body in plan.bodies]) == (None, "clamps", ["table"])


def test_packing_at_the_ends_is_told_and_drawn_where_parallels_would_lie_under_a_hole() -> None:
    """Parallels of 6 between jaws 34 apart find no room beside a hole of 22; pieces of 10 lie at both ends of 44."""
    held, _ = _grip(block(), asked())
    hold = hold_plan(block(), held, asked(), 0.0, ((20.0, 15.0, 11.0),))
    assert hold.rest == "packing"
    assert hold.words[0].startswith(
        "on two equal pieces of packing 20 high and 10 wide, across the vise, one at the left"
    )
    pieces = [body for body in hold.bodies if body.name.startswith("packing")]
    assert [(body.low[0], body.high[0]) for body in pieces] == [(-2.0, 8.0), (32.0, 42.0)]
    assert {(body.low[1], body.high[1]) for body in pieces} == {held.jaws_y}
    assert {body.high[2] for body in pieces} == {held.rest_z}
