"""Slants, rounded corners and ends, bevels: points on the right curve, from the open side."""

from __future__ import annotations

import math

import pytest

from setupsheet.plan.record import Step
from tests.plan.planned import setup_of


def _step(name: str, feature: str, number: int = 2) -> Step:
    return next(step for step in setup_of(name, number).steps if feature in step.features and step.moves)


CORNERS = [
    ("front-left", (4.0, 4.0), 4.0),
    ("front-right", (52.0, 8.0), 8.0),
    ("back-right", (55.0, 35.0), 5.0),
    ("back-left", (10.0, 30.0), 10.0),
]


@pytest.mark.parametrize(("corner", "centre", "radius"), CORNERS)
@pytest.mark.parametrize("number", [1, 2])
def test_rounded_corners(corner: str, centre: tuple[float, float], radius: float, number: int) -> None:
    """Every stop lies on radius + 6 about the corner's centre, or a step outside; X is mirrored from below."""
    step = _step("corner-radii", corner, number)
    middle = (centre[0] if number == 2 else -centre[0], centre[1])
    ends = {move.path[-1] for move in step.moves}
    ways = [math.dist(middle, end) for end in ends]
    assert len(ways) > 4
    assert min(ways) >= radius + 6 - 0.0036
    assert max(ways) <= radius + 6 + 0.0085
    assert {(end[0] - middle[0] > -0.01, end[1] - middle[1] > -0.01) for end in ends if min(ways) > 0} <= {
        ((corner.endswith("right")) == (number == 2), corner.startswith("back")),
        (True, True),
        (True, corner.startswith("back")),
        ((corner.endswith("right")) == (number == 2), True),
    }


def test_rounded_end_is_a_half_circle() -> None:
    """R20 about (40, 20) with a cutter of 12: 26 from the centre, from straight below to straight above."""
    ends = {move.path[-1] for move in _step("rounded-end", "nose").moves}
    assert [math.dist((40.0, 20.0), end) for end in ends] == pytest.approx([26.0] * len(ends), abs=0.0085)
    assert min(end[1] for end in ends) == pytest.approx(-6.0)
    assert max(end[1] for end in ends) == pytest.approx(46.0)
    assert min(end[0] for end in ends) >= 40.0 - 1e-6


@pytest.mark.parametrize(
    ("feature", "a", "b", "sign"),
    [("slant", (48.0, 40.0), (60.0, 28.0), 1), ("steep", (0.0, 22.0), (7.0, 0.0), -1)],
)
def test_slants_keep_six_off_their_line(
    feature: str, a: tuple[float, float], b: tuple[float, float], sign: int
) -> None:
    """Every stop lies 6 off the finished line on the side that goes, or less than a step farther."""
    length = math.dist(a, b)
    normal = (sign * -(b[1] - a[1]) / length, sign * (b[0] - a[0]) / length)
    if normal[0] * sign < 0:
        normal = (-normal[0], -normal[1])
    for move in _step("edge-cut-slanted", feature).moves:
        off = sum((p - q) * n for p, q, n in zip(move.path[-1], a, normal, strict=True))
        assert 6.0 - 1e-6 <= off <= 6.0 + 0.0075


@pytest.mark.parametrize("name", ["corner-radii", "edge-cut-slanted", "rounded-end"])
def test_cuts_start_clear_and_run_along_one_axis(name: str) -> None:
    """Each cut begins outside the raw stock and moves X or Y alone."""
    for number in (1, 2):
        for step in setup_of(name, number).steps:
            for move in step.moves if step.points else ():
                (x0, y0), (x1, y1) = move.path
                assert (abs(x0 - x1) < 1e-9) != (abs(y0 - y1) < 1e-9)
                assert move.entry == "outside"


def test_ridges_are_named() -> None:
    """What the points leave is told with its height, for the file, and is under a tenth and a bit."""
    for feature in ("slant", "steep"):
        step = _step("edge-cut-slanted", feature)
        assert [left.kind for left in step.leftover] == ["cusp"]
        assert step.leftover[0].bound_mm <= 0.106
        assert "for the file" in step.leftover[0].words


def test_bevel_runs_with_its_point_below() -> None:
    """Leg 1.5 with a tip of 1: Z -2.500, the axis 0.5 + 1 beside the edge: X -1.500, Y -1.500."""
    (step,) = [s for s in setup_of("edge-chamfer", 1).steps if s.operation == "chamfer"]
    assert step.z_shown == ("-2.500",)
    assert step.where == "Y -1.500; X -1.500"
    assert {move.z for move in step.moves} == {-2.5}
