"""The last resort: a size that no view shows stands among the notes, is counted, and is a caution."""

from __future__ import annotations

from setupsheet.drawing.assign import ViewWants
from setupsheet.drawing.completeness import dimensions_of, missing
from setupsheet.drawing.draw import draw
from setupsheet.drawing.ink import Text
from setupsheet.drawing.needs import Need
from setupsheet.drawing.told import said, take_out
from setupsheet.drawing.wanted import Callout, Span, Turn
from setupsheet.finding import Severity
from setupsheet.part.face import Face
from setupsheet.part.feature import Level
from setupsheet.part.shape import BoxShape
from setupsheet.solid.body import finished
from tests.drawing import parts

NEED = Need("slit", "width", 2.0)
SPAN = Span(Face.FRONT, 0, (0.0, 0.0), (2.0, 0.0), "2", (NEED,))


def test_an_edge_that_another_level_took_away_is_told() -> None:
    """A level's side that a deeper level has cut off shows nowhere: the notes say it, and nothing is missing."""
    shallow = Level("shallow", parts.HERE, Face.TOP, BoxShape((20.0, 0.0), (45.0, 60.0)), parts.size(11.0))
    deep = Level("deep", parts.HERE, Face.TOP, BoxShape((30.0, 0.0), (70.0, 60.0)), parts.size(6.0))
    part = parts.part((shallow, deep))
    sheets, found = draw(part, finished(part))
    assert [f.message for f in found if f.severity is Severity.ERROR] == []
    assert [(f.feature, f.severity) for f in found if f.code == "size-in-notes"] == [("shallow", Severity.CAUTION)]
    assert missing(part, dimensions_of(sheets)) == []
    notes = [g for sheet in sheets for g in sheet.groups if g.name == "notes"]
    assert any("shallow: X 45" in s.text for g in notes for s in g.items if isinstance(s, Text))


def test_a_want_is_said_with_its_feature_and_its_value() -> None:
    """Sizes, holes with their frames and angles: whose, what, how much."""
    turn = Turn(Face.TOP, (0.0, 0.0), 20.0, 0.0, 15.0, "15°", (Need("ring", "start", 15.0),))
    hole = Callout(Face.TOP, (), ("⌀6 H7", "through"), (Need("pin", "diameter", 6.0),), (("⌖", "⌀0.2", "A"),), "B")
    assert said(SPAN) == "slit: width 2"
    assert said(turn) == "ring: start 15°"
    assert said(hole) == "pin: ⌀6 H7, through, ⌖ ⌀0.2 A, datum B"


def test_only_what_gives_the_size_is_taken_out() -> None:
    """A size is taken out of the view that had it; others stay."""
    other = Span(Face.FRONT, 0, (0.0, 0.0), (9.0, 0.0), "9", (Need("block", "width", 9.0),))
    rest, gone = take_out({"front": ViewWants(spans=[SPAN, other])}, {("slit", "width", 2.0)})
    assert (rest["front"].spans, gone) == ([other], [SPAN])
