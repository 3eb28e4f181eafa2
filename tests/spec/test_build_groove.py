"""Ring grooves by the seal that lies in them."""

from __future__ import annotations

import pytest

from setupsheet.part.feature import RingGroove

from .conftest import Read

GROOVE = "  new:\n    kind: ring groove\n    at: [40, 20]\n"


def groove(read: Read, text: str, *changes: tuple[str, str]) -> RingGroove:
    """Return the groove that is added to the plate."""
    part, _, found = read(*changes, more=GROOVE + text)
    assert part is not None, found
    feature = part.feature("new")
    assert isinstance(feature, RingGroove)
    return feature


def test_sizes_by_cord(read: Read) -> None:
    """Cord 2, inside 12: width 2.8 +0.2 and depth 1.5 +0.1 (seal_grooves G1); the seal is not stretched."""
    found = groove(read, "    seal: {cord: 2, inside: 12}\n")
    assert (found.inner.nominal_mm, found.outer.nominal_mm) == pytest.approx((12, 17.6))
    width = (found.outer.lower_mm - found.inner.upper_mm) / 2, (found.outer.upper_mm - found.inner.lower_mm) / 2
    assert width == pytest.approx((2.8, 3.0))
    assert found.inner.upper_mm == pytest.approx(12)
    assert (found.floor.lower_mm, found.floor.upper_mm) == pytest.approx((12 - 1.6, 12 - 1.5))
    assert found.seal == "cord 2, inside 12"


def test_pressure_from_inside(read: Read) -> None:
    """Pressure from inside pushes the seal outward: the outer wall has the free seal's outside diameter."""
    found = groove(read, "    seal: {cord: 2, inside: 12, pressure: inside}\n")
    assert (found.inner.nominal_mm, found.outer.nominal_mm) == pytest.approx((10.4, 16))
    assert found.outer.lower_mm == pytest.approx(16)


def test_inch_cord(read: Read) -> None:
    """A cord of .070 in lies .050 to .054 deep, .101 to .107 wide (AS568 face seal, seal_grooves_inch G2)."""
    part, _, said = read(
        ("units: mm", "units: inch"),
        ("[64, 44, 13]", "[3, 2, 0.6]"),
        ("[60, 40, 12]", "[2.8, 1.8, 0.5]"),
        ("[20, 15]", "[0.4, 0.4]"),
        ("10 H7", "10 mm H7"),
        more=GROOVE.replace("[40, 20]", "[1.8, 0.9]") + "    seal: {cord: 0.070, inside: 0.500}\n",
    )
    assert part is not None, said
    found = part.feature("new")
    assert isinstance(found, RingGroove)
    assert found.inner.nominal_mm == pytest.approx(0.5 * 25.4)
    assert found.outer.nominal_mm == pytest.approx(0.702 * 25.4)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("    seal: {cord: 2.2, inside: 12}\n", "not-in-tables"),
        ("    seal: {cord: 2, inside: 12}\n    depth: 1.5\n", "seal-and-sizes"),
        ("    seal: {cord: 3, inside: 1, pressure: inside}\n", "groove-inside-out"),
        ("    seal: cord 2, inside 12\n    depth: 1.5\n", "groove-not-clear"),
        ("    seal: {cord: 2}\n", "key-missing"),
    ],
)
def test_bad_seals(read: Read, text: str, code: str) -> None:
    """A cord that is not sold, sizes beside the seal, a seal too small, no sizes at all, half a seal."""
    part, _, found = read(more=GROOVE + text)
    assert part is None
    assert [finding.code for finding in found] == [code]
