"""Holes that are drilled before the level beside them is milled."""

from __future__ import annotations

import pytest

from setupsheet.part.face import Face
from setupsheet.part.feature import Level
from setupsheet.part.shape import BoxShape
from setupsheet.plan.holes.early import before_levels
from tests.parts import HERE, hole, size


@pytest.mark.parametrize(
    ("x", "deep", "early"),
    [
        (19.0, 1.0, True),
        (21.0, 1.0, True),
        (23.6, 1.0, True),
        (23.8, 1.0, False),
        (16.2, 1.0, False),
        (25.0, 10.0, True),
        (25.3, 10.0, False),
    ],
)
def test_how_near_is_too_near(x: float, deep: float, early: bool) -> None:
    """Hole of 5 beside the wall at X 20, floor from X 20 on.

    The rim of a 90 degree spot is wider by the wall's height there: 2.5 + 1 + 0.25 from a wall of 1; a spot drill of
    10 is never wider than 5 + 0.25.
    """
    level = Level("floor", HERE, Face.TOP, BoxShape((20.0, -10.0), (60.0, 50.0)), size(20.0 - deep))
    holes = [hole(Face.TOP, (x, 15.0), size(5.0), 20.0, 0.0, "h")]
    assert before_levels([level], holes, 20.0) == (("h",) if early else ())


def test_a_level_all_over_has_no_edge() -> None:
    """Holes in a face that a level takes down as a whole come after it."""
    level = Level("floor", HERE, Face.TOP, None, size(15.0))
    assert before_levels([level], [hole(Face.TOP, (2.0, 2.0), size(5.0), 20.0, 0.0, "h")], 20.0) == ()
