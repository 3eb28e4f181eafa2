"""Round things of a view: a thread keeps its rim where a drill point comes through below it."""

from __future__ import annotations

from setupsheet.drawing.frames import FRAME
from setupsheet.drawing.ink import Arc, Circle, Pen
from setupsheet.drawing.profile import profile_of
from setupsheet.drawing.seen import Seen
from setupsheet.drawing.view_rounds import rounds_of
from setupsheet.part.face import Face
from tests.drawing import parts


def test_a_thread_is_drawn_round_a_hole_whose_drill_point_comes_through() -> None:
    """The small circle of the point goes, that of the minor diameter stays and gets its thread."""
    part = parts.part((parts.tapped("t", (20.0, 20.0), 15.0, 12.0),))
    minor = 4.134 / 2
    circles = tuple(Circle(Pen.VISIBLE, (20.0, 20.0), radius) for radius in (minor, minor - 0.3))
    seen = Seen("top", FRAME[Face.TOP], ((0.0, 0.0), (80.0, 60.0)), circles)
    rounds = rounds_of(seen, part, 1.0, profile_of(part))
    assert rounds.edges == circles[:1]
    assert any(isinstance(s, Arc) and s.pen is Pen.THREAD for s in rounds.threads)
