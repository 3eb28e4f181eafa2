"""Depths of hole-like work: points, mouths, break-through, and the metal that goes."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setupsheet.part.face import Face
from setupsheet.part.feature import Counterbore, Hole, HoleChamfer
from setupsheet.part.shop import Cutter
from setupsheet.plan.bench import Removed
from setupsheet.plan.chain.record import ChainStep
from setupsheet.plan.holes import drilling
from setupsheet.plan.record import Position
from setupsheet.solid.volume import Cone, EdgeLoop, LineEdge, Prism
from tests.parts import block, hole, size
from tests.plan.planned import asked, bench


def _drill(diameter: float, angle: float = 118.0, operation: str = "drill") -> ChainStep:
    return ChainStep(operation, Cutter("drill", "a drill", diameter, point_angle_deg=angle), diameter, "drill depth")


def _at(made: Hole, chained: ChainStep, removed: Removed = (), up: Face = Face.TOP, over: float = 2.0) -> Position:
    part = block(made, over=over)
    clamped = bench(part, asked(up, z=f"{up.value}: faced"), removed=removed)
    return drilling.position(clamped, removed, drilling.bore_of(clamped, made, made.spots[0]), chained)


def _blind(diameter: float, depth: float, making: str = "plain") -> Hole:
    made = hole(Face.TOP, (20.0, 15.0), size(diameter), 20.0, 20.0 - depth)
    return replace(made, through=False, depth_mm=depth, making=making)


def test_point_of_a_number_drill() -> None:
    """No. 37 (0.104 in), 118 degrees: the point is 0.031 in long (hobby-machinist.com, drill tip lengths, E39)."""
    at = _at(_blind(0.104 * 25.4, 10.0), _drill(0.104 * 25.4))
    assert (at.z_full - at.z_to) / 25.4 == pytest.approx(0.031, abs=0.0005)


def test_point_is_half_the_diameter_over_the_tangent() -> None:
    """E40 (expertsmind.com, drilling time) prints (D/2) tan a = 8.32 for 10 mm; right is (D/2) / tan 59 = 3.0043."""
    at = _at(_blind(10.0, 8.0), _drill(10.0))
    assert at.z_full - at.z_to == pytest.approx(3.0043, abs=0.0051)
    assert abs(at.z_full - at.z_to - 8.3214) > 5


@pytest.mark.parametrize(("angle", "share"), [(118.0, 0.30), (135.0, 0.21), (90.0, 0.50)])
def test_rules_of_thumb(angle: float, share: float) -> None:
    """118 degrees is 0.30 D, 135 is 0.21 D, 90 is 0.50 D (the same thread, E39's note)."""
    at = _at(_blind(8.0, 6.0), _drill(8.0, angle))
    assert at.z_full - at.z_to == pytest.approx(8 * share, abs=0.05)


def test_through_hole_passes_the_far_side() -> None:
    """D19 with half a millimetre in place of one: raw bottom at -21, full diameter to -21.5, tip 3.0043 deeper."""
    at = _at(hole(Face.TOP, (20.0, 15.0), size(10.0), 20.0, 0.0), _drill(10.0), over=1.0)
    assert (at.z_full, at.z_to) == pytest.approx((-21.5, -24.505))
    assert at.z_from == pytest.approx(1.0)


def test_through_hole_stops_past_a_floor_that_is_cut_later() -> None:
    """From below to a floor at 8: full diameter 1 past it, not through the metal that a level takes away."""
    made = hole(Face.TOP, (20.0, 15.0), size(5.0), 8.0, 0.0)
    at = _at(made, _drill(5.0), up=Face.BOTTOM)
    assert at.z_full == pytest.approx(-9.0)
    part = block(made)
    clamped = bench(part, asked(Face.BOTTOM, z="bottom: faced"))
    bore = drilling.bore_of(clamped, made, made.spots[0])
    assert drilling.stops_short(clamped, (), bore)
    assert not drilling.stops_short(clamped, (), replace(bore, stays_open=True))


MOUTHS = [
    (90.0, 0.0, 10.4, 5.2),  # D06: from the face, sharp tip
    (82.0, 0.0, 0.385 * 25.4, 0.22145 * 25.4),  # D07
    (90.0, 0.0, 6.5, 3.25),  # D08
    (90.0, 1.0, 9.0, 4.0),  # the bracket's hand sheet: mouth 9.0 with a tip of 1
]


@pytest.mark.parametrize(("angle", "tip", "mouth", "depth"), MOUTHS)
def test_countersink_depth(angle: float, tip: float, mouth: float, depth: float) -> None:
    """Depth of the tip below the finished mouth; rounded up, so that the mouth never comes out too wide."""
    cutter = Cutter("countersink", "countersink", 16.0, point_angle_deg=angle, tip_mm=tip)
    made = hole(Face.TOP, (20.0, 15.0), size(4.5), 20.0, 0.0)
    at = _at(made, ChainStep("countersink", cutter, mouth, "to diameter"))
    assert -depth - 1e-9 <= at.z_to <= -depth + 0.005
    assert at.z_full == 0.0


@given(mouth=st.floats(5.0, 15.0), angle=st.sampled_from([82.0, 90.0, 100.0]))
def test_countersinks_are_never_too_wide(mouth: float, angle: float) -> None:
    """The mouth that the rounded depth gives is the one asked for, or less by a readout's step at most."""
    cutter = Cutter("countersink", "countersink", 16.0, point_angle_deg=angle, tip_mm=1.0)
    at = _at(hole(Face.TOP, (20.0, 15.0), size(4.5), 20.0, 0.0), ChainStep("chamfer", cutter, mouth, "to diameter"))
    given_ = 1.0 - 2 * at.z_to * math.tan(math.radians(angle / 2))
    assert mouth - 0.0125 <= given_ <= mouth + 1e-6


def test_counterbore_depth_counts_from_the_finished_mouth() -> None:
    """6.4 deep from the finished top, whatever raw metal stands over it."""
    made = replace(hole(Face.TOP, (20.0, 15.0), size(6.6), 20.0, 0.0), counterbore=Counterbore(size(11.0), 6.4, "11"))
    chained = ChainStep("counterbore", Cutter("counterbore", "counterbore 11", 11.0), 11.0, "fixed", 6.4)
    at = _at(made, chained)
    assert (at.z_to, at.z_full) == pytest.approx((-6.4, -6.4))


def test_reamer_goes_its_lead_past_the_far_side() -> None:
    """12 H7 through 20 with 1 raw below: full size to -21.5, the lead of 3 beyond: -24.5 (hand sheet: 16 and -19)."""
    made = replace(hole(Face.TOP, (20.0, 15.0), size(12.0), 20.0, 0.0), making="fit")
    at = _at(made, ChainStep("ream", Cutter("reamer", "reamer 12 H7", 12.0), 12.0, "full depth"), over=1.0)
    assert at.z_to == pytest.approx(-24.5)


def test_point_left_under_a_reamed_blind_hole() -> None:
    """A drill of 5.7 under 6 H7 leaves a ring 0.15 wide of the drawn point: named, on the drill's step only."""
    made = _blind(6.0, 12.0, "fit")
    (left,) = drilling.point_left(made, _drill(5.7))
    assert left.kind == "drill_point"
    assert left.bound_mm == pytest.approx(0.16)
    assert drilling.point_left(made, _drill(3.0, operation="pilot")) == ()
    assert drilling.point_left(replace(made, through=True), _drill(5.7)) == ()
    assert drilling.point_left(_blind(6.0, 12.0), _drill(5.7)) == ()


def test_metal_taken_by_a_tap_drill_is_its_own_size() -> None:
    """M4 is drawn 3.242 wide and drilled 3.3: the body afterwards has the drill's hole."""
    made = replace(hole(Face.TOP, (20.0, 15.0), size(3.242, 3.242, 3.422), 20.0, 0.0), making="tap")
    clamped = bench(block(made))
    bore = drilling.bore_of(clamped, made, made.spots[0])
    chained = _drill(3.3)
    shapes = drilling.takes(clamped, bore, chained, drilling.position(clamped, (), bore, chained))
    widest = max(max(shape.radius_low, shape.radius_high) for shape in shapes if isinstance(shape, Cone))
    assert widest == pytest.approx(1.65)


def test_hole_starts_on_the_metal_that_is_there() -> None:
    """On a step of 8 that was milled before, the drill starts at the step, not at the raw top."""
    corners = ((-9.0, -9.0), (60.0, -9.0), (60.0, 50.0), (-9.0, 50.0))
    loop = EdgeLoop(tuple(LineEdge(a, b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True)))
    made = hole(Face.TOP, (20.0, 15.0), size(5.0), 8.0, 0.0)
    at = _at(made, _drill(5.0), (Prism(2, loop, (), 8.0, 30.0),))
    assert at.z_from == pytest.approx(-12.0)


def test_far_end_cones() -> None:
    """A chamfer to 7 at the exit of a hole of 6: a cone half a millimetre high at the underside, wide end outside."""
    made = replace(
        hole(Face.TOP, (20.0, 15.0), size(6.0), 20.0, 0.0), chamfers=(HoleChamfer(7.0, 90.0, "exit", "0.5"),)
    )
    cutter = Cutter("countersink", "countersink", 16.0, point_angle_deg=90.0)
    (cone,) = drilling.far_cones(made, ChainStep("chamfer", cutter, 7.0, "to diameter", end="exit"))
    assert isinstance(cone, Cone)
    assert (cone.low, cone.high, cone.radius_low, cone.radius_high) == pytest.approx((0.0, 0.5, 3.5, 3.0))
