"""How an end mill gets into a closed opening."""

from __future__ import annotations

import re

from setupsheet.part.face import Face
from setupsheet.part.feature import Level
from setupsheet.part.shape import BoxShape
from setupsheet.plan.milling.work import feature_drafts
from tests.parts import HERE, block, size
from tests.plan.planned import bench, setup_of


def test_window_of_a_four_flute_cutter_is_drilled_first() -> None:
    """Its rows start where the drill went, and the drill is no wider than the cutter."""
    steps = [s for s in setup_of("window-shaped", 1).steps if "louvre" in s.features]
    drilling, rows = steps[0], steps[1]
    assert drilling.operation == "drill"
    assert drilling.tool is not None
    assert rows.tool is not None
    assert drilling.tool.diameter_mm <= rows.tool.diameter_mm
    places = {(p.x, p.y) for p in drilling.positions}
    entered = {move.path[0] for move in rows.moves if move.entry == "drilled"}
    assert entered == places


def test_pocket_with_a_floor_is_ramped_by_a_four_flute_cutter() -> None:
    """A drill's point would mark the floor: to and fro between two places that are named."""
    well = next(s for s in setup_of("pocket-round", 1).steps if "well" in s.features)
    assert {move.entry for move in well.moves if move.why == "rough"} == {"ramp"}
    words = next(words for words in well.words if "to and fro" in words)
    assert len(set(re.findall(r"X \S+ Y [+-]?[\d.]+", words))) == 2


def test_a_hole_that_is_there_is_gone_down_by() -> None:
    """Two pockets over a hole drilled before: the cutter goes down in it, and from there along X and Y to its rows."""
    for setup, id_ in ((1, "boss-recess"), (2, "gear-pocket")):
        step = next(s for s in setup_of("drive-cover", setup).steps if id_ in s.features)
        rough = [move for move in step.moves if move.why == "rough"]
        assert {(move.entry, move.path[0]) for move in rough} == {("drilled", (0.0, 0.0))}
        assert any("the hole that is there, at X 0.000 Y 0.000" in words for words in step.words)


def test_two_flutes_plunge() -> None:
    """The cutter of two flutes goes straight down."""
    recess = next(s for s in setup_of("pocket-corner-radius", 1).steps if "recess" in s.features)
    assert {move.entry for move in recess.moves if move.why == "rough"} == {"plunge"}


def test_a_closed_level_is_ramped_into_by_a_cutter_that_does_not_cut_to_its_centre() -> None:
    """A level 30 x 18 closed all round: the 12 mm cutter of four flutes, down a ramp, its corners named."""
    shape = BoxShape((5.0, 5.0), (35.0, 23.0))
    level = Level("l", HERE, Face.TOP, shape, size(16.0))
    (made,) = (draft.step for draft in feature_drafts(bench(block(level)), (), level)[0])
    assert made.tool is not None
    assert made.tool.label == "end mill 12, 4 flutes"
    assert {move.entry for move in made.moves if move.why == "rough"} == {"ramp"}
    assert any("do not cut to the centre" in words for words in made.words)
    assert [left.kind for left in made.leftover] == ["inside_corner"]
