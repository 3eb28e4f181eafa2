"""What a step's cutter sweeps: sizes that can be worked out by hand, and loose within tight."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from setupsheet.plan.replay import metal
from setupsheet.plan.replay.cut import Run, cutters, half_angle_rad, run_for, tolerance_mm
from setupsheet.plan.replay.metal import Metal, Round
from tests.plan.replay_blocks import DIALS, DRO, Json, drill, end_mill, move, position, setup, shifted, step

FINE = Run(0, 0.0, 0.0, Round(inside=True, sag_mm=0.0001))
HALF_ANGLE = math.radians(0.05)


def _swept(told: Json, run: Run = FINE, top: float = 30.0) -> Metal:
    return metal.join(cutters([told], run, top))


def _drilled(depth: float, tool: Json) -> Json:
    return step(1, "drill", [], tool, positions=[position(DRO, "H1", (3.0, 4.0), (0.0, depth))])


def test_what_rounding_explains() -> None:
    """Half the step on the diagonal, 0.002 for the mesh and 0.0005: a readout of 0.005 and a dial of 0.001 in."""
    assert tolerance_mm(setup(DRO, 1, ("top", "back"), shifted(0, 0, 0))) == pytest.approx(0.0060355)
    assert tolerance_mm(setup(DIALS, 1, ("top", "back"), shifted(0, 0, 0))) == pytest.approx(0.0127 * 1.4142 + 0.0025)


def test_the_angle_step_of_a_rotary_table() -> None:
    """Half the angle step times the radius comes on top."""
    told = setup(DRO, 1, ("top", "back"), shifted(0, 0, 0))
    told["readout"]["x"]["angle_step_deg"] = 0.1
    assert half_angle_rad(told) == pytest.approx(HALF_ANGLE)
    assert run_for(told, 1).grow(50.0) == pytest.approx(0.0060355 + 50 * HALF_ANGLE)
    assert run_for(told, -1).grow(50.0) == -run_for(told, 1).grow(50.0)


def test_a_drill_sweeps_a_cylinder_and_its_point() -> None:
    """Volume of a 6 mm drill with 118 degree point, tip 10 deep, from 0 upwards by its 50 of flutes."""
    point = 3 / math.tan(math.radians(59))
    wanted = math.pi * 9 * (10 + 50 - point) + math.pi * 9 * point / 3
    assert _swept(_drilled(-10.0, drill(6.0))).volume() == pytest.approx(wanted, rel=1e-4)


def test_a_cutter_wider_below_than_above() -> None:
    """A cutter with a wide foot sweeps its foot over the whole way, and only its neck above."""
    wide = {**end_mill(10.0), "kind": "slot cutter", "profile": [[0, 0], [5, 0], [5, 2], [2, 2], [2, 40]]}
    wanted = math.pi * 25 * (2 + 10) + math.pi * 4 * (40 - 2)
    assert _swept(_drilled(-10.0, wide)).volume() == pytest.approx(wanted, rel=1e-4)


def test_a_straight_cut() -> None:
    """A 12 mm cutter over 50 mm: a rectangle and two half circles, up to its flutes' end."""
    told = step(1, "mill", [], end_mill(12.0, 20.0), moves=[move("outside", -5.0, [(0, 0), (50, 0)])])
    assert _swept(told).volume() == pytest.approx((50 * 12 + math.pi * 36) * 20, rel=1e-5)


def test_a_rounded_corner_leaves_a_fillet() -> None:
    """A 12 mm cutter with a corner radius of 2 cuts less than a square one by the fillet on both sides."""
    mill = {**end_mill(12.0, 20.0), "corner_radius_mm": 2.0}
    square = step(1, "mill", [], end_mill(12.0, 20.0), moves=[move("outside", 0.0, [(0, 0), (200, 0)])])
    round_ = {**square, "tool": mill}
    fillet = 2 * (1 - math.pi / 4) * 2**2
    saved = _swept(square).volume() - _swept(round_).volume()
    assert saved == pytest.approx(fillet * 200, rel=0.12)
    assert saved > fillet * 200 * 0.99


def test_an_arc_and_a_whole_turn() -> None:
    """A quarter turn at radius 20 with an 8 mm cutter, and the whole turn."""
    arc = {"centre": [5.0, 5.0], "radius": 20.0, "from_deg": 0.0, "to_deg": 90.0, "z": 0.0}
    told = step(1, "mill", [], end_mill(8.0, 10.0), arcs=[arc])
    band = math.pi * (24**2 - 16**2)
    assert _swept(told).volume() == pytest.approx((band / 4 + math.pi * 16) * 10, rel=1e-4)
    told["arcs"] = [{**arc, "to_deg": 360.0}]
    assert _swept(told).volume() == pytest.approx(band * 10, rel=1e-4)


def test_a_ring_of_the_boring_head() -> None:
    """The metal between two radii, from z_from down to z_to."""
    ring = {"centre": [0.0, 0.0], "radius_inner": 12.0, "radius_outer": 15.0, "z_from": 9.0, "z_to": 1.0}
    told = step(1, "bore", [], None, rings=[{**ring, "edge": "in", "shown": ""}])
    assert _swept(told).volume() == pytest.approx(math.pi * (225 - 144) * 8, rel=1e-4)


def test_nothing_is_cut_where_nothing_is_removed() -> None:
    """A tap removes nothing in the replay."""
    assert cutters([{**_drilled(-10.0, drill(5.0)), "removes": False}], FINE, 30.0) == []


@pytest.mark.parametrize("radius", [0.3, 2.25, 12.0, 60.0])
def test_polygons_lie_inside_or_outside(radius: float) -> None:
    """A loose circle lies inside the true one, a tight one outside, each within its sag."""
    inside, outside = Round(True, 0.004), Round(False, 0.004)
    assert metal.disc(radius, inside).area() < math.pi * radius**2 < metal.disc(radius, outside).area()
    low, high = inside.segments(radius), outside.segments(radius)
    assert radius * (1 - math.cos(math.pi / low)) <= 0.004 + 1e-12
    assert radius * (outside.stretch(high) - 1) <= 0.0041
    assert low % 4 == 0


@settings(max_examples=30, deadline=None)
@given(
    x=st.integers(-4000, 4000),
    y=st.integers(-4000, 4000),
    diameter=st.sampled_from([1.0, 4.5, 6.6, 11.7]),
    legs=st.lists(st.tuples(st.booleans(), st.integers(-3000, 3000)), min_size=1, max_size=4),
)
def test_loose_lies_within_tight(x: int, y: int, diameter: float, legs: list[tuple[bool, int]]) -> None:
    """Whatever the way, nothing of the loose cutters stands out of the tight ones."""
    path = [(x * 0.005, y * 0.005)]
    for along_x, by in legs:
        last = path[-1]
        path.append((last[0] + by * 0.005, last[1]) if along_x else (last[0], last[1] + by * 0.005))
    machine = setup(DRO, 1, ("top", "back"), shifted(0, 0, 0))
    steps = [
        step(1, "mill", [], end_mill(diameter), moves=[move("plunge", -2.0, path)]),
        step(2, "drill", [], drill(diameter), positions=[position(DRO, "H1", path[-1], (1.0, -9.0))]),
    ]
    loose = metal.join(cutters(steps, run_for(machine, -1), 20.0))
    tight = cutters(steps, run_for(machine, 1), 20.0)
    assert loose.volume() > 0
    assert not metal.is_there(metal.cut(loose, tight))
