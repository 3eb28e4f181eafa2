"""Openings and outlines with slanted and round edges: moves along one axis, points up to the edge, nothing past it."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from setupsheet.plan.record import Step
from tests.plan.planned import plan_of, setup_of

SHAPED = (
    ("pocket-round", 1),
    ("window-shaped", 1),
    ("level-polygon", 1),
    ("level-leave-polygon", 2),
    ("slot-odd-width", 1),
)


def steps_with_points(name: str, number: int) -> list[Step]:
    """Return the steps of a setup that are tables of points."""
    return [step for step in setup_of(name, number).steps if step.points]


@pytest.mark.parametrize(("name", "number"), SHAPED)
def test_proved_and_nothing_left_open(name: str, number: int) -> None:
    """The replay cuts the part from the numbers, and no step says that its work is not in the plan."""
    plan = plan_of(name)
    assert plan.replay is not None
    assert plan.replay.proved, plan.replay.words
    assert plan.not_proved == ()
    assert steps_with_points(name, number)


@pytest.mark.parametrize(("name", "number"), SHAPED)
def test_every_cut_is_along_one_axis_to_its_stop(name: str, number: int) -> None:
    """Each move of a table is one leg along X or Y that ends at a printed point, or a plunge there."""
    for step in steps_with_points(name, number):
        stops = [(p.step, p.stop) if p.step_axis == "x" else (p.stop, p.step) for p in step.points]
        ends = [move.path[-1] for move in step.moves]
        assert set(ends) == set(stops)
        for move in step.moves:
            assert len(move.path) <= 2
            a, b = move.path[0], move.path[-1]
            assert min(abs(a[0] - b[0]), abs(a[1] - b[1])) < 1e-9


@pytest.mark.parametrize(("name", "number"), [*SHAPED, ("drive-cover", 1)])
def test_no_point_stands_twice_in_a_table(name: str, number: int) -> None:
    """A closed outline ends where it begins: that place is set and cut once."""
    for step in setup_of(name, number).steps:
        rows = [(point.group, point.shown_step, point.shown_stop) for point in step.points]
        assert len(rows) == len(set(rows))


@pytest.mark.parametrize(("name", "number"), SHAPED)
def test_ridges_are_named_and_small(name: str, number: int) -> None:
    """Ridges for a file stay near 0.1; where the head comes after, near 0.3."""
    for step in steps_with_points(name, number):
        most = 0.31 if "well" in step.features else 0.11
        assert [one for one in step.leftover if one.kind == "cusp" and one.bound_mm >= most] == []


def test_points_of_a_round_window_lie_on_the_circle_of_centres() -> None:
    """Radius 13 less 6; a stop is rounded away from the metal, at most one readout step."""
    (eye,) = [step for step in steps_with_points("window-shaped", 1) if "eye" in step.features]
    zero = {z.axis: z for z in setup_of("window-shaped", 1).zero}
    assert set(zero) == {"x", "y", "z"}
    for pair in eye.points:
        at = (pair.step, pair.stop) if pair.step_axis == "x" else (pair.stop, pair.step)
        assert 7.0 - 0.012 < math.dist(at, (58.0, 20.0)) < 7.003


def test_groups_of_a_table_stand_together() -> None:
    """One column for each way of feeding."""
    for name, number in SHAPED:
        for step in steps_with_points(name, number):
            groups = [pair.group for pair in step.points]
            changes = sum(a != b for a, b in pairwise(groups))
            assert changes == len(set(groups)) - 1
