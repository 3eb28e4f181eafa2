"""Setups on a rotary table: each rule has a text that breaks it and one that nearly does."""

from __future__ import annotations

import pytest

from .conftest import Read

SETUP = """\
setups:
  - name: round
    up: top
    back: back
    hold: {in: rotary table, centred: bore, on: packing 10 under A}
    zero: {x: {at: bore, found: indicate bore}, z: {at: top, found: stock top}}
    do: [face top]
"""


def test_a_sound_setup(read: Read) -> None:
    """The part is centred on its bore, where X may be said to be zero."""
    part, _, found = read(more=SETUP)
    assert found == []
    assert part is not None
    assert part.setups[0].hold is not None
    assert (part.setups[0].hold.in_, part.setups[0].hold.centred) == ("rotary table", "bore")


def test_a_point_may_be_centred(read: Read) -> None:
    """A named point does as well as a bore, and is used by that."""
    text = SETUP.replace("centred: bore", "centred: middle").replace("x: {at: bore, found: indicate bore}, ", "")
    part, _, found = read(more="points: {middle: [30, 20]}\n" + text)
    assert (part is not None, found) == (True, [])


@pytest.mark.parametrize(
    ("old", "new", "code", "line"),
    [
        ("    back: back", "    fixed-jaw: back", "jaw-on-rotary-table", 24),
        (", centred: bore", "", "centred-not-clear", 25),
        ("centred: bore", "centred: bor", "centred-not-clear", 25),
        ("centred: bore", "centred: left", "centred-not-clear", 25),
        ("in: rotary table", "in: table", "centred-without-rotary-table", 25),
        ("in: rotary table", "in: turntable", "not-a-choice", 25),
        ("x: {at: bore", "x: {at: left", "zero-off-table-axis", 26),
    ],
)
def test_faults(read: Read, old: str, new: str, code: str, line: int) -> None:
    """Each wrong value is found where it stands."""
    assert old in SETUP
    _, _, found = read(more=SETUP.replace(old, new))
    assert [(finding.code, finding.place and finding.place.line) for finding in found] == [(code, line)]


def test_the_nearest_name_is_offered(read: Read) -> None:
    """A slip of the pen gets the name that was meant."""
    _, _, found = read(more=SETUP.replace("centred: bore", "centred: bor"))
    assert found[0].try_ == "centred: bore"


def test_a_pattern_has_no_single_place(read: Read) -> None:
    """Four holes cannot all stand over the middle; a single one beside them can."""
    circle = "{bolt-circle: 16, centre: [44, 26], count: 4, start: 0}"
    holes = f"  four: {{kind: hole, pattern: {circle}, drill: 4, through: true}}\n"
    _, _, found = read(
        more=holes + SETUP.replace("centred: bore", "centred: four").replace("x: {at: bore", "x: {at: four")
    )
    assert "centred-not-clear" in [finding.code for finding in found]
