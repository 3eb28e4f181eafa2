"""Bolt circles in a setup frame against published worked examples; the readout's own function.

Each example is laid with the zero at its circle's centre (E03: at the corner), once as the main view shows it and
once turned over left over right, where every X changes its sign.
"""

from __future__ import annotations

import math

import pytest

from setupsheet.part.face import Face
from setupsheet.part.feature import BoltCircle, Hole, Spot
from setupsheet.part.shop import Axis
from setupsheet.plan.bench import Bench
from setupsheet.plan.holes.rings import ring_functions
from setupsheet.plane import Point2
from setupsheet.spec.build_pattern import on_circle
from tests.parts import HERE, block, size
from tests.plan.planned import asked, bench, small_shop

FINE = Axis("readout", 1e-5, 0.0, 1, "mm")
HIGH = (400.0, 400.0, 10.0)
CENTRE = (200.0, 200.0)


def _ring(circle: BoltCircle) -> Hole:
    spots = tuple(Spot(f"R{i}", at, 10.0, 0.0) for i, at in enumerate(on_circle(circle, Face.TOP), 1))
    return Hole("ring", HERE, Face.TOP, "plain", size(3.0), "3", spots, circle)


def _bench(hole: Hole, up: Face) -> Bench:
    return bench(block(hole, high=HIGH), asked(up, x="ring: stock left", y="ring: stock front"), small_shop(FINE))


def _places(circle: BoltCircle, up: Face = Face.TOP) -> list[Point2]:
    """Return where the holes are in a setup whose X0 Y0 is the circle's centre."""
    hole = _ring(circle)
    clamped = _bench(hole, up)
    found = [clamped.laid.flat(spot.at) for spot in hole.spots]
    return [(clamped.settle("x", x), clamped.settle("y", y)) for x, y in found]


TOP_FIRST = [(0.0, 0.5), (-0.47553, 0.15451), (-0.29389, -0.40451), (0.29389, -0.40451), (0.47553, 0.15451)]
"""E01, p. 709 Example 1(a) of the handbook, printed with y DOWN and hole 1 at the top: y changes its sign here."""

STRADDLED = [(-0.29389, 0.40451), (-0.47553, -0.15451), (0.0, -0.5), (0.47553, -0.15451), (0.29389, 0.40451)]
"""E02, p. 710 Example 2(a), y DOWN: the first two holes straddle the top, half a pitch from it."""

FIVE = [(50.0, 0.0), (15.45, 47.55), (-40.45, 29.39), (-40.45, -29.39), (15.45, -47.55)]
"""E04, open machine-shop tutorials (MIT), snapshot 2025-08-12, docs/bolt_circles/5_hole_pattern.md."""

FOUR = [(35.35, 35.35), (-35.35, 35.35), (-35.35, -35.35), (35.35, -35.35)]
"""E05, the same, 4_8_hole_patterns.md; printed 35.35 is cut short, not rounded (35.355): 0.01 allowed."""

SIX = [(63.5, 0.0), (31.75, 54.99), (-31.75, 54.99), (-63.5, 0.0), (-31.75, -54.99), (31.75, -54.99)]
"""E06, the same, 6_hole_pattern.md: 31.75 and 54.99 on a circle of 127."""

INCH_SIX = [(0.0, 139.7), (-120.98373, 69.85), (-120.98373, -69.85), (0.0, -139.7), (120.98373, -69.85)]
INCH_SIX += [(120.98373, 69.85)]
"""E07, algebra.com question 113033, R 5.5 in: hole 1 printed; the others recomputed with the 30-60-90 ratios."""

PUBLISHED = [
    (5, 1.0, 90.0, 1e-5, TOP_FIRST),
    (5, 1.0, 126.0, 1e-5, STRADDLED),
    (5, 100.0, 0.0, 0.005, FIVE),
    (4, 100.0, 45.0, 0.01, FOUR),
    (6, 127.0, 0.0, 0.005, SIX),
    (6, 279.4, 90.0, 1e-4, INCH_SIX),
]
"""Count, diameter, start angle, how near the print is, places."""


@pytest.mark.parametrize(("count", "pcd", "start", "near", "places"), PUBLISHED)
def test_published_places(count: int, pcd: float, start: float, near: float, places: list[Point2]) -> None:
    """The setup's X and Y of each hole are those in print (the handbook: Machinery's, 31st ed., Industrial Press)."""
    found = _places(BoltCircle(CENTRE, pcd, count, start))
    assert len(found) == count
    for at, true in zip(found, places, strict=True):
        assert at == pytest.approx(true, abs=near + 5e-6)


@pytest.mark.parametrize(("count", "pcd", "start", "near", "places"), PUBLISHED)
def test_published_places_turned_over(count: int, pcd: float, start: float, near: float, places: list[Point2]) -> None:
    """With the underside up and the back edge still at the back, each X is the print's with the other sign."""
    found = _places(BoltCircle(CENTRE, pcd, count, start), Face.BOTTOM)
    for at, true in zip(found, places, strict=True):
        assert at == pytest.approx((-true[0], true[1]), abs=near + 5e-6)


def test_print_with_y_down_is_a_trap() -> None:
    """E01 read without its sign convention puts hole 2 on the other side of the X axis."""
    second = _places(BoltCircle(CENTRE, 1.0, 5, 90.0))[1]
    assert second != pytest.approx((-0.47553, -0.15451), abs=1e-3)


def test_centre_away_from_the_corner() -> None:
    """E03: 6 holes on 100 about X 100 Y 100, from gcodepractice.com (X and Y of a bolt-hole circle).

    Its own check: opposite-handed holes share an X (2 and 6, 3 and 5).
    """
    hole = _ring(BoltCircle((100.0, 100.0), 100.0, 6, 0.0))
    clamped = bench(block(hole, high=HIGH), asked(), small_shop(FINE))
    found = [clamped.laid.flat(spot.at) for spot in hole.spots]
    printed = [(150, 100), (125, 143.301), (75, 143.301), (50, 100), (75, 56.699), (125, 56.699)]
    for at, true in zip(found, printed, strict=True):
        assert at == pytest.approx(true, abs=5.1e-4)
    assert found[1][0] == pytest.approx(found[5][0])
    assert found[2][0] == pytest.approx(found[4][0])


def test_straddling_the_centre_lines() -> None:
    """E08: 12 holes on 8 in, half a pitch off: 4 sin 15 = 1.03528 and 4 cos 15 = 3.86370, then 45 degrees.

    Machinist forum thread of 2008-07-20 quoted in a public maths text collection; expressions printed, numbers ours.
    """
    first, second = _places(BoltCircle(CENTRE, 8 * 25.4, 12, 75.0))[:2]
    assert first == pytest.approx((1.03528 * 25.4, 3.86370 * 25.4), abs=3e-4)
    assert _places(BoltCircle(CENTRE, 8 * 25.4, 12, 75.0))[11] == pytest.approx((2.82843 * 25.4,) * 2, abs=3e-4)
    assert second == pytest.approx((-1.03528 * 25.4, 3.86370 * 25.4), abs=3e-4)


CHORDS = {3: 1.7321, 4: 1.4142, 5: 1.1756, 6: 1.0, 7: 0.8678, 8: 0.7654, 9: 0.684, 10: 0.618, 11: 0.5635}
CHORDS |= {12: 0.5176, 13: 0.4786, 14: 0.445, 15: 0.4158, 16: 0.3902, 17: 0.3675, 18: 0.3473, 19: 0.3292, 20: 0.3129}


@pytest.mark.parametrize("count", CHORDS)
def test_chords_between_neighbours(count: int) -> None:
    """E09: chord as a multiple of the radius, n = 3 to 20 (instructables.com, Quickly divide a circle perfectly)."""
    hole = _ring(BoltCircle(CENTRE, 200.0, count, 7.0))
    (ring,) = ring_functions(_bench(hole, Face.TOP), hole)
    assert ring.chord == pytest.approx(100 * CHORDS[count], abs=0.011)
    assert math.dist(hole.spots[0].at, hole.spots[1].at) == pytest.approx(ring.chord)


def test_chord_is_not_arc() -> None:
    """E10: 12 bolts 3.75 in apart stand on R 7.244 in (wyzant.com answer 1741; its first answer took the arc: 7.16)."""
    hole = _ring(BoltCircle(CENTRE, 2 * 7.24444 * 25.4, 12, 0.0))
    (ring,) = ring_functions(_bench(hole, Face.TOP), hole)
    assert ring.chord / 25.4 == pytest.approx(3.75, abs=1e-5)
    assert 2 * math.pi * 7.24444 / 12 > 3.79


@pytest.mark.parametrize(
    ("up", "start", "sense"), [(Face.TOP, 15.0, "anticlockwise"), (Face.BOTTOM, 165.0, "clockwise")]
)
def test_function_of_the_readout(up: Face, start: float, sense: str) -> None:
    """Start 15 anticlockwise in the drawing is 165 clockwise from below; R1 at 21 cos 15 = 20.284."""
    hole = _ring(BoltCircle(CENTRE, 42.0, 6, 15.0))
    (ring,) = ring_functions(_bench(hole, up), hole)
    assert (ring.start_deg, ring.radius, ring.count) == pytest.approx((start, 21.0, 6))
    assert (ring.sense, ring.first_label) == (sense, "R1")
    assert abs(float(ring.shown["first_x"])) == pytest.approx(20.28444, abs=1e-4)
    assert f"then {sense}" in ring.words


@pytest.mark.parametrize(
    "circle", [BoltCircle(CENTRE, 42.0, 6, 0.0, skipped=(2,)), BoltCircle(CENTRE, 42.0, 5, 0.0, arc_deg=120.0)]
)
def test_no_function_for_an_arc_or_a_gap(circle: BoltCircle) -> None:
    """A readout's function drills all places of a full circle; anything else is given as positions only."""
    hole = _ring(circle)
    assert ring_functions(_bench(hole, Face.TOP), hole) == ()
