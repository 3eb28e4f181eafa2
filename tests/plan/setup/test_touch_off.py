"""Where each new cutter finds Z again."""

from __future__ import annotations

import math

import pytest

from setupsheet.part.face import Face
from setupsheet.part.feature import Level
from setupsheet.part.shape import BoxShape
from setupsheet.plan.holes.holes import LOCKED
from setupsheet.plan.milling import area
from setupsheet.plan.setup.sequence import NO_TOUCH
from setupsheet.plan.setup.touch_off import CLEAR_MM, lasting_top, places, touch_off
from setupsheet.solid.volume import EdgeLoop, LineEdge, Prism
from tests.parts import HERE, block, hole, size
from tests.plan.planned import DEMOS, SPECS, bench, plan_of

STEP = Level("step", HERE, Face.TOP, BoxShape((20.0, 0.0), (40.0, 30.0)), size(8.0))
BORE = hole(Face.TOP, (10.0, 15.0), size(12.0), 20.0, 0.0)


def _faced() -> Prism:
    corners = ((-9.0, -9.0), (60.0, -9.0), (60.0, 50.0), (-9.0, 50.0))
    edges = tuple(LineEdge(a, b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True))
    return Prism(2, EdgeLoop(edges), (), 20.0, 30.0)


def test_before_facing_the_raw_top_serves() -> None:
    """Raw top 2 over zero, feeler 0.1: Z +2.100."""
    clamped = bench(block())
    found = touch_off(clamped, (), places(clamped))
    assert found is not None
    assert (found.key_in, found.surface) == ("Z +2.100", "the raw top")


def test_after_facing_the_finished_top_serves() -> None:
    """On the faced top: Z +0.100, in whole millimetres."""
    clamped = bench(block())
    found = touch_off(clamped, (_faced(),), places(clamped))
    assert found is not None
    assert (found.key_in, found.surface) == ("Z +0.100", "the finished top")
    assert (found.x, found.y) == pytest.approx((round(found.x), round(found.y)))


def test_place_is_clear_of_holes_and_of_what_is_cut_later() -> None:
    """Not on the step that will be milled, not over the bore, and 1.5 from any edge."""
    clamped = bench(block(STEP, BORE))
    top = lasting_top(clamped)
    assert area.size(top) == pytest.approx(600 - math.pi * 36, rel=5e-3)
    for x, y in places(clamped).lasting:
        assert CLEAR_MM <= x <= 20 - CLEAR_MM
        assert CLEAR_MM <= y <= 30 - CLEAR_MM
        assert math.dist((x, y), (10.0, 15.0)) >= 6 + CLEAR_MM - 1e-6


def test_no_place_where_nothing_stands() -> None:
    """With all metal gone there is nothing to touch."""
    clamped = bench(block())
    gone = Prism(2, _faced().outer, (), -9.0, 30.0)
    assert touch_off(clamped, (gone,), places(clamped)) is None


@pytest.mark.parametrize("name", [*DEMOS, *SPECS])
def test_every_change_of_cutter_is_touched_off(name: str) -> None:
    """Every cutter that follows another one is set again, also after the scriber and at the start of a setup.

    A cutter that goes on in a through hole with the table locked says that it is not, since touching off
    would move the table. A part at an angle has one cutter, and that cutter finds Z on the pin or the corner.
    """
    for setup in plan_of(name).setups:
        if setup.angle_setting is not None:
            assert len({step.tool.label for step in setup.steps if step.tool}) == 1
            continue
        last = ""
        for step in setup.steps:
            if step.tool is None:
                last = "" if step.operation == "scribe" else last
                continue
            stays = any(words.startswith(NO_TOUCH) for words in step.words)
            new = step.tool.label != last and step.removes and not stays
            assert (step.touch_off is not None) == new, (setup.name, step.title)
            assert not stays or LOCKED in step.words, (setup.name, step.title)
            last = step.tool.label
