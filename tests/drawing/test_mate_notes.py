"""Mates stand on the drawing: fit and clearances as the tables give them."""

from __future__ import annotations

from dataclasses import replace

from setupsheet.drawing.ink import Text
from setupsheet.drawing.mate_notes import mate_notes
from setupsheet.drawing.words import words_of
from tests.drawing.test_demo_drawings import drawn


def test_a_pressed_bush_is_noted_with_its_interference() -> None:
    """12 H7 is 12.000 to 12.018, 12 r6 is 12.023 to 12.034 (ISO 286-2): 0.005 to 0.034 too large."""
    part = drawn("worm-bracket")[0]
    (note,) = mate_notes(part, words_of(part))
    assert note == "bearing-bore: 12 H7 with bush 12 r6, pressed: interference 0.005 to 0.034"


def test_a_slide_and_a_dowel_are_noted_with_their_clearances() -> None:
    """6 H7/g6: 0.004 to 0.024; 6 H7/m6: from 0.012 too large to 0.008 of room, with signs (ISO 286-2)."""
    part = drawn("hinge-block")[0]
    notes = "; ".join(mate_notes(part, words_of(part)))
    assert "clearance 0.004 to 0.024" in notes
    assert "clearance -0.012 to +0.008" in notes
    assert "leaf-slot: 10 +0.1/0 with leaf 10 h9" in notes  # as the views write it: a deviation of 0 has no sign


def test_a_fit_keeps_its_letters_in_capitals() -> None:
    """H7 is a hole, r6 a shaft: the rest of an ASME note is in capitals, the fit is not."""
    part = drawn("worm-bracket")[0]
    asme = replace(part, drawing=replace(part.drawing, standard="asme"))
    (note,) = mate_notes(asme, words_of(asme))
    assert "12 H7 WITH bush 12 r6, pressed: INTERFERENCE 0.005 TO 0.034" in note


def test_the_note_is_on_the_sheet() -> None:
    """The bracket's notes name the bush."""
    notes = next(g for g in drawn("worm-bracket")[1][0].groups if g.name == "notes")
    assert any("bush 12 r6" in item.text for item in notes.items if isinstance(item, Text))
