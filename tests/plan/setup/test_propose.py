"""Setups for a part without any, and the reasons that are printed."""

from __future__ import annotations

from dataclasses import replace

from setupsheet.finding import Severity
from setupsheet.part.face import Face
from setupsheet.part.part import Datum
from setupsheet.plan.setup.propose import proposed, reasons
from tests.parts import block, hole, size
from tests.plan.planned import asked, read

BORE = hole(Face.TOP, (8.0, 8.0), size(5.0), 20.0, 0.0)
SIDE = hole(Face.RIGHT, (11.0, 9.0), size(5.0), 40.0, 0.0, "end-hole")


def test_written_setups_are_kept() -> None:
    """Where setups are written nothing is proposed."""
    part, _ = read("worm-bracket")
    assert proposed(part) == (part.setups, [])


def test_datum_first_then_the_opposite_then_sides_with_work() -> None:
    """A is the bottom: it comes up first; the right end follows because a hole begins there."""
    part = replace(block(BORE, SIDE), datums=(Datum("A", Face.BOTTOM),))
    setups, (said,) = proposed(part)
    assert [setup.up for setup in setups] == [Face.BOTTOM, Face.TOP, Face.RIGHT]
    assert (said.code, said.severity) == ("setups-proposed", Severity.NOTE)
    assert "bottom up" in said.message


def test_datum_on_top() -> None:
    """With A on top the part stands on its top in the second setup."""
    part = replace(block(BORE), datums=(Datum("A", Face.TOP),))
    assert [setup.up for setup in proposed(part)[0]] == [Face.TOP, Face.BOTTOM]


def test_face_at_the_fixed_jaw_is_square_to_the_one_up() -> None:
    """Every proposed setup can be clamped: the face at the back lies across the one on top."""
    part = block(BORE, SIDE, hole(Face.FRONT, (9.0, 9.0), size(4.0), 0.0, 30.0, "f"))
    assert all(setup.up.axis != setup.back.axis for setup in proposed(part)[0])


def test_reasons() -> None:
    """The first makes what the second stands on; the second takes its zero from a bore."""
    part = replace(block(BORE), datums=(Datum("A", Face.BOTTOM),))
    said = reasons(part, (asked(Face.BOTTOM), asked(Face.TOP, x="hole: indicate hole")))
    assert said[0] == "setup 1: bottom up: it makes A, on which the part stands in setup 2"
    assert said[1] == "setup 2: top up: zero comes from hole, made before, not from an edge"
    assert reasons(part, (asked(Face.TOP),))[0].endswith("the work that only this side can reach")
