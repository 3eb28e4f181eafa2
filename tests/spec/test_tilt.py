"""Setups at an angle as they are written: what lies level, which end goes up, what holds, how zero is found."""

from __future__ import annotations

import pytest

from .conftest import Read

FEATURES = """\
  slant:
    kind: edge cut
    line: [[30, 40], [60, 29]]
    remove: back
"""
SETUP = """\
setups:
  - name: slant level
    up: back
    fixed-jaw: top
    tilt: slant
    hold: {in: angle plate}
    zero:
      x: {at: bore, found: pin in bore}
      z: {at: slant, found: high corner}
"""


def test_sound_tilt(read: Read) -> None:
    """The edge that is to lie level is kept by its name."""
    part, _, found = read(more=FEATURES + SETUP)
    assert [f.code for f in found] == []
    assert part is not None
    tilt = part.setups[0].tilt
    assert tilt is not None
    assert (tilt.feature, tilt.raised, tilt.degrees) == ("slant", "", 0.0)


def test_stated_angle(read: Read) -> None:
    """An angle is stated by the end that goes up and the degrees."""
    part, _, found = read(more=FEATURES + SETUP.replace("tilt: slant", "tilt: raise left 20.14"))
    assert [f.code for f in found] == []
    assert part is not None
    tilt = part.setups[0].tilt
    assert tilt is not None
    assert (tilt.feature, tilt.raised, tilt.degrees) == ("", "left", 20.14)


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("tilt: slant", "tilt: raise it 20", "tilt-not-clear"),
        ("tilt: slant", "tilt: raise left 95", "tilt-not-clear"),
        ("tilt: slant", "tilt: raise left 0", "tilt-not-clear"),
        ("tilt: slant", "tilt: bore", "tilt-without-slant"),
        ("tilt: slant", "tilt: slamt", "tilt-without-slant"),
        ("in: angle plate", "in: table", "hold-does-not-suit"),
        ("    tilt: slant\n", "", "hold-does-not-suit"),
        ("pin in bore", "stock left", "found-not-clear"),
        ("pin in bore", "pin in bohr", "found-not-clear"),
        ("found: high corner", "found: faced", "found-not-clear"),
    ],
)
def test_fault(read: Read, old: str, new: str, code: str) -> None:
    """Each contradiction is told."""
    assert old in SETUP
    _, _, found = read(more=FEATURES + SETUP.replace(old, new))
    assert code in [f.code for f in found]
