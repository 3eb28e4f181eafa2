"""Setups for a part without any, and the reasons that are printed."""

from __future__ import annotations

from dataclasses import replace

from setupsheet.finding import Severity
from setupsheet.part.face import Face
from setupsheet.part.feature import RoundedEnd
from setupsheet.part.part import Datum
from setupsheet.plan.setup.propose import proposed, reasons
from tests.parts import HERE, block, hole, size
from tests.plan.planned import asked, read, small_shop

BORE = hole(Face.TOP, (8.0, 8.0), size(5.0), 20.0, 0.0)
SIDE = hole(Face.RIGHT, (11.0, 9.0), size(5.0), 40.0, 0.0, "end-hole")


def test_written_setups_are_kept() -> None:
    """Where setups are written nothing is proposed."""
    part, _ = read("worm-bracket")
    assert proposed(part, small_shop()) == (part.setups, [])


def test_datum_first_then_the_opposite_then_sides_with_work() -> None:
    """A is the bottom: it comes up first; the right end follows because a hole begins there."""
    part = replace(block(BORE, SIDE), datums=(Datum("A", Face.BOTTOM),))
    setups, (said,) = proposed(part, small_shop())
    assert [setup.up for setup in setups] == [Face.BOTTOM, Face.TOP, Face.RIGHT]
    assert (said.code, said.severity) == ("setups-proposed", Severity.NOTE)
    assert "bottom up" in said.message


def test_datum_on_top() -> None:
    """With A on top the part stands on its top in the second setup."""
    part = replace(block(BORE), datums=(Datum("A", Face.TOP),))
    assert [setup.up for setup in proposed(part, small_shop())[0]] == [Face.TOP, Face.BOTTOM]


def test_face_at_the_fixed_jaw_is_square_to_the_one_up() -> None:
    """Every proposed setup can be clamped: the face at the back lies across the one on top."""
    part = block(BORE, SIDE, hole(Face.FRONT, (9.0, 9.0), size(4.0), 0.0, 30.0, "f"))
    assert all(setup.up.axis != setup.back.axis for setup in proposed(part, small_shop())[0])


def test_reasons() -> None:
    """The first makes what the second stands on; the second takes its zero from a bore."""
    part = replace(block(BORE), datums=(Datum("A", Face.BOTTOM),))
    said = reasons(part, (asked(Face.BOTTOM), asked(Face.TOP, x="hole: indicate hole")))
    assert said[0] == "setup 1: bottom up: it makes A, on which the part stands in setup 2"
    assert said[1] == "setup 2: top up: zero comes from hole, made before, not from an edge"
    assert reasons(part, (asked(Face.TOP),))[0].endswith("the work that only this side can reach")


def test_turned_over_and_found_again_from_a_bore() -> None:
    """A plate whose edges are still rough when it is turned over is found from its reamed bore, else from the edges."""
    bore = replace(BORE, diameter=replace(size(8.0), kind="fit", written="8 H7"))
    _, over = proposed(block(bore), small_shop())[0]
    assert {axis: zero.found for axis, zero in over.zero.items()} == {
        "x": "indicate hole",
        "y": "indicate hole",
        "z": "measure over bottom and top",
    }
    drilled = replace(BORE, diameter=replace(size(8.0), kind="general"))
    _, rough = proposed(block(drilled), small_shop())[0]
    assert set(rough.zero) == {"z"}


def test_a_tall_block_is_squared_before_anything_is_placed() -> None:
    """Higher than the end mills' flutes: five faces alone, then the last face with what it carries."""
    tall = block(replace(BORE, spots=(replace(BORE.spots[0], mouth_mm=45.0),)), high=(60.0, 50.0, 45.0))
    setups = proposed(tall, small_shop())[0]
    assert [setup.name for setup in setups] == [
        "bottom face",
        "front face",
        "back face",
        "left face",
        "right face",
        "top up",
    ]
    assert [setup.do for setup in setups] == [*((f"face {s.up.value}",) for s in setups[:5]), ()]
    assert reasons(tall, setups)[0].startswith("setup 1: bottom up: the widest face first")


def test_a_part_wider_than_the_vise_goes_on_the_table() -> None:
    """Raw sides 82 apart are more than the 80 that the jaws open, 78 are not; packing keeps drills off the table."""
    for width, in_vise in ((78.0, False), (76.0, True)):
        setups = proposed(block(high=(120.0, width, 12.0)), small_shop())[0]
        assert [setup.in_vise for setup in setups] == [in_vise, in_vise]
        assert [setup.hold.in_ == "table" for setup in setups if setup.hold] == [not in_vise, not in_vise]


AS_BOUGHT = {Face.FRONT: 0.1, Face.BACK: 0.1, Face.BOTTOM: 0.1, Face.TOP: 0.1}


def test_a_short_bar_stands_on_its_ends_a_long_one_hangs_out() -> None:
    """Gripped 10 deep, 30 may stand upright (twice the grip over the jaws); 120 is milled end by end, lying."""
    drilled = replace(BORE, diameter=replace(size(5.0), kind="general"))
    short, long = (block(drilled, high=(length, 20.0, 12.0)) for length in (30.0, 120.0))
    short, long = (replace(part, stock=replace(part.stock, as_bought=AS_BOUGHT)) for part in (short, long))
    assert [(s.name, s.up) for s in proposed(short, small_shop())[0]] == [
        ("left face", Face.LEFT),
        ("right face", Face.RIGHT),
        ("top up", Face.TOP),
    ]
    ends = proposed(long, small_shop())[0][:2]
    assert [(s.name, s.up, s.do) for s in ends] == [
        ("left end", Face.TOP, ("outline except right, front, back",)),
        ("right end", Face.TOP, ("outline except left, front, back",)),
    ]
    assert [s.hold.overhang_mm for s in ends if s.hold] == [{Face.LEFT: 17.0}, {Face.RIGHT: 17.0}]


def test_a_plate_too_thin_to_be_gripped_twice_has_its_sides_cut_alone() -> None:
    """Two grips of 5 and a millimetre over each jaw need 12: a plate of 11 is squared side by side first."""
    thick, thin = (block(BORE, high=(40.0, 30.0, height)) for height in (12.0, 11.0))
    assert [s.name for s in proposed(thick, small_shop())[0]] == ["bottom up", "top up"]
    names = [s.name for s in proposed(thin, small_shop())[0]]
    assert names == ["bottom face", "front face", "back face", "left end", "right end", "top up"]


def test_both_ends_round_and_never_turned_over() -> None:
    """One end hangs out after the other, each with its own edge; neither is tried while the jaws are in its way."""
    right = RoundedEnd("right-end", HERE, Face.TOP, (70.0, 10.0), size(10.0), Face.RIGHT)
    left = replace(right, id="left-end", centre=(10.0, 10.0), side=Face.LEFT)
    part = block(right, left, high=(80.0, 20.0, 10.0))
    bought = {face: 0.1 for face in Face if face.axis != 0}
    setups = proposed(replace(part, stock=replace(part.stock, as_bought=bought)), small_shop())[0]
    assert [s.name for s in setups] == ["left end", "right end", "top up", "other end"]
    assert [s.do for s in setups[2:]] == [(), ("left-end",)]
    assert [tuple(s.hold.overhang_mm) for s in setups[2:] if s.hold] == [(Face.RIGHT,), (Face.LEFT,)]
    assert [said.partition(" up: ")[2] for said in reasons(part, setups)] == [
        "the left end first: it is cut where it stands out past the jaws, one end at a time",
        "the right end, after setup 1: it is cut where it stands out past the jaws, one end at a time",
        "the work that only this side can reach",
        "the left end, after setup 3: it is cut where it stands out past the jaws, one end at a time",
    ]
