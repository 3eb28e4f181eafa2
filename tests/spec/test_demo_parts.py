"""The demo parts, as they come out of their specs."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from setupsheet.finding import Findings, Severity
from setupsheet.length import Unit
from setupsheet.part.face import FACE_OF, Box, Face
from setupsheet.part.feature import BoltCircle, EdgeCut, Hole, Level, RingGroove, Slot
from setupsheet.part.part import Part
from setupsheet.part.shop import Shop
from setupsheet.spec.reader import read_part
from tests.plan.planned import DEMOS

SPECS = Path(__file__).parents[2] / "specs"


def demo(name: str) -> tuple[Part, Shop, Findings]:
    """Return a demo part with its shop."""
    part, shop, found = read_part(SPECS / f"{name}.yaml")
    assert part is not None
    assert shop is not None
    return part, shop, found


@pytest.mark.parametrize("name", DEMOS)
def test_no_error(name: str) -> None:
    """A demo part has only the caution about blank fields, which its own title block leaves open on purpose."""
    found = demo(name)[2]
    assert [(finding.code, finding.severity) for finding in found] == [("title-block-blank", Severity.NOTE)]


def test_every_spec_starts_with_its_schema() -> None:
    """An editor finds the schema by the first line of each file under specs/."""
    for path in sorted(SPECS.glob("*.yaml")):
        first = path.read_text(encoding="utf-8").splitlines()[0]
        named = first.partition("$schema=")[2].partition("#")[0]
        assert first.startswith("# yaml-language-server:"), path.name
        assert (path.parent / named).is_file(), path.name


def hole(part: Part, id_: str) -> Hole:
    """Return a hole of a part."""
    feature = part.feature(id_)
    assert isinstance(feature, Hole)
    return feature


def test_bracket_frame() -> None:
    """Envelope, stock and what comes off each face."""
    part = demo("worm-bracket")[0]
    assert part.unit is Unit.MM
    assert part.box == Box((0, 0, 0), (80, 62, 15))
    assert part.stock.box == Box((-2, -2, -0.5), (82, 64, 15.5))
    assert part.stock.remove_mm[Face.TOP] == 0.5
    assert part.points == {"bore": (34, 29), "pivot": (70, 10)}
    assert part.source_file == "specs/worm-bracket.yaml"


def test_bracket_sizes() -> None:
    """Limits: 12 H7 is 0 to +18 µm (ISO 286-2), M4 medium 4.5 (ISO 273), 80 ±0.3 and 6 ±0.1 (ISO 2768-1 m)."""
    part = demo("worm-bracket")[0]
    bore = hole(part, "bearing-bore").diameter
    assert (bore.lower_mm, bore.upper_mm) == (12.0, 12.018)
    assert hole(part, "cover-screws").diameter.nominal_mm == 4.5
    assert (part.envelope[Face.LEFT].lower_mm, part.envelope[Face.LEFT].upper_mm) == (79.7, 80.3)
    flange = part.feature("flange-level")
    assert isinstance(flange, Level)
    assert (flange.height.lower_mm, flange.height.upper_mm) == (5.9, 6.1)
    end = part.feature("left-end")
    assert isinstance(end, EdgeCut)
    assert end.distance is not None
    assert (end.distance.lower_mm, end.distance.upper_mm) == (33.95, 34.05)
    assert end.line[0][0] == 0.0


def test_bracket_ring() -> None:
    """R1 stands at 15 degrees on a circle of 42 about the bore; the ring is no mirror image of itself."""
    ring = hole(demo("worm-bracket")[0], "cover-screws")
    assert [spot.label for spot in ring.spots] == ["R1", "R2", "R3", "R4", "R5", "R6"]
    assert ring.spots[0].at == pytest.approx((34 + 20.284442, 29 + 5.4352), abs=1e-4)
    assert isinstance(ring.pattern, BoltCircle)
    mirrored = {(round(68 - spot.at[0], 3), round(spot.at[1], 3)) for spot in ring.spots}
    assert mirrored.isdisjoint({(round(spot.at[0], 3), round(spot.at[1], 3)) for spot in ring.spots})


def test_bracket_surfaces() -> None:
    """A hole opens where the part is finished: boss 15, flange 6, pad 8; below at 0, in the relief at 1.5."""
    part = demo("worm-bracket")[0]
    ends = {
        spot.label: (spot.mouth_mm, spot.exit_mm)
        for feature in part.features
        if isinstance(feature, Hole)
        for spot in feature.spots
    }
    assert ends["bore"] == (15, 1.5)
    assert ends["R1"] == (6, 1.5)
    assert ends["R3"] == (6, 0)
    assert ends["P1"] == (8, 0)
    assert ends["T2"] == (8, 0)
    assert ends["K1"] == (6, 0)


def test_bracket_levels_leave_the_boss() -> None:
    """A round boss is left standing by every level of its face, also where the text does not say so."""
    pad = demo("worm-bracket")[0].feature("pad-level")
    assert isinstance(pad, Level)
    assert [keep.feature for keep in pad.leave] == ["boss"]


def test_bracket_setups() -> None:
    """The setups stand as they were asked for."""
    first, second = demo("worm-bracket")[0].setups
    assert (first.up, first.back, first.in_vise) == (Face.BOTTOM, Face.BACK, True)
    assert first.zero["x"].expect_mm == 48
    assert second.hold is not None
    assert second.hold.overhang_mm == {Face.LEFT: 14}
    assert second.check_first == "pivot-hole"
    assert second.do[-1] == "left-end"


def test_home_shop() -> None:
    """The shop's drills run from 1 to 13 by a tenth; the readout steps by 0.005."""
    shop = demo("worm-bracket")[1]
    drills = [cutter.diameter_mm for cutter in shop.cutters if cutter.kind == "drill"]
    assert len(drills) == 121
    assert drills[0] == 1.0
    assert drills[-1] == 13.0
    assert drills == pytest.approx([1 + index / 10 for index in range(121)])
    assert shop.machines[0].axes["x"].step_mm == 0.005
    assert shop.machines[0].speeds_rpm == (100, 200, 350, 600, 1000, 1800)


def test_foot_stock() -> None:
    """2-3/4 x 1-5/8 x 5/8 in is sawn; what is not stated comes off opposite faces evenly, and is recorded."""
    part = demo("indicator-foot")[0]
    assert part.unit is Unit.INCH
    assert [length.exact_mm for length in part.stock.size] == [
        Fraction(inch) * Fraction("25.4") for inch in ("2.75", "1.625", "0.625")
    ]
    assert part.stock.remove_mm[Face.LEFT] == pytest.approx(0.125 * 25.4)
    assert part.stock.remove_mm[Face.TOP] == pytest.approx(0.0625 * 25.4)
    assert "stock/remove/left" in [default.path for default in part.defaults]


def test_foot_tolerances_by_places() -> None:
    """Three places ±0.005 in, a fraction ±1/64 in; limits turned into mm are rounded inward."""
    part = demo("indicator-foot")[0]
    thick = part.envelope[Face.TOP]
    assert thick.written == "0.500"
    assert thick.lower_mm == 12.573
    assert thick.upper_mm == 12.827
    pins = hole(part, "plate-pins")
    assert pins.diameter.nominal_mm == pytest.approx(0.1285 * 25.4)  # no. 30 drill, ASME B94.11M
    slot = part.feature("clamp-slot")
    assert isinstance(slot, Slot)
    assert 0.365 * 25.4 <= slot.width.lower_mm < slot.width.upper_mm <= 0.385 * 25.4
    assert slot.floor is None


def test_foot_threads() -> None:
    """10-32 UNF: major 0.1900 in, 32 threads an inch (ASME B1.1)."""
    screws = hole(demo("indicator-foot")[0], "plate-screws")
    assert screws.thread is not None
    assert screws.thread.major_mm == pytest.approx(0.19 * 25.4)
    assert screws.thread.pitch_mm == pytest.approx(25.4 / 32)
    assert screws.depth_mm == pytest.approx(0.25 * 25.4)
    assert screws.drill_depth_mm == pytest.approx(0.38 * 25.4)


def test_foot_is_no_mirror_image() -> None:
    """The holes of the foot do not fall on each other when it is mirrored in X or in Y."""
    part = demo("indicator-foot")[0]
    places = {
        (round(spot.at[0], 3), round(spot.at[1], 3))
        for feature in part.features
        if isinstance(feature, Hole)
        for spot in feature.spots
    }
    width, depth = part.box.high[0], part.box.high[1]
    assert places != {(round(width - x, 3), y) for x, y in places}
    assert places != {(x, round(depth - y, 3)) for x, y in places}


def test_inch_shop() -> None:
    """Dials turn 0.100 in and are divided by 0.001 in; drills come in fractions, numbers and letters."""
    shop = demo("indicator-foot")[1]
    axis = shop.machines[0].axes["y"]
    assert axis.kind == "dial"
    assert (axis.per_turn_mm, axis.step_mm) == pytest.approx((2.54, 0.0254))
    labels = {cutter.label: cutter.diameter_mm for cutter in shop.cutters}
    assert labels["drill no. 7"] == pytest.approx(0.201 * 25.4)
    assert labels["drill F"] == pytest.approx(0.257 * 25.4)
    assert labels["drill 1/4"] == pytest.approx(6.35)


def test_same_text_same_part() -> None:
    """Two readings of one spec give equal records."""
    assert demo("worm-bracket") == demo("worm-bracket")


@pytest.mark.parametrize("name", ["worm-bracket", "drive-cover", "hinge-block", "motor-plate", "drill-fence"])
def test_no_demo_is_its_own_mirror_image(name: str) -> None:
    """Turned over, left over right or front over back, no demo part's holes fall on each other."""
    part = demo(name)[0]
    for axis in {feature.face.axis for feature in part.features if isinstance(feature, Hole)}:
        places = {
            (round(spot.at[0], 3), round(spot.at[1], 3))
            for feature in part.features
            if isinstance(feature, Hole) and feature.face.axis == axis
            for spot in feature.spots
        }
        across, up = (round(part.box.low[i] + part.box.high[i], 3) for i in FACE_OF[(axis, 1)].in_plane)
        assert places != {(round(across - x, 3), y) for x, y in places}
        assert places != {(x, round(up - y, 3)) for x, y in places}


def test_cover_has_the_brackets_ring() -> None:
    """Both parts include one pattern: the six holes stand alike about shaft and bore."""
    cover, bracket = demo("drive-cover")[0], demo("worm-bracket")[0]
    threads, screws = hole(cover, "cover-screws"), hole(bracket, "cover-screws")
    mine, theirs = cover.points["shaft"], bracket.points["bore"]
    assert [(spot.at[0] - mine[0], spot.at[1] - mine[1]) for spot in threads.spots] == [
        pytest.approx((spot.at[0] - theirs[0], spot.at[1] - theirs[1])) for spot in screws.spots
    ]
    assert threads.thread is not None
    assert threads.thread.designation == "M4"
    assert threads.position is not None
    assert {"specs/cover-ring.yaml"} <= set(cover.files_read) & set(bracket.files_read)


def test_cover_slips_over_the_boss() -> None:
    """The recess leaves the boss at least 0.05 and at most 0.183 of room (24 H8 is 0 to +33 µm, ISO 286-2)."""
    recess, screws = demo("drive-cover")[0].mates
    assert (recess.lower_mm, recess.upper_mm) == (23.85, 23.95)
    assert screws.said[0] == "All 6 holes meet ST-04 cover-screws."


def test_cover_groove_by_its_seal() -> None:
    """Cord 2, inside 28: the groove is 28 to 33.6, 1.5 deep (seal_grooves, G1), and clears recess and threads."""
    cover = demo("drive-cover")[0]
    groove = cover.feature("seal")
    assert isinstance(groove, RingGroove)
    assert (groove.inner.nominal_mm, groove.outer.nominal_mm) == pytest.approx((28, 33.6))
    assert groove.inner.lower_mm > 24.033
    assert groove.outer.upper_mm / 2 < 21 - 2


def test_hinge_block_is_squared() -> None:
    """Six sawn faces, each cut once, every one with the bottom at the fixed jaw after the bottom itself."""
    block = demo("hinge-block")[0]
    assert block.stock.as_bought == {}
    faces = [setup.up for setup in block.setups if setup.do[0].startswith("face")]
    assert sorted(faces) == sorted(Face)
    assert {setup.back for setup in block.setups[1:6]} == {Face.BOTTOM}


def test_fence_has_no_setups() -> None:
    """The drill fence leaves its setups to the program; its drills are a letter, numbers and a fraction's slot."""
    fence = demo("drill-fence")[0]
    assert fence.setups == ()
    assert hole(fence, "stop-holes").diameter.nominal_mm == pytest.approx(0.257 * 25.4)  # letter F, ASME B94.11M
    assert {hole(fence, id_).callout for id_ in ("stop-threads", "scale-threads")} == {"1/4-20 UNC", "10-32 UNF"}
