"""Marks of cutting planes: they pass what stands in their own way, and nothing else moves them."""

from __future__ import annotations

from setupsheet.drawing.boxes import Rect
from setupsheet.drawing.ink import Line, Pen
from setupsheet.drawing.profile import Profile, profile_of
from setupsheet.drawing.section_marks import Mark, cutting_plane
from tests.drawing import parts

_OUTLINE: Rect = ((0.0, 0.0), (60.0, 40.0))


def _profile() -> Profile:
    return profile_of(parts.part(()))


def _highest(taken: list[Rect]) -> float:
    """Return how far up the wide lines of an upright plane at x = 30 reach."""
    path = ((30.0, 0.0), (30.0, 40.0))
    strokes = cutting_plane(path, Mark(path, 180.0, "D"), taken, _profile())
    return max(max(s.a[1], s.b[1]) for s in strokes if isinstance(s, Line) and s.pen is Pen.CUT)


def test_an_end_stands_beyond_what_lies_in_its_way() -> None:
    """A text over the view, 20 mm high, at the plane's own place: the end stands over it."""
    assert _highest([_OUTLINE, ((25.0, 45.0), (35.0, 65.0))]) > 65.0


def test_an_end_takes_no_notice_of_what_stands_beside_it() -> None:
    """The same text 25 mm to the left: the end stands as if it were not there."""
    assert _highest([_OUTLINE, ((0.0, 45.0), (10.0, 65.0))]) == _highest([_OUTLINE]) < 60.0
