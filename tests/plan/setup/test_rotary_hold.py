"""Held on a rotary table: the table, its packing and clamps as bodies and words; what stands in the way."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

import pytest

from setupsheet.finding import Findings
from setupsheet.part.part import HoldAsked, Part, Rest
from setupsheet.part.shop import Shop
from setupsheet.plan.make import make_plan
from setupsheet.plan.record import Body, Setup
from setupsheet.solid.solids import make_solids
from tests.plan.planned import read, setup_of

NAMES = ("rotary-rounded-end", "rotary-corner", "rotary-groove", "rotary-boss")


def _clamps(setup: Setup) -> list[Body]:
    return [body for body in setup.hold.bodies if body.name == "clamp"]


def _planned(name: str, part: Callable[[Part], Part], shop: Callable[[Shop], Shop] = lambda shop: shop) -> Findings:
    """Return what is found when a part of the corpus or its shop is changed."""
    own, tools = read(name)
    changed = part(own)
    solids, _ = make_solids(changed)
    return list(make_plan(changed, shop(tools), solids).findings)


def _held(**fields: object) -> Callable[[Part], Part]:
    """Return a change of how the last setup is held."""

    def change(part: Part) -> Part:
        *first, last = part.setups
        assert last.hold is not None
        hold: HoldAsked = replace(last.hold, **fields)  # type: ignore[arg-type]
        return replace(part, setups=(*first, replace(last, hold=hold)))

    return change


@pytest.mark.parametrize("name", NAMES)
def test_zero_is_the_axis(name: str) -> None:
    """X and Y are zero over the table's middle, both by the indicator; only X and Y have the angle step."""
    setup = setup_of(name, 3)
    assert [(zero.axis, zero.method) for zero in setup.zero[:2]] == [("x", "indicate"), ("y", "indicate")]
    table = setup.hold.bodies[0]
    assert (table.low[:2], table.high[:2], table.radius_mm) == ((0.0, 0.0), (0.0, 0.0), 75.0)
    assert [setup.readout[axis].angle_step_deg for axis in "xyz"] == pytest.approx([1 / 12, 1 / 12, 0.0])
    assert setup.counts["angle"] == 1


@pytest.mark.parametrize("name", NAMES)
def test_packing_lies_between(name: str) -> None:
    """The table's face lies as far below the part as the packing is high, and no cutter goes as deep."""
    setup = setup_of(name, 3)
    face = setup.hold.bodies[0].high[2]
    packing = 12.0 if name == "rotary-corner" else 10.0
    assert setup.hold.jaw_top_z - face == pytest.approx(packing)
    assert all(arc.z > face for step in setup.steps for arc in step.arcs)
    assert any("packing" in words for words in setup.hold.words)


@pytest.mark.parametrize("name", NAMES)
def test_the_part_can_neither_slide_nor_turn(name: str) -> None:
    """Two clamps, or one and a bolt through the bore; each bolt finds the table."""
    setup = setup_of(name, 3)
    bolt = [body for body in setup.hold.bodies if body.name == "bolt and washer"]
    assert len(_clamps(setup)) + len(bolt) >= 2
    assert bool(bolt) == (name == "rotary-rounded-end")
    for nut in (body for body in setup.hold.bodies if body.name == "clamp's nut"):
        assert math.hypot(*nut.low[:2]) + nut.radius_mm <= 75.0


@pytest.mark.parametrize("name", NAMES)
def test_no_clamp_where_a_cutter_comes(name: str) -> None:
    """Every arc and every place where a cutter finds Z keeps clear of every clamp."""
    setup = setup_of(name, 3)
    for step in setup.steps:
        radius = step.tool.diameter_mm / 2 if step.tool else 0.0
        touch = [(step.touch_off.x, step.touch_off.y)] if step.touch_off else []
        for clamp in _clamps(setup):
            for x, y in touch:
                aside = [max(clamp.low[i] - at, 0.0, at - clamp.high[i]) for i, at in enumerate((x, y))]
                assert math.hypot(*aside) >= radius
            for arc in step.arcs:
                for i in range(37):
                    angle = math.radians(arc.from_deg + (arc.to_deg - arc.from_deg) * i / 36)
                    at = (arc.radius * math.cos(angle), arc.radius * math.sin(angle))
                    aside = [max(clamp.low[k] - at[k], 0.0, at[k] - clamp.high[k]) for k in (0, 1)]
                    assert math.hypot(*aside) >= radius


def test_a_bore_is_centred_by_a_pin_a_point_by_edges() -> None:
    """A bore that is there takes a pin or the indicator; a bare point comes over the middle by two edges."""
    assert any("a pin 12.000 in it" in words for words in setup_of("rotary-rounded-end", 3).hold.words)
    (words,) = [words for words in setup_of("rotary-corner", 3).hold.words if "edge finder" in words]
    assert "X +23.000 on your right and Y +23.000 at the back" in words  # 18 and half the tip of 10


def test_a_shop_without_a_table() -> None:
    """Work on a table that nobody has is an error."""
    found = _planned("rotary-corner", lambda part: part, lambda shop: replace(shop, rotary_tables=()))
    assert "no-rotary-table" in [finding.code for finding in found]


@pytest.mark.parametrize(("height", "codes"), [(0.4, ["cuts-into-rotary-table"]), (0.6, [])])
def test_low_packing(height: float, codes: list[str]) -> None:
    """The end is cut 0.5 below the part: packing of 0.4 lets the cutter into the table, 0.6 just does not."""
    found = _planned("rotary-rounded-end", _held(rest=Rest("packing", "A", height)))
    assert [f.code for f in found if f.code == "cuts-into-rotary-table"] == codes


def test_a_small_table_has_no_room_for_clamps() -> None:
    """On a table of 80 no bolt beside this plate finds a slot; on one of 150 two do."""

    def small(shop: Shop) -> Shop:
        return replace(shop, rotary_tables=(replace(shop.rotary_tables[0], diameter_mm=80.0),))

    found = _planned("rotary-groove", lambda part: part, small)
    assert "no-room-for-clamps" in [finding.code for finding in found]
    assert "no-room-for-clamps" not in [f.code for f in _planned("rotary-groove", lambda part: part)]


def test_a_round_beside_the_axis() -> None:
    """A corner whose centre is not over the middle is cut by points, and the sheet says why."""
    found = _planned("rotary-corner", lambda part: replace(part, points={"middle": (50.0, 32.0)}))
    assert "centre-off-table-axis" in [finding.code for finding in found]
