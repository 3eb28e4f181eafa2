"""The faces of a block in the order of the trade."""

from __future__ import annotations

from dataclasses import replace

import pytest

from setupsheet.part.face import Face
from setupsheet.part.part import Datum
from setupsheet.plan.setup.squaring import Turn, first_face, is_block, machined, squared
from tests.parts import block


def test_widest_machined_pair_and_its_datum_come_first() -> None:
    """40 x 30 x 20: bottom and top are the widest; the one that is a datum is cut first."""
    assert first_face(block()) is Face.BOTTOM
    assert first_face(replace(block(), datums=(Datum("A", Face.TOP),))) is Face.TOP


@pytest.mark.parametrize(("reach", "expected"), [(25.0, False), (19.0, True)])
def test_a_block_is_what_no_cutter_goes_down_beside(reach: float, expected: bool) -> None:
    """20 thick: sides are milled as an outline with flutes of 25, faced one by one with 19."""
    assert is_block(block(), reach) is expected


def test_six_face_order() -> None:
    """Widest first; with it at the fixed jaw the long sides, then the ends (the order of rule M12)."""
    turns = squared(block())
    assert [turn.up for turn in turns] == [Face.BOTTOM, Face.FRONT, Face.BACK, Face.LEFT, Face.RIGHT]
    assert [turn.back for turn in turns[1:]] == [Face.BOTTOM] * 4
    assert turns[2] == Turn(Face.BACK, Face.BOTTOM, face_only=True, over=(Face.FRONT, Face.BACK))


def test_faces_as_bought_are_left_out() -> None:
    """A bar with its sides as bought has only its ends and its two flats to cut."""
    part = block()
    stock = replace(part.stock, as_bought={Face.FRONT: 0.2, Face.BACK: 0.2})
    part = replace(part, stock=stock)
    assert not machined(part, Face.FRONT)
    assert [turn.up for turn in squared(part)] == [Face.BOTTOM, Face.LEFT, Face.RIGHT]
