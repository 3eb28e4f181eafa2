"""A round boss: its square, its corners by points, the settings of the boring head, and what forbids it."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setupsheet.part.face import Face
from setupsheet.part.feature import Keep, Level, RoundBoss
from setupsheet.part.shape import BoxShape, CircleShape
from setupsheet.part.shop import BoringHead, Cutter, Shop
from setupsheet.plan.bench import Bench
from setupsheet.plan.milling import boss as bosses
from tests.parts import HERE, block, size
from tests.plan.planned import INCH_DIAL, asked, bench, small_shop

HEAD = BoringHead("boring head 50", 10.0, 40.0, 10.0, 60.0, 40.0, "diameter", 0.02, True, 400)
BOSS = RoundBoss("boss", HERE, Face.TOP, (20.0, 15.0), size(24.0, 23.85, 23.95), size(20.0))
FLOOR = Level("floor", HERE, Face.TOP, None, size(8.0), (Keep(CircleShape((20.0, 15.0), 24.0), "boss"),))
MILL = Cutter("end mill", "end mill 12", 12.0, flutes=4, flute_length_mm=26.0)


def _bench(*more: Level, shop: Shop | None = None) -> Bench:
    part = block(BOSS, FLOOR, *more, high=(80.0, 60.0, 20.0))
    return bench(part, asked(), shop or small_shop())


def test_settings_of_the_hand_sheet() -> None:
    """From ridges of 25.17 to 23.90: set 25.2, 24.6, 24.2, 24.0, then 23.90 twice."""
    assert bosses.head_settings(25.17, 23.90, HEAD) == pytest.approx([25.2, 24.6, 24.2, 24.0, 23.9, 23.9])


def test_dial_that_reads_the_radius() -> None:
    """D14, D15: half the difference on the radius; a division of 0.02 there is 0.04 on the diameter."""
    head = replace(HEAD, dial_reads="radius")
    settings = bosses.head_settings(31.0, 30.0, head)
    assert all(abs(value / 0.04 - round(value / 0.04)) < 1e-6 for value in settings)
    assert settings[-1] == pytest.approx(30.0)


@given(first=st.floats(20.0, 40.0), less=st.floats(0.5, 3.0))
def test_settings_close_in(first: float, less: float) -> None:
    """They begin outside the ridges, shrink by 0.6 at most but for rounding, and the last is set twice."""
    settings = bosses.head_settings(first, first - less, HEAD)
    assert settings[0] >= first - 0.0101
    assert settings[-1] == settings[-2]
    assert abs(settings[-1] - (first - less)) <= 0.0101
    gaps = [a - b for a, b in pairwise(settings[:-1])]
    assert all(0 < gap <= 0.63 for gap in gaps)


def test_foot_is_the_floor_round_the_boss() -> None:
    """The level about it ends at 8 of 20: Z -12; with a higher floor beside it still the lowest that is clear."""
    assert bosses.foot_of(_bench(), BOSS) == pytest.approx(-12.0)


def test_corner_points_lie_on_the_circle_of_centres() -> None:
    """24 and 0.25 all round, cutter 12: radius 12.25 + 6 = 18.25 about the boss, five points at each corner."""
    clamped = _bench()
    step = bosses.corner_step(clamped, BOSS, MILL, 0.0, -12.0)
    ends = [move.path[-1] for move in step.moves if move.z == step.moves[-1].z]
    assert len(ends) == 20
    assert [((x - 20) ** 2 + (y - 15) ** 2) ** 0.5 for x, y in ends] == pytest.approx([18.25] * 20, abs=0.008)
    assert all(((x - 20) ** 2 + (y - 15) ** 2) ** 0.5 >= 18.25 - 0.005 for x, y in ends)
    assert step.words == ("leaves Ø 24.50 with ridges to Ø 25.17",)


@pytest.mark.parametrize("off", [0.0, 0.005, 0.0127, 0.02, 0.0253])
def test_the_square_s_touching_points_are_rounded_away_on_dials(off: float) -> None:
    """Where a square touches the circle the cut goes right through, however the dial's division falls."""
    dials = _bench(shop=small_shop(INCH_DIAL))
    centre = (20.0 + off, 15.0 - off)
    round_ = bosses.Round("floor", "floor", centre, 8.0)
    step = bosses.round_step(dials, round_, MILL, 20.0, 19.0)
    ends = [move.path[-1] for move in step.moves]
    for k in (0, 1):
        for sign in (-1, 1):
            far = max(sign * (end[k] - centre[k]) for end in ends)
            last = [end for end in ends if abs(sign * (end[k] - centre[k]) - far) < 1e-9]
            assert far >= 14.0 - INCH_DIAL.step_mm / 2
            assert min(abs(end[1 - k] - centre[1 - k]) for end in last) < 0.0255


def test_ridge_radius() -> None:
    """Ridges of 0.335 on 12.25: diameter 25.17, as the hand sheet says."""
    assert 2 * bosses.ridge_radius(BOSS, MILL) == pytest.approx(25.17, abs=0.01)


def test_a_circle_that_is_no_boss_is_made_by_points_and_file() -> None:
    """Ridges under 0.1, named as what the file takes; the four places where square and circle touch are cut too."""
    clamped = _bench()
    step = bosses.round_step(clamped, bosses.Round("floor", "circle 1 of floor", (20.0, 15.0), 8.0), MILL, 0.0, -4.0)
    ends = {move.path[-1] for move in step.moves}
    assert {(20.0, 1.0), (34.0, 15.0), (20.0, 29.0), (6.0, 15.0)} <= {(round(x, 6), round(y, 6)) for x, y in ends}
    assert step.leftover[0].kind == "cusp"
    assert step.leftover[0].bound_mm <= 0.106


def test_rings_go_down_to_just_over_the_floor() -> None:
    """The head stops 0.05 over the floor, sliding inward, never over its own speed."""
    step = bosses.ring_step(_bench(), BOSS, HEAD, 0.0, -12.0, 12.585)
    assert [ring.z_to for ring in step.rings] == pytest.approx([-11.95] * 6)
    assert [2 * ring.radius_inner for ring in step.rings] == pytest.approx([25.2, 24.6, 24.2, 24.0, 23.9, 23.9])
    assert 0 < step.rpm <= HEAD.max_rpm
    assert step.leftover[0].bound_mm == pytest.approx(0.05)


def _codes(shop: Shop, *more: Level) -> list[str]:
    return [finding.message.split(": ", 1)[1] for finding in bosses.why_not(_bench(*more, shop=shop), BOSS)]


def test_what_forbids_the_boring_head() -> None:
    """No head, no reverse, a head that unscrews, a boss too large: each is told; otherwise nothing."""
    shop = small_shop()
    assert _codes(replace(shop, boring_head=HEAD)) == []
    assert _codes(replace(shop, boring_head=None)) == ["the shop file has no boring head"]
    forward = replace(shop, boring_head=HEAD, machines=(replace(shop.machines[0], reverse=False),))
    assert _codes(forward) == ["the spindle of mill has no reverse"]
    assert "comes undone" in _codes(replace(shop, boring_head=replace(HEAD, shank_locked=False)))[0]
    assert "up to 20 mm only" in _codes(replace(shop, boring_head=replace(HEAD, max_boss_mm=20.0)))[0]


def test_a_wall_in_the_bar_s_way() -> None:
    """Radius 12 and a bar of 10 sweep out to 22; a pad that begins 20 from the centre is in the way."""
    pad = BoxShape((40.0, 0.0), (80.0, 60.0))
    floor = replace(FLOOR, leave=(*FLOOR.leave, Keep(pad)))
    part = block(BOSS, floor, high=(80.0, 60.0, 20.0))
    found = bosses.why_not(bench(part, asked(), replace(small_shop(), boring_head=HEAD)), BOSS)
    assert ["radius 22" in finding.message and "stands at 20" in finding.message for finding in found] == [True]


def test_the_cutter_round_a_boss_goes_between_it_and_a_wall() -> None:
    """A wall 20 from the centre leaves 7.7 beside the square of 12.3: no 12 and no 10 goes round, the 6 does."""
    pad = BoxShape((40.0, 0.0), (80.0, 60.0))
    part = block(BOSS, replace(FLOOR, leave=(*FLOOR.leave, Keep(pad))), high=(80.0, 60.0, 20.0))
    cutter = bosses.mill_for(bench(part, asked()), BOSS, 12.0)
    assert cutter.diameter_mm == 6.0
    assert bosses.mill_for(_bench(), BOSS, 12.0).diameter_mm == 12.0


def test_the_cutter_goes_from_corner_to_corner_above_what_stands_higher_than_the_boss() -> None:
    """A boss that ends at 14 of 20: the ways between its points lead over the faced top, not over the boss alone."""
    low = replace(BOSS, top=size(14.0))
    part = block(low, FLOOR, high=(80.0, 60.0, 20.0))
    clamped = bench(part, asked())
    made = bosses.filed_step(clamped, low, MILL, clamped.z(14.0), clamped.z(8.0))
    assert min(move.z_clear for move in made.moves) > clamped.envelope.high[2]
