"""Leaders: where a callout's line runs when it has the choice."""

from __future__ import annotations

import pytest

from setupsheet.drawing.leaders import Room, place_callout
from setupsheet.drawing.needs import Need
from setupsheet.drawing.profile import profile_of
from setupsheet.drawing.wanted import Callout, Target
from setupsheet.part.face import Face
from setupsheet.plane import distance_to_segment
from tests.drawing import parts

_CORNERS = ((0.0, 0.0), (40.0, 0.0), (0.0, 30.0), (40.0, 30.0))


@pytest.mark.parametrize("at", [(13.0, 11.0), (8.0, 8.0), (32.0, 22.0), (20.0, 15.0)])
def test_a_leader_leaves_the_view_beside_its_corners(at: tuple[float, float]) -> None:
    """A plate of 40 by 30 with one hole: the line passes every corner by a millimetre and a half."""
    callout = Callout(Face.TOP, (Target(at, 3.0),), ("⌀6 through",), (Need("P", "diameter", 6.0),))
    placed = place_callout(callout, Room(((0.0, 0.0), (40.0, 30.0))), 6.0, 1.0, profile_of(parts.part(())))
    assert placed is not None
    tip, elbow = placed.points[0], placed.line_at
    assert min(distance_to_segment(corner, tip, elbow) for corner in _CORNERS) >= 1.5
