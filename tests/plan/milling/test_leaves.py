"""What a level leaves standing that is not square."""

from __future__ import annotations

import math

import pytest

from tests.plan.planned import setup_of


def test_circle_that_stands_is_nibbled_round() -> None:
    """16 about (25, 18) with a cutter of 12: a square of stops at 14, then points on radius 14."""
    square, corners = [s for s in setup_of("level-leave-circle", 2).steps if "floor" in s.features and s.removes]
    values = sorted(limit.value for limit in square.limits)
    assert values == pytest.approx([4.0, 11.0, 32.0, 39.0], abs=0.0051)
    ends = {move.path[-1] for move in corners.moves}
    assert [math.dist((25.0, 18.0), end) for end in ends] == pytest.approx([14.0] * len(ends), abs=0.0085)
    assert min(math.dist((25.0, 18.0), end) for end in ends) >= 14.0 - 0.0036


def test_square_leaves_need_nothing_more() -> None:
    """A box that stands is given by its four stops alone: 14 - 6, 31 + 6, 12 - 6, 29 + 6."""
    (step,) = [s for s in setup_of("level-leave-box", 2).steps if "floor" in s.features and s.removes]
    assert {(limit.axis, limit.shown) for limit in step.limits} == {
        ("x", "+8.000"),
        ("x", "+37.000"),
        ("y", "+6.000"),
        ("y", "+35.000"),
    }
