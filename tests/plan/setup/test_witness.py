"""The hole that shows a wrong turn-over has no twin."""

from __future__ import annotations

from dataclasses import replace

from setupsheet.part.face import Face
from setupsheet.part.feature import Hole
from setupsheet.plan.setup.witness import is_unique, pick_witness
from tests.parts import block, hole, size
from tests.plan.planned import asked, plan_of


def _at(name: str, x: float, y: float, wide: float = 6.0) -> Hole:
    return hole(Face.TOP, (x, y), size(wide), 20.0, 0.0, name)


def test_a_hole_with_a_twin_is_passed_over() -> None:
    """Block 40 x 30: 5, 5 and 35, 25 change places when it is turned half round; 20, 25 meets nothing at 20, 5."""
    first, twin, alone = _at("first", 5.0, 5.0), _at("twin", 35.0, 25.0), _at("alone", 20.0, 25.0)
    part = block(first, twin, alone)
    found = pick_witness(part, asked(), [first, twin, alone])
    assert found is not None
    assert found[0].id == "alone"


def test_a_smaller_hole_at_the_other_place_is_no_twin() -> None:
    """A pin of nearly 6 does not go into a hole of 4, so 5, 5 still proves the way round; the 4 itself does not."""
    wide, narrow = _at("wide", 5.0, 5.0), _at("narrow", 35.0, 25.0, 4.0)
    part = block(wide, narrow)
    assert is_unique(part, asked(), [wide, narrow], (wide, wide.spots[0]))
    assert not is_unique(part, asked(), [wide, narrow], (narrow, narrow.spots[0]))


def test_a_hole_in_the_middle_proves_nothing() -> None:
    """The middle of the block stays where it is: no witness, and the setup's page says to go by the mark."""
    middle = _at("middle", 20.0, 15.0)
    assert pick_witness(block(middle), asked(), [middle]) is None


def test_the_one_asked_for_is_taken() -> None:
    """check-first: names a hole with a twin all the same; a check of its own says what that is worth."""
    first, twin = _at("first", 5.0, 5.0), _at("twin", 35.0, 25.0)
    found = pick_witness(block(first, twin), replace(asked(), check_first="first"), [first, twin])
    assert found is not None
    assert found[0].id == "first"


def test_where_no_hole_tells_the_page_says_so() -> None:
    """The hinge block's only hole before its last setup runs across: the mark has to tell."""
    setups = plan_of("hinge-block").setups
    assert setups[-1].witness is None
    told = [any("go by the corner mark" in line for line in setup.before_cutting) for setup in setups]
    assert told == [*[False] * 6, True]
