"""Passes, stops and heights of milling an area."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setupsheet.plan.milling import area, passes
from setupsheet.plan.milling.milling import FLOOR_MM, WALL_MM, AreaWork, heights_down, mill_area, pass_heights, stops_of
from setupsheet.plan.milling.mills import MillNeed, pick_mill
from setupsheet.plan.record import Step
from tests.parts import block
from tests.plan.planned import bench


def test_whole_depths_are_counted_up_from_the_floor() -> None:
    """15 to 6 in 1.2: 6.1 and seven more above it, then the floor (the bracket's flange)."""
    heights = heights_down(15.0, 6.0, 1.2, FLOOR_MM)
    assert heights == pytest.approx([14.5, 13.3, 12.1, 10.9, 9.7, 8.5, 7.3, 6.1, 6.0])


def test_a_first_pass_never_rubs() -> None:
    """1.5 down in 1.2 (the bracket's relief): 0.7 and 0.7, not 0.2 and 1.2, then the floor."""
    assert heights_down(0.0, -1.5, 1.2, FLOOR_MM) == pytest.approx([-0.7, -1.4, -1.5])


def test_side_cuts_are_divided_evenly() -> None:
    """0 to -8.5 no deeper than 4.5: two of 4.25."""
    assert heights_down(0.0, -8.5, 4.5, 0.0) == pytest.approx([-4.25, -8.5])


def test_one_pass_where_one_is_enough() -> None:
    """Half a millimetre of facing is one pass, straight to the floor."""
    assert heights_down(0.5, 0.0, 1.0, FLOOR_MM) == [0.0]


@given(total=st.floats(0.05, 60), depth=st.floats(0.3, 8), finish=st.sampled_from([0.0, 0.1]))
def test_no_pass_is_deeper_than_allowed(total: float, depth: float, finish: float) -> None:
    """Heights fall, end on the floor, and no pass takes more than the depth."""
    heights = [total, *heights_down(total, 0.0, depth, finish)]
    assert heights[-1] == pytest.approx(0.0, abs=1e-9)
    assert all(1e-12 < a - b <= depth + 1e-6 for a, b in pairwise(heights))


def _shelf() -> tuple[AreaWork, Step]:
    part = block()
    clamped = bench(part)
    target, keep = area.rectangle((-2.0, -2.0), (10.0, 32.0)), area.rectangle((10.0, -2.0), (42.0, 32.0))
    work = AreaWork("mill", "shelf", ("shelf",), target, keep, 0.0, -2.5)
    cutter = pick_mill(clamped, MillNeed(target, keep, 2.5))
    return work, mill_area(clamped, work, cutter)


def test_shelf_stops_a_cutter_radius_before_its_wall() -> None:
    """Wall at X 10, cutter 12: last stop X 4.000, rough 3.800, metal on the right."""
    _, step = _shelf()
    assert [(lim.axis, lim.shown, lim.shown_rough, lim.side) for lim in step.limits] == [
        ("x", "+4.000", "+3.800", "right")
    ]


def test_wall_is_cut_last_at_full_depth_with_the_metal_on_the_left() -> None:
    """The last pass runs at the floor towards the reader, so that X+ metal lies on its left: conventional."""
    _, step = _shelf()
    last = [move for move in step.moves if move.why == "last"]
    assert [move.z for move in last] == [-2.5]
    assert last[0].path[0][1] > last[0].path[-1][1]
    assert step.direction == "conventional"
    assert max(p[0] for move in step.moves if move.why == "rough" for p in move.path) <= 4.0 - WALL_MM + 1e-9


def test_heights_are_printed_once_each() -> None:
    """The sheet shows the heights from the top down, the floor last."""
    work, step = _shelf()
    depth = 1.2
    assert pass_heights(work, depth)[-1] == -2.5
    assert step.z_shown[-1] == "-2.500"
    assert len(step.z_shown) == len(set(step.z_shown))


def test_area_without_walls_prints_its_lines() -> None:
    """Facing has no stop: the sheet gives the Y of each pass instead."""
    clamped = bench(block())
    target = area.rectangle((-2.0, -2.0), (42.0, 32.0))
    work = AreaWork("face", "face", (), target, area.nothing(), 2.0, 0.0)
    step = mill_area(clamped, work, pick_mill(clamped, MillNeed(target, area.nothing(), 2.0)))
    assert step.limits == ()
    assert step.where.startswith("passes at Y ")


def test_stops_are_named_once() -> None:
    """Two passes along one line are one stop."""
    wall = passes.Pass(((4.0, 9.0), (4.0, 0.0)), outside=True)
    assert [(stop.axis, stop.value, stop.side) for stop in stops_of([wall, wall])] == [("x", 4.0, "right")]
