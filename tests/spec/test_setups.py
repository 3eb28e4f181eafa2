"""Setups: faces, turn-over words, order of work, zeros; each cross-check has a case that fires it."""

from __future__ import annotations

import pytest

from setupsheet.finding import Place, Severity
from setupsheet.part.face import Face
from setupsheet.part.part import SetupAsked
from setupsheet.spec.sense_setup import machine_axes, turn_word

from .conftest import Read

FIRST = """\
setups:
  - name: one
    up: bottom
    fixed-jaw: back
    hold: {in: vise, grip: 6, on: parallels 24 under raw top, overhang: {left: 9}}
    zero:
      x: {at: bore, found: stock right, expect: 42}
      y: {at: bore, found: stock front, expect: 17}
      z: {at: A, found: faced}
    do: [face A, outline except bore, all holes]
  - name: two
    up: top
    fixed-jaw: back
    turn: left-over-right
    zero: {x: {at: B, found: finished left}, y: {at: bore, found: indicate bore}, z: {at: A, found: height of A}}
    check-first: bore
    do: [face top]
"""


def asked(up: Face, back: Face) -> SetupAsked:
    """Return a setup of two faces."""
    return SetupAsked("s", up, back, True, "", None, {}, "", (), Place("x"))


def test_sound_setups(read: Read) -> None:
    """The two setups have no finding."""
    part, _, found = read(more=FIRST)
    assert found == []
    assert part is not None
    assert part.setups[0].hold is not None
    assert part.setups[0].hold.rest is not None
    assert part.setups[0].hold.rest.height_mm == 24
    assert part.setups[1].in_vise


@pytest.mark.parametrize(
    ("old", "new", "code", "line"),
    [
        ("fixed-jaw: back", "fixed-jaw: top", "faces-of-one-axis", 24),
        ("    fixed-jaw: back\n", "", "setup-not-fixed", 22),
        ("    fixed-jaw: back\n", "    fixed-jaw: back\n    back: back\n", "setup-not-fixed", 25),
        ("up: bottom", "up: below", "not-a-choice", 23),
        ("name: two", "name: one", "setup-name-twice", 31),
        ("turn: left-over-right", "turn: front-over-back", "turn-contradicts", 34),
        ("turn: left-over-right", "turn: over", "not-a-choice", 34),
        ("face A,", "face Q,", "unknown-work", 30),
        ("all holes", "all hole", "unknown-work", 30),
        ("outline except bore", "outline except bohr", "unknown-work", 30),
        ("at: bore, found: stock right", "at: bohr, found: stock right", "unknown-zero", 27),
        ("found: stock right", "found: stock rigth", "found-not-clear", 27),
        ("found: stock right", "found: stock front", "found-not-clear", 27),
        ("found: stock right", "found: somehow", "found-not-clear", 27),
        ("indicate bore", "indicate bohr", "found-not-clear", 35),
        ("height of A", "height of Q", "found-not-clear", 35),
        ("expect: 42", "expect: 41", "expect-differs", 27),
        ("check-first: bore", "check-first: bohr", "witness-not-seen", 36),
        ("{left: 9}", "{back: 9}", "overhang-side", 25),
        ("parallels 24 under raw top", "something soft", "rest-not-clear", 25),
        ("grip: 6", "grip: firm", "not-a-length", 25),
        ("in: vise", "in: hand", "not-a-choice", 25),
    ],
)
def test_fault(read: Read, old: str, new: str, code: str, line: int) -> None:
    """Each contradiction is told once, in its line."""
    assert old in FIRST
    found = read(more=FIRST.replace(old, new, 1))[2]
    errors = [
        (finding.code, finding.place.line) for finding in found if finding.severity is Severity.ERROR and finding.place
    ]
    assert errors == [(code, line)]


def test_machine_axes_are_right_handed() -> None:
    """Whatever two faces fix a setup: right x away = up."""
    for up in Face:
        for back in Face:
            if up.axis == back.axis:
                continue
            right, away, top = machine_axes(asked(up, back))
            vectors = [[face.sign * (axis == face.axis) for axis in range(3)] for face in (right, away, top)]
            (a, b, c) = vectors
            cross = [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
            assert cross == c


@pytest.mark.parametrize(
    ("before", "after", "word"),
    [
        ((Face.BOTTOM, Face.BACK), (Face.TOP, Face.BACK), "left-over-right"),
        ((Face.BOTTOM, Face.BACK), (Face.TOP, Face.FRONT), "front-over-back"),
        ((Face.TOP, Face.BACK), (Face.TOP, Face.FRONT), "half-turn"),
        ((Face.TOP, Face.BACK), (Face.TOP, Face.LEFT), "quarter-turn"),
        ((Face.TOP, Face.BACK), (Face.TOP, Face.BACK), "not turned"),
        ((Face.TOP, Face.BACK), (Face.FRONT, Face.TOP), ""),
    ],
)
def test_turn_words(before: tuple[Face, Face], after: tuple[Face, Face], word: str) -> None:
    """Turning like a page keeps the edge at the fixed jaw; end over end brings the other one there."""
    assert turn_word(asked(*before), asked(*after)) == word


@pytest.mark.parametrize(("written", "count", "codes"), [("4", 4, []), ("0", 0, ["not-a-count"])])
def test_parts_of_a_set(read: Read, written: str, count: int, codes: list[str]) -> None:
    """A set has from 1 part on; one part where nothing is written."""
    part, _, found = read(("features:", f"quantity: {written}\nfeatures:"))
    assert [finding.code for finding in found] == codes
    assert part is None or codes or part.quantity == count
    single, _, _ = read()
    assert single is not None
    assert single.quantity == 1
