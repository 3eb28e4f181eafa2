"""The setup that is being planned: what stands, what metal is there, seen in the setup frame."""

from __future__ import annotations

import pytest

from setupsheet.part.face import Face
from setupsheet.part.feature import Keep, Level, RoundBoss
from setupsheet.part.shape import BoxShape, CircleShape
from setupsheet.plan import bench as benches
from setupsheet.plan.milling import area
from setupsheet.solid.volume import EdgeLoop, LineEdge, Prism
from tests.parts import HERE, block, size
from tests.plan.planned import asked, bench

STEP = Level("step", HERE, Face.TOP, BoxShape((30.0, 0.0), (40.0, 30.0)), size(8.0))
BOSS = RoundBoss("boss", HERE, Face.TOP, (15.0, 15.0), size(10.0), size(20.0))
ALL = Level("all", HERE, Face.TOP, None, size(6.0), (Keep(CircleShape((15.0, 15.0), 10.0), "boss"),))


def _prism(x0: float, x1: float, low: float, high: float) -> Prism:
    corners = ((x0, -9.0), (x1, -9.0), (x1, 50.0), (x0, 50.0))
    edges = tuple(LineEdge(a, b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True))
    return Prism(2, EdgeLoop(edges), (), low, high)


def test_boxes_in_the_setup_frame() -> None:
    """Zero at left, front, top: the part runs 0 to 40, 0 to 30 and down to -20; the stock 2 further all round."""
    clamped = bench(block())
    assert (clamped.envelope.low, clamped.envelope.high) == ((0, 0, -20), (40, 30, 0))
    assert (clamped.stock.low, clamped.stock.high) == ((-2, -2, -22), (42, 32, 2))
    assert benches.corners(clamped.envelope) == ((0, 0), (40, 30))
    assert area.size(benches.flat_box(clamped.stock)) == pytest.approx(44 * 34)


def test_heights_and_readings() -> None:
    """A height of 8 above the bottom lies at Z -12 from the top, +12 from the bottom when that is up."""
    assert bench(block()).z(8.0) == pytest.approx(-12.0)
    below = bench(block(), asked(Face.BOTTOM))
    assert below.z(8.0) == pytest.approx(-8.0)
    assert below.shown("z", -8.0) == "-8.000"
    assert below.settle("x", 1.0024) == pytest.approx(1.0)


def test_metal_now_and_when_finished() -> None:
    """Over (35, 15): stock from -22 to 2; after the step is cut up to -12; finished from -20."""
    clamped = bench(block(STEP))
    assert benches.metal_at(clamped, (), (35.0, 15.0)) == ((-22.0, 2.0),)
    gone = (_prism(30.0, 60.0, 8.0, 30.0),)
    assert benches.surface_at(clamped, gone, (35.0, 15.0)) == pytest.approx(-12.0)
    assert benches.finished_at(clamped, (35.0, 15.0)) == ((-20.0, -12.0),)
    assert benches.surface_at(clamped, gone, (90.0, 15.0)) is None


def test_metal_from_below() -> None:
    """Underside up with zero at the left: X runs the other way and heights are measured down from the bottom."""
    clamped = bench(block(STEP), asked(Face.BOTTOM))
    gone = (_prism(30.0, 60.0, 8.0, 30.0),)
    x = clamped.laid.flat((35.0, 15.0))[0]
    assert benches.metal_at(clamped, gone, (x, 15.0)) == ((-8.0, 2.0),)


def test_standing_leaves_out_what_is_cut_to_that_height() -> None:
    """At Z -12 the step does not stand: 30 x 30 does; just under it the whole plate."""
    clamped = bench(block(STEP))
    assert area.size(benches.standing(clamped, -12.0)) == pytest.approx(900)
    assert area.size(benches.standing(clamped, -12.5)) == pytest.approx(1200)


def test_bosses_stand_as_squares_with_an_allowance() -> None:
    """A boss of 10 stands as a square of 10.5 while its surroundings are milled to 6."""
    clamped = bench(block(BOSS, ALL))
    assert benches.bosses(clamped) == (BOSS,)
    assert area.size(benches.standing(clamped, -14.0)) == pytest.approx(10.5**2)
    assert benches.bosses(bench(block(BOSS), asked(Face.BOTTOM))) == ()


def test_opening_spares_the_boss() -> None:
    """The level takes the plate less the round boss (drawn as a polygon about it)."""
    opened = area.size(benches.opening(bench(block(BOSS, ALL)), ALL))
    assert opened == pytest.approx(1200 - 78.54, abs=0.1)
    assert benches.floor_of(ALL) == size(6.0)
    assert benches.floor_of(BOSS) is None


def test_top_over_a_region() -> None:
    """The greatest height over a region: lower only where something covers all of it."""
    clamped = bench(block())
    gone = (_prism(30.0, 60.0, 8.0, 30.0),)
    assert benches.top_over(clamped, gone, area.rectangle((31, 0), (39, 30))) == pytest.approx(-12.0)
    assert benches.top_over(clamped, gone, area.rectangle((20, 0), (39, 30))) == pytest.approx(2.0)
    assert area.size(benches.metal_above(clamped, gone, -12.0)) == pytest.approx(32 * 34)
