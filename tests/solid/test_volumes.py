"""Every kind of feature on a small block: the kernel's volume against arithmetic by hand."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from setupsheet.part.face import Face
from setupsheet.part.feature import (
    CornerRadius,
    Counterbore,
    Countersink,
    EdgeChamfer,
    EdgeCut,
    Feature,
    HoleChamfer,
    Keep,
    Level,
    Mark,
    Pocket,
    RingGroove,
    RoundBoss,
    RoundedEnd,
    Slot,
    Spot,
    Thread,
)
from setupsheet.part.shape import BoxShape, CircleShape, PolygonShape, SlotShape
from setupsheet.solid.body import Body, bounding_box, finished, stock_less, volume_mm3
from setupsheet.solid.drawn import Which
from setupsheet.solid.volumes import envelope_volumes, feature_volume, finished_volumes, kinds
from tests.parts import HERE, block, hole, size

_X, _Y, _Z = 40.0, 30.0, 20.0
_BLOCK = _X * _Y * _Z
_POINT = 1 / math.tan(math.radians(59))
"""Height of a 118 degree point over its radius."""
_CORNER = 1 - math.pi / 4
"""What a radius of 1 takes off a square corner."""


def _gone(*features: Feature, which: Which = "nominal") -> float:
    body = _sound(*features, which=which)
    return _BLOCK - volume_mm3(body)


def _sound(*features: Feature, which: Which = "nominal") -> Body:
    body = finished(block(*features), which)
    assert body.findings == ()
    return body


def _cone(a: float, b: float, height: float) -> float:
    """Return the volume of a frustum."""
    return math.pi * height * (a * a + a * b + b * b) / 3


def _disc(diameter: float) -> float:
    return math.pi * diameter**2 / 4


@pytest.mark.parametrize("face", list(Face))
def test_a_through_hole_from_each_face(face: Face) -> None:
    """A hole goes right through whichever face it is named from."""
    u, v = face.in_plane
    at = ((_X, _Y, _Z)[u] / 2, (_X, _Y, _Z)[v] / 2)
    depth = (_X, _Y, _Z)[face.axis]
    mouth, end = (depth, 0.0) if face.sign > 0 else (0.0, depth)
    assert _gone(hole(face, at, size(6), mouth, end)) == pytest.approx(_disc(6) * depth)


@pytest.mark.parametrize(("face", "mouth", "end"), [(Face.TOP, 20, 10), (Face.BOTTOM, 0, 10), (Face.FRONT, 0, 10)])
def test_a_blind_hole_ends_in_a_drill_point(face: Face, mouth: float, end: float) -> None:
    """Below the full diameter stands the cone of a 118 degree point."""
    blind = replace(hole(face, (20, 10), size(6), mouth, end), through=False)
    assert _gone(blind) == pytest.approx(_disc(6) * 10 + _cone(3, 0, 3 * _POINT))


def test_a_tapped_hole_is_drawn_at_the_minor_diameter_to_the_drill_depth() -> None:
    """Thread depth, drill depth below it and the point, all at the basic minor diameter (ISO 724: M5 4.134)."""
    thread = Thread("M5", "metric coarse", 5.0, 0.8, 4.134, "6H")
    tapped = replace(
        hole(Face.TOP, (20, 15), size(4.134, 4.134, 4.334), 20, 10),
        making="tap",
        through=False,
        drill_depth_mm=14.0,
        thread=thread,
    )
    assert _gone(tapped) == pytest.approx(_disc(4.134) * 14 + _cone(2.067, 0, 2.067 * _POINT))


def test_a_counterbore_and_a_chamfer_at_its_mouth() -> None:
    """The chamfer breaks the counterbore's edge, a smaller one the bore's edge on its floor."""
    screw = replace(hole(Face.TOP, (20, 15), size(6.6), 20, 0), counterbore=Counterbore(size(11), 6.5, "M6"))
    plain = _disc(6.6) * 20 + (_disc(11) - _disc(6.6)) * 6.5
    assert _gone(screw) == pytest.approx(plain)
    wide = replace(screw, chamfers=(HoleChamfer(12.0, 90.0, "mouth", "0.5"),))
    assert _gone(wide) == pytest.approx(plain + _cone(6, 5.5, 0.5) - _disc(11) * 0.5)
    low = replace(screw, chamfers=(HoleChamfer(7.6, 90.0, "mouth", "0.5"),))
    assert _gone(low) == pytest.approx(plain + _cone(3.8, 3.3, 0.5) - _disc(6.6) * 0.5)


@pytest.mark.parametrize("end", ["mouth", "exit"])
@pytest.mark.parametrize("face", [Face.TOP, Face.BOTTOM])
def test_a_countersink_at_either_end(face: Face, end: str) -> None:
    """A 90 degree cone of 12 at the surface over a hole of 6 is 3 deep."""
    mouth, far = (20.0, 0.0) if face is Face.TOP else (0.0, 20.0)
    sunk = replace(hole(face, (20, 15), size(6), mouth, far), countersink=Countersink(size(12), 90, "12", end=end))
    assert _gone(sunk) == pytest.approx(_disc(6) * 17 + _cone(6, 3, 3))


def test_chamfers_at_both_ends() -> None:
    """Each end loses its own small cone."""
    both = tuple(HoleChamfer(7.0, 90.0, end, "0.5 both ends") for end in ("mouth", "exit"))
    chamfered = replace(hole(Face.TOP, (20, 15), size(6), 20, 0), chamfers=both)
    assert _gone(chamfered) == pytest.approx(_disc(6) * 19 + 2 * _cone(3.5, 3, 0.5))


def _level(height: float, *keeps: Keep, face: Face = Face.TOP, area: BoxShape | None = None) -> Level:
    return Level("level", HERE, face, area, size(height), keeps)


def test_a_level_over_all_leaves_what_it_is_told() -> None:
    """A box at the rim stays; everything else goes down to the level."""
    kept = Keep(BoxShape((30, 0), (40, 30)))
    assert _gone(_level(14, kept)) == pytest.approx(30 * 30 * 6)
    crossing = (kept, Keep(CircleShape((30, 15), 10)))
    assert _gone(_level(14, *crossing)) == pytest.approx((30 * 30 - _disc(10) / 2) * 6)


def test_levels_from_below_and_from_a_side() -> None:
    """The floor's coordinate counts along the face's own axis from the origin."""
    assert _gone(_level(4, face=Face.BOTTOM)) == pytest.approx(_X * _Y * 4)
    right = BoxShape((0, 5), (30, 20))
    assert _gone(_level(36, face=Face.RIGHT, area=right)) == pytest.approx(4 * 30 * 15)
    assert _gone(_level(3, face=Face.FRONT, area=BoxShape((10, 0), (40, 20)))) == pytest.approx(3 * 30 * 20)


def test_a_round_boss_stands_in_a_level_up_to_its_top() -> None:
    """The level goes round the boss, the boss is cut to its top; its diameter follows the limits."""
    boss = RoundBoss("boss", HERE, Face.TOP, (15, 15), size(20, 19.8, 19.9), size(18))
    everything = _level(10, Keep(CircleShape((15, 15), 20), "boss"))
    for which, diameter in (("nominal", 20.0), ("least", 19.8), ("most", 19.9)):
        left = _X * _Y * 10 + _disc(diameter) * 8
        assert _gone(boss, everything, which=which) == pytest.approx(_BLOCK - left)  # type: ignore[arg-type]


def test_a_boss_does_not_stop_holes_or_levels_from_the_other_side() -> None:
    """A bore goes through the boss, a relief runs under it."""
    boss = RoundBoss("boss", HERE, Face.TOP, (15, 15), size(20), size(20))
    relief = Level("relief", HERE, Face.BOTTOM, BoxShape((5, 0), (25, 30)), size(2))
    bore = hole(Face.TOP, (15, 15), size(8), 20, 2)
    left = _X * _Y * 10 + _disc(20) * 10 - 20 * 30 * 2 - _disc(8) * 18
    assert _gone(boss, _level(10), relief, bore) == pytest.approx(_BLOCK - left)


def test_a_pocket_with_round_corners_and_an_island() -> None:
    """Four true corner arcs; what is left standing stays at full height."""
    shape = BoxShape((5, 5), (35, 25), 4.0)
    pocket = Pocket("pocket", HERE, Face.TOP, shape, 20, size(12), 0, leave=(Keep(CircleShape((20, 15), 6)),))
    assert _gone(pocket) == pytest.approx((30 * 20 - 4 * _CORNER * 16 - _disc(6)) * 8)


@pytest.mark.parametrize(
    ("shape", "area"),
    [
        (BoxShape((10, 10), (30, 20)), 200.0),
        (CircleShape((20, 15), 16), _disc(16)),
        (SlotShape((15, 10), (25, 20), 6), 6 * math.hypot(10, 10) + _disc(6)),
        (PolygonShape(((10, 5), (30, 5), (30, 25), (20, 25), (20, 15), (10, 15))), 300.0),
        (PolygonShape(((10, 15), (20, 15), (20, 25), (30, 25), (30, 5), (10, 5)), 2.0), 300 - 5 * _CORNER * 4),
    ],
)
def test_windows_of_every_shape(shape: BoxShape | CircleShape | SlotShape | PolygonShape, area: float) -> None:
    """A window goes right through; a polygon's radius rounds only the corners that a cutter works in."""
    assert _gone(Pocket("window", HERE, Face.TOP, shape, 20, None, 0)) == pytest.approx(area * 20)


def test_slots_blind_through_and_over_the_edge() -> None:
    """A slot is its width times its length and one disc; past the edge nothing counts."""
    inside = SlotShape((10, 15), (30, 15), 8)
    assert _gone(Slot("slot", HERE, Face.TOP, inside, size(8), 20, size(15), 0)) == pytest.approx((160 + _disc(8)) * 5)
    assert _gone(Slot("slot", HERE, Face.TOP, inside, size(8), 20, None, 0)) == pytest.approx((160 + _disc(8)) * 20)
    over = SlotShape((20, 15), (50, 15), 8)
    assert _gone(Slot("slot", HERE, Face.TOP, over, size(8), 20, size(15), 0)) == pytest.approx(
        (160 + _disc(8) / 2) * 5
    )


def test_edge_cuts_slanted_and_along_a_face() -> None:
    """A triangle goes at a corner; a cut to a face's own place takes nothing off the finished part."""
    half = 0.5**0.5
    slant = EdgeCut("slant", HERE, Face.TOP, ((28, 30), (40, 18)), (half, half), None, None)
    assert _gone(slant) == pytest.approx(72 * 20)
    end = EdgeCut("end", HERE, Face.TOP, ((0, 0), (0, 30)), (-1, 0), Face.LEFT, None)
    assert _gone(end) == pytest.approx(0, abs=1e-6)
    step = EdgeCut("step", HERE, Face.TOP, ((3, 0), (3, 30)), (-1, 0), Face.LEFT, None)
    assert _gone(step) == pytest.approx(3 * 30 * 20)


@pytest.mark.parametrize("su", [1, -1])
@pytest.mark.parametrize("sv", [1, -1])
@pytest.mark.parametrize("face", [Face.TOP, Face.FRONT, Face.RIGHT])
def test_a_corner_radius_at_every_corner(face: Face, su: int, sv: int) -> None:
    """A radius of 5 takes the same off each of the four corners, seen from any face."""
    u, v = ((_X, _Y, _Z)[i] for i in face.in_plane)
    centre = (u - 5 if su > 0 else 5.0, v - 5 if sv > 0 else 5.0)
    corner = CornerRadius("corner", HERE, face, centre, size(5), (su, sv), "corner")
    assert _gone(corner) == pytest.approx(_CORNER * 25 * (_X, _Y, _Z)[face.axis])


@pytest.mark.parametrize("side", [Face.LEFT, Face.RIGHT, Face.FRONT, Face.BACK])
def test_a_rounded_end_on_every_side(side: Face) -> None:
    """Beyond the centre a rectangle over the whole width goes, but for half a disc."""
    width = _Y if side.axis == 0 else _X
    radius = 14.0
    along = _X if side.axis == 0 else _Y
    middle = along - 16 if side.sign > 0 else 16.0
    centre = (middle, _Y / 2) if side.axis == 0 else (_X / 2, middle)
    end = RoundedEnd("end", HERE, Face.TOP, centre, size(radius), side)
    assert _gone(end) == pytest.approx((16 * width - math.pi * radius**2 / 2) * _Z)


def test_a_rounded_end_that_touches_both_sides() -> None:
    """The usual end: the radius is half the width, so the sides run into it."""
    end = RoundedEnd("end", HERE, Face.TOP, (25, 15), size(15), Face.RIGHT)
    assert _gone(end) == pytest.approx((15 * 30 - math.pi * 225 / 2) * _Z)


def test_a_ring_groove() -> None:
    """A ring of metal goes; least metal is the widest groove."""
    groove = RingGroove("groove", HERE, Face.TOP, (20, 15), size(10, 9.9, 10.1), size(16, 15.9, 16.1), 20, size(18))
    assert _gone(groove) == pytest.approx((_disc(16) - _disc(10)) * 2)
    assert _gone(groove, which="least") == pytest.approx((_disc(16.1) - _disc(9.9)) * 2)
    assert _gone(groove, which="most") == pytest.approx((_disc(15.9) - _disc(10.1)) * 2)


def test_edge_chamfers_on_two_sides_meet_in_the_corner() -> None:
    """Each bevel is half its leg's square times its length; at the corner they share a small pyramid."""
    one = EdgeChamfer("bevel", HERE, Face.TOP, (Face.LEFT,), size(2))
    assert _gone(one) == pytest.approx(2 * _Y)
    two = EdgeChamfer("bevel", HERE, Face.TOP, (Face.LEFT, Face.BACK), size(2))
    assert _gone(two) == pytest.approx(2 * _Y + 2 * _X - 8 / 3)
    below = EdgeChamfer("bevel", HERE, Face.BOTTOM, (Face.RIGHT,), size(2))
    assert _gone(below) == pytest.approx(2 * _Y)


def test_a_mark_removes_nothing() -> None:
    """A note to the maker leaves the solid as it is."""
    assert _gone(Mark("stamp", HERE, Face.TOP, (5, 5), "stamp the number")) == pytest.approx(0)


def test_limits_make_holes_and_slots_wider_or_narrower() -> None:
    """Least metal takes every hole and slot at its upper limit, most metal at its lower."""
    bore = hole(Face.TOP, (8, 8), size(10, 9.9, 10.2), 20, 0)
    slot = Slot("slot", HERE, Face.TOP, SlotShape((20, 20), (30, 20), 8), size(8, 7.9, 8.1), 20, size(15), 0)
    window = Pocket("window", HERE, Face.TOP, BoxShape((22, 4), (32, 10)), 20, None, 0, size(10, 9.9, 10.2))
    for which, d, w, grow in (("least", 10.2, 8.1, 0.2), ("most", 9.9, 7.9, -0.1)):
        slot_area = 10 * w + _disc(w)
        window_area = (10 + grow) * (6 + grow)
        wanted = _disc(d) * 20 + slot_area * 5 + window_area * 20
        assert _gone(bore, slot, window, which=which) == pytest.approx(wanted)  # type: ignore[arg-type]


def test_a_through_hole_clears_the_higher_of_two_surfaces_at_its_exit() -> None:
    """A hole that comes out half over a relief leaves no skin where the part is thicker."""
    relief = Level("relief", HERE, Face.BOTTOM, BoxShape((20, 0), (40, 30)), size(5))
    across = hole(Face.TOP, (20.5, 15), size(6), 20, 5)
    left_half = math.pi * 9 / 2 - (0.5 * math.sqrt(8.75) + 9 * math.asin(0.5 / 3))
    assert _gone(relief, across) == pytest.approx(20 * 30 * 5 + _disc(6) * 15 + left_half * 5)


def test_a_hole_into_a_cross_bore_stops_inside_it() -> None:
    """An oil hole that opens in a narrow bore does not scratch the far side of the bore."""
    bore = hole(Face.FRONT, (20, 10), size(1.2), 0, 30, "bore")
    oil = hole(Face.TOP, (20, 15), size(0.8), 20, 10.6, "oil")
    part = block(bore, oil)
    reaching = feature_volume(oil, part)[0]
    assert 10.0 <= reaching.low < 10.6


def test_features_may_overlap_and_their_order_does_not_matter() -> None:
    """Where two overlap both remove; the solid is the same in any order."""
    one = Slot("one", HERE, Face.TOP, SlotShape((5, 15), (35, 15), 8), size(8), 20, size(10), 0)
    two = Slot("two", HERE, Face.TOP, SlotShape((20, 5), (20, 25), 8), size(8), 20, size(10), 0)
    bore = hole(Face.TOP, (20, 15), size(8), 10, 0)
    assert _gone(one, two, bore) == pytest.approx(_gone(bore, two, one))


def test_a_cut_that_only_grazes_others_does_no_harm() -> None:
    """Walls that touch, a hole tangent to a slot, floors in one plane: all are sound bodies."""
    left = Pocket("left", HERE, Face.TOP, BoxShape((5, 5), (20, 25)), 20, size(10), 0)
    right = Pocket("right", HERE, Face.TOP, BoxShape((20, 5), (35, 25)), 20, size(10), 0)
    assert _gone(left, right) == pytest.approx(30 * 20 * 10)
    tangent = hole(Face.TOP, (20, 8), size(6), 20, 0)
    slot = Slot("slot", HERE, Face.TOP, SlotShape((5, 15), (35, 15), 8), size(8), 20, None, 0)
    near = _sound(slot, replace(tangent, spots=(Spot("H1", (20, 7.9), 20, 0),)))
    assert _BLOCK - volume_mm3(near) == pytest.approx((30 * 8 + _disc(8)) * 20 + _disc(6) * 20)


def test_the_envelope_takes_off_the_allowance_of_each_face() -> None:
    """Stock less all six slabs is the finished envelope; a face without allowance has no slab."""
    part = block()
    slabs = envelope_volumes(part)
    body = stock_less(part, {face.value: (slab,) for face, slab in slabs.items()})
    assert volume_mm3(body) == pytest.approx(_BLOCK)
    assert bounding_box(body).high == pytest.approx((_X, _Y, _Z))
    assert envelope_volumes(block(over=0.0)) == {}


def test_every_kind_of_feature_has_a_volume() -> None:
    """No kind of the part's records is left without a row."""
    made = {f.__dataclass_fields__["kind"].default for f in Feature.__args__}
    assert set(kinds()) == made
    assert finished_volumes(block()) == {}
