"""What is done with a part between two setups in which it lies the same way."""

from __future__ import annotations

from dataclasses import replace

from setupsheet.part.face import Face
from setupsheet.part.part import HoldAsked, SetupAsked
from setupsheet.plan.tilt.turns import turn_between
from tests.parts import HERE, block
from tests.plan.planned import asked


def _out(*ends: Face) -> SetupAsked:
    return replace(asked(Face.TOP), hold=HoldAsked("vise", None, None, dict.fromkeys(ends, 20.0), HERE))


def test_a_part_that_is_slid_along_is_told_so() -> None:
    """Not turned, but another end stands out past the jaws, then neither: both are said, and no slide where none is."""
    part, left, right, middle = block(), _out(Face.LEFT), _out(Face.RIGHT), _out()
    said = [turn_between(part, *pair, "back").sentence for pair in ((left, right), (right, middle), (right, right))]
    assert said[0].endswith("Slide it along between the jaws: now its right end stands out past them.")
    assert said[1].endswith("Slide it along between the jaws until they hold it by its middle.")
    assert "Slide" not in said[2]
    assert "Slide" not in turn_between(part, None, left, "back").sentence
