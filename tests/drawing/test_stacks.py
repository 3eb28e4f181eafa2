"""Stacks: a running place goes to the side from which its line runs through no other hole."""

from __future__ import annotations

from setupsheet.drawing.assign import Sighting
from setupsheet.drawing.frames import FRAME
from setupsheet.drawing.ink import Circle, Pen
from setupsheet.drawing.needs import Need
from setupsheet.drawing.profile import profile_of
from setupsheet.drawing.seen import Seen
from setupsheet.drawing.stacks import Stack, stack_dimensions
from setupsheet.drawing.wanted import Place
from setupsheet.part.face import Face
from tests.drawing import parts

BOX = ((0.0, 0.0), (60.0, 30.0))


def sighting(at: float, y: float) -> Sighting:
    """Return the sighting of a hole's X."""
    place = Place((Face.TOP,), 0, at, f"{at:g}", (Need(f"h{at:g}", "x", at),), (at, y), 3.0, edge=False)
    return Sighting(place, 0, at, (y - 3.0, y + 3.0))


def test_a_line_takes_the_side_without_a_hole_on_its_way() -> None:
    """Two holes one above the other, 2 apart in X: the upper is placed from above, the lower from below."""
    holes = tuple(Circle(Pen.VISIBLE, centre, 3.0) for centre in ((20.0, 9.0), (22.0, 21.0)))
    stack = Stack(Seen("top", FRAME[Face.TOP], BOX, holes), BOX, 1.0, profile_of(parts.part(())))
    dims = stack_dimensions(stack, [sighting(20.0, 9.0), sighting(22.0, 21.0)], [])
    assert {dim.text: dim.line_at[1] > 30.0 for dim in dims} == {"20": False, "22": True}
