"""Frames, sums and turn-over sentences: properties that hold for every way a part can lie."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setupsheet.part.face import Face
from setupsheet.plane import Point3
from setupsheet.solid import frame
from setupsheet.solid.frame import Orientation, Turning

_number = st.integers(-50_000, 50_000).map(lambda n: n / 1000)
_point = st.tuples(_number, _number, _number)
_orientation = st.sampled_from(frame.orientations())
_NAMED = {
    "top face": Face.TOP,
    "underside": Face.BOTTOM,
    "left end": Face.LEFT,
    "right end": Face.RIGHT,
    "front edge": Face.FRONT,
    "back edge": Face.BACK,
}
_SAID: dict[str, Turning] = {
    "like a page of a book, left over right": ("y", 180),
    "over, front over back": ("x", 180),
    "half round as it lies": ("z", 180),
    "a quarter turn as it lies, counter-clockwise": ("z", 90),
    "a quarter turn as it lies, clockwise": ("z", -90),
    "a quarter turn towards you": ("x", 90),
    "a quarter turn away from you": ("x", -90),
    "a quarter turn to the right": ("y", 90),
    "a quarter turn to the left": ("y", -90),
}


def _near(a: Point3, b: Point3) -> bool:
    return all(abs(p - q) < 1e-9 for p, q in zip(a, b, strict=True))


def test_there_are_24_orientations() -> None:
    """A body lies square to the machine in as many ways as a cube has rotations."""
    assert len(set(frame.orientations())) == 24


@given(_orientation, _point)
def test_the_motion_is_rigid_and_puts_the_zero_at_the_origin(lies: Orientation, zero: Point3) -> None:
    """Nothing is mirrored or stretched, and the up and back faces point up and away."""
    matrix = frame.part_to_setup(*lies, zero)
    assert frame.is_rigid(matrix)
    assert _near(frame.apply(matrix, zero), (0, 0, 0))
    assert frame.direction(matrix, frame.normal(lies[0])) == (0, 0, 1)
    assert frame.direction(matrix, frame.normal(lies[1])) == (0, 1, 0)


@given(_orientation, _point, _point)
def test_the_inverse_leads_back(lies: Orientation, zero: Point3, point: Point3) -> None:
    """A point taken to the setup and back is where it was."""
    matrix = frame.part_to_setup(*lies, zero)
    assert _near(frame.apply(frame.inverse(matrix), frame.apply(matrix, point)), point)


@given(_orientation, _orientation, _point, _point, _point)
def test_motions_compose(a: Orientation, b: Orientation, zero: Point3, other: Point3, point: Point3) -> None:
    """Two motions after each other are one rigid motion."""
    first, second = frame.part_to_setup(*a, zero), frame.part_to_setup(*b, other)
    both = frame.compose(second, first)
    assert frame.is_rigid(both)
    assert _near(frame.apply(both, point), frame.apply(second, frame.apply(first, point)))


def test_a_mirror_image_is_not_rigid() -> None:
    """A matrix that turns left into right without turning the part over is refused."""
    mirror = ((-1.0, 0.0, 0.0, 0.0), (0.0, 1.0, 0.0, 0.0), (0.0, 0.0, 1.0, 0.0), (0.0, 0.0, 0.0, 1.0))
    assert not frame.is_rigid(mirror)


def test_faces_that_are_not_square_are_refused() -> None:
    """The face away from the reader cannot be the one on top or below."""
    with pytest.raises(ValueError, match="cannot point away"):
        frame.part_to_setup(Face.TOP, Face.BOTTOM, (0, 0, 0))


def _value(words: str, drawing: Point3) -> float:
    """Work a printed sum out again, as a person does."""
    for name, number in zip(("drawing x", "drawing y", "height above A"), drawing, strict=True):
        words = words.replace(name, f"@{number}")
    match = re.fullmatch(r"machine [XYZ] = (?:(minus )|(-?[\d.]+) - )?@(-?[\d.e-]+)(?: ([+-]) ([\d.]+))?", words)
    assert match, words
    minus, before, value, sign, after = match.groups()
    result = float(before or 0) + (-1 if minus or before else 1) * float(value)
    return result + float(f"{sign or ''}{after or 0}")


@given(_orientation, _point, _point)
def test_sums_agree_with_the_matrix(lies: Orientation, zero: Point3, point: Point3) -> None:
    """The sum that a person works out gives the coordinate that the plan uses."""
    matrix = frame.part_to_setup(*lies, zero)
    for words, coordinate in zip(frame.sums(matrix), frame.apply(matrix, point), strict=True):
        assert _value(words, point) == pytest.approx(coordinate, abs=1e-6)


def test_sums_read_as_a_machinist_says_them() -> None:
    """The underside up and the back at the fixed jaw, zero at a bore, in both units."""
    under = frame.part_to_setup(Face.BOTTOM, Face.BACK, (34, 29, 0))
    assert frame.sums(under) == (
        "machine X = 34 - drawing x",
        "machine Y = drawing y - 29",
        "machine Z = minus height above A",
    )
    inch = frame.part_to_setup(Face.TOP, Face.BACK, (25.4, -9.525, 0))
    assert frame.sums(inch, "inch") == (
        "machine X = drawing x - 1",
        "machine Y = drawing y + 0.375",
        "machine Z = height above A",
    )


def test_a_frame_turned_by_an_angle_has_no_sums() -> None:
    """A coordinate of a turned frame is no sum of a number and one drawing coordinate."""
    half = 0.5**0.5
    turned = ((half, half, 0.0, 0.0), (-half, half, 0.0, 0.0), (0.0, 0.0, 1.0, 0.0), (0.0, 0.0, 0.0, 1.0))
    assert frame.is_rigid(turned)
    with pytest.raises(ValueError, match="turned by an angle"):
        frame.sums(turned)


@given(_orientation, _orientation, st.sampled_from(["back", "front", "none"]))
def test_the_sentence_leads_from_before_to_after(before: Orientation, after: Orientation, fixed: str) -> None:
    """Doing what the sentence says, in its order, brings the part where the next setup wants it."""
    told = frame.turn(before, after, fixed)
    assert len(told.moves) <= 2
    said = sorted((told.sentence.index(words), move) for words, move in _SAID.items() if words in told.sentence)
    assert [move for _, move in said] == list(told.moves)
    lies = before
    for move in told.moves:
        lies = frame.turned(lies, move)
    assert lies == after
    named = _NAMED[re.findall("|".join(_NAMED), told.sentence)[-1]]
    assert named == (after[1].opposite if fixed == "front" else after[1])
    face_before = before[1].opposite if fixed == "front" else before[1]
    assert ("stays" in told.sentence) == (named == face_before)


@given(_orientation, st.sampled_from(["x", "y", "z"]), st.sampled_from([90, -90, 180]))
def test_a_turn_is_right_handed_about_the_machine(lies: Orientation, axis: str, degrees: int) -> None:
    """A face that points along a machine axis ends where the right-hand rule says."""
    ring = {"x": "yz", "y": "zx", "z": "xy"}[axis]
    after = frame.turned(lies, (axis, degrees))
    place = "xyz".index(ring[0])
    face = next(f for f in Face if frame.direction(frame.part_to_setup(*lies, (0, 0, 0)), frame.normal(f))[place] == 1)
    now = frame.direction(frame.part_to_setup(*after, (0, 0, 0)), frame.normal(face))
    wanted = {90: (0, 1), -90: (0, -1), 180: (-1, 0)}[degrees]
    assert (now["xyz".index(ring[0])], now["xyz".index(ring[1])]) == wanted


def test_the_page_turn_of_the_underside_to_the_top() -> None:
    """The turn of nearly every two-sided part, in the trade's words."""
    told = frame.turn((Face.BOTTOM, Face.BACK), (Face.TOP, Face.BACK))
    assert (told.axis, told.angle_deg) == ("y", 180)
    assert told.sentence == (
        "Turn the part like a page of a book, left over right; the back edge stays at the fixed jaw."
    )


def test_the_first_setup_says_what_is_on_the_right() -> None:
    """With the underside up and the same edge away, the part's left end is on the reader's right."""
    told = frame.turn(None, (Face.BOTTOM, Face.BACK))
    assert told.moves == ()
    assert told.sentence == (
        "Lay the part with its underside up and its back edge at the fixed jaw; its left end is then on your right."
    )
