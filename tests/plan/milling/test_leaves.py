"""What a level leaves standing that is not square."""

from __future__ import annotations

import math

import pytest

from setupsheet.finding import Finding
from setupsheet.part.face import Face
from setupsheet.part.feature import Keep, Level
from setupsheet.part.shape import BoxShape, CircleShape, PolygonShape, Shape
from setupsheet.plan.bench import Bench, standing
from setupsheet.plan.draft import Draft
from setupsheet.plan.milling import area, rim_ways
from setupsheet.plan.milling.work import feature_drafts
from tests.parts import HERE, block, size
from tests.plan.planned import INCH_DIAL, asked, bench, setup_of, small_shop


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


PAIRS: dict[str, tuple[Shape, Shape]] = {
    "far from each other": (CircleShape((16.0, 18.0), 16.0), BoxShape((38.0, 12.0), (50.0, 29.0))),
    "7 mm between": (CircleShape((20.0, 18.0), 16.0), BoxShape((35.0, 12.0), (50.0, 29.0))),
    "two circles": (CircleShape((25.0, 18.0), 16.0), CircleShape((45.0, 18.0), 10.0)),
    "a slanted side": (PolygonShape(((10.0, 10.0), (30.0, 12.0), (24.0, 30.0))), BoxShape((38.0, 12.0), (50.0, 29.0))),
}


def _left(*shapes: Shape) -> tuple[Bench, list[Draft], list[Finding]]:
    """Return what a level that leaves these shapes needs on a machine with dials."""
    level = Level("floor", HERE, Face.TOP, None, size(8.0), tuple(Keep(shape) for shape in shapes))
    dials = bench(block(level, high=(60.0, 40.0, 12.0)), asked(), small_shop(INCH_DIAL))
    return dials, *feature_drafts(dials, (), level)


@pytest.mark.parametrize("pair", PAIRS.values(), ids=PAIRS)
def test_two_things_left_on_dials(pair: tuple[Shape, Shape]) -> None:
    """No cutter goes into either, however near they are, and all round both nothing but ridges for a file stays."""
    dials, drafts, findings = _left(*pair)
    assert findings == []
    floor = dials.z(8.0)
    stands, left = standing(dials, floor), area.grown(standing(dials, floor), 3.0)
    for draft in drafts:
        assert draft.cutter is not None
        deepest = [move.path for move in draft.step.moves if move.z < floor + INCH_DIAL.step_mm]
        swept = rim_ways.swept(deepest, draft.cutter.diameter_mm / 2)
        into = area.common(swept, stands)
        assert area.is_empty(area.common(into, area.grown(stands, -INCH_DIAL.step_mm / 2)))
        left = area.without(left, swept)
    assert area.is_empty(area.without(left, area.grown(stands, 0.15)))


def test_a_gap_that_no_cutter_goes_into_is_named() -> None:
    """2 mm between a circle and a box, and the thinnest cutter is 4: the level is refused, with what to change."""
    _, _, (finding,) = _left(CircleShape((20.0, 18.0), 16.0), BoxShape((30.0, 12.0), (50.0, 29.0)))
    assert finding.code == "gap-without-cutter"
    assert finding.feature == "floor"
    assert "widen the gap" in (finding.try_ or "")
