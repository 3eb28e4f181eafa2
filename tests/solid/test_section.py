"""Sections: cut areas by arithmetic, what is seen beyond, steps that leave no line."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from setupsheet.part.face import Face
from setupsheet.plane import Point2
from setupsheet.solid.body import finished
from setupsheet.solid.flat import NEAR_MM, Circle, CutArea, CutLoop, Line
from setupsheet.solid.section import section, stepped_section
from setupsheet.solid.view import face_view
from setupsheet.spec.reader import read_part
from tests.parts import block, hole, size
from tests.solid.bracket_part import bracket

_BRACKET = finished(bracket())
_FRONT = face_view(Face.FRONT)


def _polygon_area(points: tuple[Point2, ...]) -> float:
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, (*points[1:], points[0]), strict=True))) / 2


def _area(cut: CutArea) -> float:
    return _polygon_area(cut.rim.points) - sum(_polygon_area(loop.points) for loop in cut.openings)


def test_a_section_through_the_bore_has_two_areas() -> None:
    """Left and right of the bore; their sizes follow from flange, boss, pad, relief and chamfers."""
    found = section(_BRACKET, _FRONT, -29.0)
    left, right = found.areas
    chamfers = 2 * 0.125
    assert _area(left) == pytest.approx(22 * 6 + 2 * 15 + 4 * 13.5 - chamfers)
    assert _area(right) == pytest.approx(6 * 13.5 - chamfers + 14 * 4.5 + 2 * 6 + 18 * 8)


def test_a_section_across_a_plate_shows_round_openings() -> None:
    """A hole cut across is a circle in the area and in what is seen."""
    body = finished(block(hole(Face.TOP, (20, 15), size(6), 20, 0)))
    found = section(body, face_view(Face.TOP), 10.0)
    (area,) = found.areas
    assert area.openings == (CutLoop((Circle((20.0, 15.0), 3.0),), area.openings[0].points),)
    assert _area(area) == pytest.approx(1200 - math.pi * 9, abs=2 * math.pi * 3 * NEAR_MM)
    assert Circle((20.0, 15.0), 3.0) in found.seen.visible


def test_what_is_nearer_than_the_plane_is_gone_and_what_is_beyond_is_seen() -> None:
    """A hole in front of the plane does not show, one behind it does not either but through the cut bore."""
    part = block(
        hole(Face.TOP, (10, 5), size(6), 20, 0, "near"),
        hole(Face.TOP, (20, 15), size(6), 20, 0, "cut"),
        hole(Face.TOP, (30, 25), size(6), 20, 0, "far"),
    )
    found = section(finished(part), _FRONT, -15.0)
    upright = sorted({round(f.a[0], 6) for f in found.seen.visible if isinstance(f, Line) and f.a[0] == f.b[0]})
    assert upright == [0.0, 17.0, 23.0, 40.0]
    assert found.seen.hidden == ()


def test_a_stepped_section_joins_its_areas_and_draws_no_step() -> None:
    """Two bores on different lines are both shown cut; the plane's steps leave neither line nor gap."""
    part = block(
        hole(Face.TOP, (10, 8), size(6), 20, 0, "one"),
        hole(Face.TOP, (30, 22), size(6), 20, 0, "two"),
    )
    found = stepped_section(finished(part), _FRONT, [(-5, 20, -8.0), (20, 45, -22.0)])
    assert [sorted({x for x, _ in cut.rim.points}) for cut in found.areas] == [
        pytest.approx([0, 7]),
        pytest.approx([13, 27]),
        pytest.approx([33, 40]),
    ]
    assert not [f for f in found.seen.visible if isinstance(f, Line) and f.a[0] == f.b[0] == 20.0]
    assert sum(_area(cut) for cut in found.areas) == pytest.approx((40 - 12) * 20)


def test_a_plane_that_touches_a_recess_leaves_no_opening() -> None:
    """The side of the cover's recess, 12 from its axis at 25, touches the plane at 13: a loop of no length is none."""
    part = read_part(Path(__file__).parents[2] / "specs" / "drive-cover.yaml")[0]
    assert part is not None
    (area,) = section(finished(part), _FRONT, -13.0).areas
    assert area.openings == ()
    assert 55 * 20 - 100 < _area(area) < 55 * 20
