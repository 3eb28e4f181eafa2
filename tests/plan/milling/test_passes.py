"""Rows and last ways along walls, by hand and over many boxes."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from setupsheet.part.shape import SlotShape
from setupsheet.plan.milling import area, passes
from setupsheet.plan.milling.passes import Clearing


def test_shelf_beside_an_edge() -> None:
    """A shelf 0.250 wide from the edge at X 0 with a cutter of 0.500: the spindle stands at X 0.000.

    Vertical-mill textbook (CC BY-SA 4.0, repository snapshot 2025-08-14), docs/07_locating_features.md, E53.
    """
    inch = 25.4
    target = area.rectangle((0, 0), (0.25 * inch, 2 * inch))
    keep = area.rectangle((0.25 * inch, -inch), (3 * inch, 3 * inch))
    shelf = Clearing(target, keep, 0.25 * inch, 5.0, 0.2)
    (wall,) = passes.wall_passes(shelf, passes.rough_passes(shelf))
    assert [point[0] for point in wall.path] == pytest.approx([0.0, 0.0], abs=1e-9)


def test_square_path_round_a_boss() -> None:
    """D16: a boss of 30 with a cutter of 12 is left by a square path at 21 all round."""
    around = area.without(area.rectangle((-40, -40), (40, 40)), area.rectangle((-15, -15), (15, 15)))
    boss = Clearing(around, area.rectangle((-15, -15), (15, 15)), 6.0, 8.0, 0.2)
    (wall,) = passes.wall_passes(boss, passes.rough_passes(boss))
    assert {round(abs(value), 9) for point in wall.path for value in point} == {21.0}
    assert len(wall.path) == 5


BOXES = st.tuples(st.floats(-20, 20), st.floats(-15, 15), st.floats(1, 25), st.floats(1, 25))


@settings(deadline=None, max_examples=40)
@given(low=BOXES, radius=st.sampled_from([2.0, 4.0, 6.0]))
def test_passes_keep_off_what_stands(low: tuple[float, float, float, float], radius: float) -> None:
    """No pass, rough or last, brings the cutter's centre nearer than its radius to what must stand."""
    x, y, width, depth = low
    keep = area.rectangle((x, y), (x + width, y + depth))
    target = area.without(area.rectangle((-50, -40), (50, 40)), keep)
    clearing = Clearing(target, keep, radius, 1.4 * radius, 0.2)
    for rough, least in ((True, radius + 0.2), (False, radius)):
        rows = passes.rough_passes(clearing)
        found = rows if rough else passes.wall_passes(clearing, rows)
        for passed in found:
            for a, b in pairwise(passed.path):
                middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
                assert min(area.distance(keep, p) for p in (a, middle, b)) >= least - 1e-6


@settings(deadline=None, max_examples=40)
@given(low=BOXES)
def test_passes_clear_everything(low: tuple[float, float, float, float]) -> None:
    """Swept by a cutter of 8, rough and last passes leave nothing beside what stands."""
    x, y, width, depth = low
    keep = area.rectangle((x, y), (x + width, y + depth))
    target = area.without(area.rectangle((-50, -40), (50, 40)), keep)
    clearing = Clearing(target, keep, 4.0, 5.6, 0.2)
    rows = passes.rough_passes(clearing)
    found = (*rows, *passes.wall_passes(clearing, rows))
    swept = area.union(area.of_shape(SlotShape(a, b, 8.0)) for p in found for a, b in pairwise(p.path))
    assert area.size(area.without(target, swept)) < 0.01


@settings(deadline=None, max_examples=40)
@given(low=BOXES, radius=st.sampled_from([4.0, 6.0, 9.5]))
def test_roughing_leaves_only_a_skin(low: tuple[float, float, float, float], radius: float) -> None:
    """Between a wall and the edge of the part too: rows 1.4 radii apart leave rounds of 0.29 radius, and nothing else.

    0.286 = 1 - sqrt(1 - 0.7 * 0.7), the round between two rows. So the last way begins clear of metal.
    """
    x, y, width, depth = low
    keep = area.rectangle((x, y), (x + width, y + depth))
    clearing = Clearing(area.without(area.rectangle((-50, -40), (50, 40)), keep), keep, radius, 1.4 * radius, 0.2)
    rows = passes.rough_passes(clearing)
    left = area.without(passes.uncleared(clearing, rows), area.grown(keep, 0.25 + 0.286 * radius))
    assert area.size(left) < 0.1
    assert all(wall.outside for wall in passes.wall_passes(clearing, rows))


def test_row_between_a_boss_and_the_edge() -> None:
    """A square of 16.7 in a plate of 60 by 34, cutter 19.05: the strip of 8.7 before and behind it is roughed too."""
    keep = area.rectangle((8.7, 8.7), (25.3, 25.3))
    clearing = Clearing(area.without(area.rectangle((0, 0), (60, 34)), keep), keep, 9.525, 13.335, 0.2)
    rows = passes.rough_passes(clearing)
    assert min(p.path[0][1] for p in rows) == pytest.approx(8.7 - 9.525 - 0.2)
    assert max(p.path[0][1] for p in rows) == pytest.approx(25.3 + 9.525 + 0.2)
