"""The shop file: sets, single cutters, machines, and what is wrong in one."""

from __future__ import annotations

import pytest

from setupsheet.part.shop import Shop

from .conftest import SHOP, Read


def shop_of(read: Read, more: str) -> Shop:
    """Return the test shop with more in it."""
    _, shop, found = read(shop=SHOP + more)
    assert shop is not None, found
    return shop


@pytest.mark.parametrize(
    ("entry", "count", "first", "last"),
    [
        ("1 to 13 by 0.1", 121, 1.0, 13.0),
        ("1 to 2 by 0.5", 3, 1.0, 2.0),
        ("1/16 in to 1/2 in by 1/64 in", 29, 25.4 / 16, 12.7),
        ("no. 1 to no. 60", 60, 0.04 * 25.4, 0.228 * 25.4),  # ASME B94.11M: no. 60 0.0400, no. 1 0.2280 in
        ("A to Z", 26, 0.234 * 25.4, 0.413 * 25.4),  # ASME B94.11M: A 0.2340, Z 0.4130 in
        ("11.7", 1, 11.7, 11.7),
        ("{size: 5, flute: 52, length: 86}", 1, 5.0, 5.0),
    ],
)
def test_drills(read: Read, entry: str, count: int, first: float, last: float) -> None:
    """A set is written as a machinist says it."""
    sizes = sorted(
        cutter.diameter_mm
        for cutter in shop_of(read, f"drills: [{entry!r}]\n" if "{" not in entry else f"drills: [{entry}]\n").cutters
    )
    assert len(sizes) == count
    assert (sizes[0], sizes[-1]) == pytest.approx((first, last))


def test_cutters(read: Read) -> None:
    """Reamers keep their fit and measured size, taps their thread, end mills their lengths."""
    more = (
        "reamers: [12 H7, 1/4 NPT, {size: 6 H7, measured: 6.004}]\ntaps: [M5, {thread: M6x1, kind: plug}]\n"
        "end-mills: [{diameter: 10, flutes: 3, flute: 22, length: 72}]\n"
        "spot-drills: [{diameter: 8, angle: 90}]\ncountersinks: [{diameter: 16, angle: 82, tip: 1}]\n"
        "counterbores: [{diameter: 10, pilot: 5.5, for: M5}]\ncentre-drills: [{diameter: 5, angle: 60, tip: 2}]\n"
    )
    cutters = {cutter.label: cutter for cutter in shop_of(read, more).cutters}
    assert cutters["reamer 12 H7"].fit == "H7"
    assert cutters["reamer 6 H7"].measured_mm == 6.004
    assert cutters["taper reamer 1/4-18 NPT"].thread == "1/4-18 NPT"
    assert cutters["tap M6 plug"].thread == "M6"
    assert cutters["end mill 10, 3 flutes"].shank_diameter_mm == 10
    assert cutters["countersink 16 x 82"].point_angle_deg == 82
    assert cutters["counterbore 10 for M5"].pilot_mm == 5.5
    assert cutters["centre drill 5 x 60"].tip_mm == 2


def test_drill_chuck(read: Read) -> None:
    """The chuck's greatest speed is kept, also one above the numbers of a count; 0 stands for not told."""
    assert shop_of(read, "drill-chuck: {greatest-speed: 4000}\n").chuck_rpm == 4000
    assert shop_of(read, "").chuck_rpm == 0


def test_speed_range_and_dials(read: Read) -> None:
    """Speeds can be a range; an axis can have a dial, in a unit of its own, and count the other way."""
    changed = SHOP.replace("[100, 1000]", "3000 to 200").replace(
        "z: {readout: 0.005}", "z: {dial: 0.1 in, division: 0.001 in, counts: down}"
    )
    _, shop, found = read(shop=changed)
    assert shop is not None, found
    machine = shop.machines[0]
    assert (machine.speeds_rpm, machine.stepless) == ((200, 3000), True)
    axis = machine.axes["z"]
    assert (axis.kind, axis.counts, axis.unit) == ("dial", -1, "inch")
    assert (axis.per_turn_mm, axis.step_mm) == pytest.approx((2.54, 0.0254))


@pytest.mark.parametrize(
    ("more", "code"),
    [
        ("drills: [-3]\n", "not-in-tables"),
        ("drills: [0 to 2 by 0.1]\n", "set-not-clear"),
        ("drills: [1 to 0.5 by 0.1]\n", "set-not-clear"),
        ("drills: [1 to 13 by 0]\n", "set-not-clear"),
        ("drills: [1 to 13 by 0.001]\n", "set-too-large"),
        ("drills: [1 to 13]\n", "set-not-clear"),
        ("drills: [no. 1 to no. 90]\n", "not-in-tables"),
        ("drills: [5.5.5]\n", "not-a-drill"),
        ("drills: [M5]\n", "not-a-drill"),
        ("taps: [M5.5]\n", "not-in-tables"),
        ("reamers: [12 H77]\n", "not-in-tables"),
        ("end-mills: [{diameter: -1}]\n", "not-above-zero"),
        ("end-mills: [{diameter: 10, flutes: none}]\n", "not-a-number"),
        ("reamers: [9/8 NPT]\n", "not-in-tables"),
        ("edge-finder: wide\n", "not-a-length"),
        ("drill-chuck: {greatest-speed: fast}\n", "not-a-number"),
        ("drill-chuck: {greatest-speed: 0}\n", "not-a-count"),
        ("drill-chuck: {greatest-speed: 99}\n", "holder-too-slow"),
        ("drill-chuck: {}\n", "key-missing"),
        ("boring-head: {bar: 10, greatest-speed: 80}\n", "holder-too-slow"),
        ("gauges: [{kind: ruler}]\n", "not-a-choice"),
        ("vise: 3\n", "unknown-key"),
        ("vises: {v: {jaw-length: 0, jaw-height: 30, opening: 80}}\n", "not-above-zero"),
        ("clamps: 3\n", "wrong-form"),
    ],
)
def test_fault(read: Read, more: str, code: str) -> None:
    """What is wrong in the shop is told at its place in the shop file; the part is still read."""
    part, shop, found = read(shop=SHOP + more)
    assert part is not None
    assert shop is None
    assert [finding.code for finding in found] == [code]
    assert found[0].place is not None
    assert found[0].place.file.endswith("shop.yaml")
    assert found[0].place.line == 10


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("speeds: [100, 1000]", "speeds: [0, 100]", "not-above-zero"),
        ("speeds: [100, 1000]", "speeds: fast", "speeds"),
        ("x: {readout: 0.005}", "x: {readout: 0}", "not-above-zero"),
        ("x: {readout: 0.005}", "x: {readout: 0.005, dial: 2}", "axis-not-clear"),
        ("x: {readout: 0.005}", "x: {}", "axis-not-clear"),
        ("x: {readout: 0.005}", "x: {readout: 0.005, counts: up}", "not-a-choice"),
        ("x: {readout: 0.005}, ", "", "key-missing"),
        ("[400, 145, 330]", "[400, 145]", "wrong-count"),
        ("  mill:\n", "  mill: {}\nmore:\n", "key-missing"),
    ],
)
def test_machine_fault(read: Read, old: str, new: str, code: str) -> None:
    """A machine needs speeds, travel and three axes that can be read."""
    assert old in SHOP
    found = read(shop=SHOP.replace(old, new, 1))[2]
    assert found
    assert code in [finding.code for finding in found]


@pytest.mark.parametrize(
    ("text", "code"),
    [("", "not-a-spec"), ("- 1\n", "not-a-spec"), ("format: 1\nunits: mm\nmachines: {}\n", "no-machine")],
)
def test_empty_shop(read: Read, text: str, code: str) -> None:
    """An empty shop, a list, a shop without a machine."""
    assert [finding.code for finding in read(shop=text)[2]] == [code]
