"""The corner mark, found again after every turn, and the readings along the plan view's edges."""

from __future__ import annotations

from dataclasses import replace

import pytest

from setupsheet.part.face import Face
from setupsheet.plan.setup.hold import grip
from setupsheet.plan.setup.marks import MarkFaces, corner_mark, edge_marks, mark_faces
from setupsheet.solid.laid import lay
from tests.parts import block
from tests.plan.planned import asked, bench, plan_of, small_shop

ORIGIN = (0.0, 0.0, 0.0)


@pytest.mark.parametrize(
    ("up", "back", "faces"),
    [
        (Face.TOP, Face.BACK, MarkFaces(Face.LEFT, Face.BACK)),
        (Face.BOTTOM, Face.BACK, MarkFaces(Face.RIGHT, Face.BACK)),
        (Face.FRONT, Face.BOTTOM, MarkFaces(Face.RIGHT, Face.BOTTOM)),
    ],
)
def test_first_setup_marks_the_end_at_the_left(up: Face, back: Face, faces: MarkFaces) -> None:
    """The end at the reader's left, near the fixed jaw: underside up, that is the part's right end."""
    assert mark_faces(lay(up, back, ORIGIN)) == faces


def test_mark_is_low_down_on_the_raw_end() -> None:
    """On the raw end at X -2, 5 in from the back, inside the gripped height."""
    part, setup = block(), asked(grip_mm=5.0)
    clamped = bench(part, setup)
    held, _ = grip(part, small_shop(), clamped.laid, setup, ())
    mark = corner_mark(clamped, held, mark_faces(clamped.laid))
    assert mark.label == "B-L"
    assert mark.at == pytest.approx((-2.0, 27.0, -19.5))
    assert "at your left, at the back" in mark.words


@pytest.mark.parametrize(
    ("up", "back", "place"),
    [
        (Face.TOP, Face.BACK, "at your left, at the back"),
        (Face.BOTTOM, Face.BACK, "at your right, at the back"),
        (Face.BOTTOM, Face.FRONT, "at your left, at the front"),
        (Face.LEFT, Face.BOTTOM, "on top, at your right"),
    ],
)
def test_mark_is_found_again(up: Face, back: Face, place: str) -> None:
    """The same corner, back left, as each later setup sees it."""
    part, setup = block(), asked(up, back)
    clamped = bench(part, setup)
    later = replace(clamped, number=2)
    held, _ = grip(part, small_shop(), clamped.laid, setup, ())
    mark = corner_mark(later, held, MarkFaces(Face.LEFT, Face.BACK))
    assert mark.words.partition("; ")[0].endswith(f"is now {place}")
    assert ("stamp it again" in mark.words) == (up is Face.LEFT)  # the face that carries it is cut there


def test_edges_name_raw_and_finished() -> None:
    """Raw at -2 and 42, finished at 0 and 40; each reading once."""
    part, setup = block(), asked()
    clamped = bench(part, setup)
    held, _ = grip(part, small_shop(), clamped.laid, setup, ())
    marks = {(m.axis, m.shown): m.words for m in edge_marks(clamped, held)}
    assert marks[("x", "-2.000")] == "raw left"
    assert marks[("x", "+40.000")] == "finished right"
    assert marks[("y", "+32.000")] == "raw back"
    assert len(marks) == 8


@pytest.mark.parametrize("name", ["worm-bracket", "six-faces", "hole-limits-below"])
def test_mark_stays_at_one_corner_of_the_part(name: str) -> None:
    """Carried back to the part, the mark lies at the same end and side in every setup."""
    plan = plan_of(name)
    assert len({setup.mark_label for setup in plan.setups}) == 1
