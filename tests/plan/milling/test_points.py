"""Tables of points: how high the ridges are, how many steps that takes, where each cut stops."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setupsheet.plan.milling import points
from tests.parts import block
from tests.plan.planned import bench


def test_ridge_and_spacing_on_a_straight_edge() -> None:
    """Cutter 12, ridge 0.1: spacing 2 sqrt(36 - 34.81) = 2.1817; and back."""
    spacing = points.line_spacing(6.0, 0.1)
    assert spacing == pytest.approx(2.18174, abs=1e-5)
    assert points.line_ridge(6.0, spacing) == pytest.approx(0.1)


def test_ridge_of_the_hand_sheet() -> None:
    """Slant of 16.97 in eight steps of 2.121 leaves 0.09 as the bracket's hand sheet says."""
    assert points.line_ridge(6.0, 12 * math.sqrt(2) / 8) == pytest.approx(0.09, abs=0.005)


def test_ridge_on_a_round_edge() -> None:
    """R10, cutter 12, steps of 10 degrees: 16 cos 5 - sqrt(36 - (16 sin 5)^2) - 10 = 0.1034 (hand sheet: 0.10)."""
    assert points.round_ridge(10.0, 6.0, 10.0) == pytest.approx(0.1034, abs=5e-5)


def test_cuts_that_do_not_meet_leave_no_ridge_but_a_wall() -> None:
    """R20, cutter 12, 30 degrees apart: 26 sin 15 = 6.73 is more than the cutter's radius."""
    assert points.round_ridge(20.0, 6.0, 30.0) == math.inf


@given(edge=st.floats(1, 60), radius=st.floats(2, 12), sweep=st.sampled_from([90.0, 180.0]))
def test_steps_are_as_few_as_the_ridge_allows(edge: float, radius: float, sweep: float) -> None:
    """The count keeps the ridge under its height; one step fewer would not, or would be over 30 degrees."""
    count = points.steps_for(edge, radius, sweep, points.RIDGE_MM)
    assert points.round_ridge(edge, radius, sweep / count) <= points.RIDGE_MM
    fewer = count - 1
    assert sweep / max(fewer, 1) > 30 or points.round_ridge(edge, radius, sweep / fewer) > points.RIDGE_MM


def test_centre_path_round_a_boss() -> None:
    """D16: about a boss of 30 with a cutter of 12 the centre keeps to radius 21."""
    path = points.round_corner((0.0, 0.0), 15.0, 0.0, 90.0, 6.0)
    assert path[0] == pytest.approx((21.0, 0.0))
    assert path[-1] == pytest.approx((0.0, 21.0))
    assert [math.hypot(*point) for point in path] == pytest.approx([21.0] * len(path))


def test_points_along_a_slant() -> None:
    """From (0, 0) to (12, 12), metal to the lower right: centres 6 off it to the upper left, ends included."""
    outward = (-math.sqrt(0.5), math.sqrt(0.5))
    path = points.along_line((0.0, 0.0), (12.0, 12.0), outward, 6.0)
    assert len(path) == 9
    assert path[0] == pytest.approx((-4.24264, 4.24264), abs=1e-5)
    assert path[-1] == pytest.approx((7.75736, 16.24264), abs=1e-5)


def test_stop_is_worked_out_for_the_step_that_is_set() -> None:
    """Step 17.628 shows as 17.630; there the circle of 18.25 stops at sqrt(18.25^2 - 17.63^2) = 4.7165, cut 4.720."""
    edge = points.on_circle((0.0, 0.0), 18.25, 0, -1.0)
    cut = points.PointCut((-4.7234, -17.6282), 0, -18.25, "front left")
    settled = points.settle(bench(block()), cut, edge)
    assert settled.stop == pytest.approx((-4.720, -17.630))


@pytest.mark.parametrize(("feed", "side", "stop"), [(0, 1.0, 4.0), (0, -1.0, -2.0), (1, 1.0, 5.0), (1, -1.0, -1.0)])
def test_on_circle_from_each_side(feed: int, side: float, stop: float) -> None:
    """Circle of 5 about (1, 2), 4 across from its centre: 3 either way along the feed."""
    across = 6.0 if feed == 0 else 5.0
    assert points.on_circle((1.0, 2.0), 5.0, feed, side)(across) == pytest.approx(stop)


def test_moves_go_level_by_level() -> None:
    """All points at one height before the next: the reader sets the depth once."""
    cuts = [points.PointCut((float(i), 0.0), 1, 9.0, "g") for i in range(3)]
    moves = points.as_moves(cuts, [-1.0, -2.0], 5.0)
    assert [move.z for move in moves] == [-1.0] * 3 + [-2.0] * 3
    assert moves[1].path == ((1.0, 9.0), (1.0, 0.0))
    assert moves[0].z_clear == 7.0


def test_pairs_print_step_and_stop() -> None:
    """A cut along Y is read as: set X, feed to Y."""
    (pair,) = points.as_pairs(bench(block()), [points.PointCut((-50.245, 25.245), 1, 42.0, "words")])
    assert (pair.step_axis, pair.shown_step, pair.shown_stop, pair.group) == ("x", "-50.245", "+25.245", "words")
