"""The bracket's plan against the sheets that were worked out by hand for it before the program was written.

The hand sheets' numbers stand here as they were written (setup frame of each sheet, mm). Where the plan differs on
purpose, the test says why.
"""

from __future__ import annotations

import pytest

from setupsheet.plan.record import Setup, Step
from tests.plan.planned import plan_of, setup_of

BRACKET = "worm-bracket"


def _first() -> Setup:
    return setup_of(BRACKET, 1)


def _second() -> Setup:
    return setup_of(BRACKET, 2)


def _step(setup: Setup, operation: str, *features: str) -> Step:
    found = [s for s in setup.steps if s.operation == operation and set(features) <= set(s.features)]
    return found[0]


def _titled(setup: Setup, title: str) -> Step:
    return next(step for step in setup.steps if step.title.startswith(title))


def _points(step: Step, group: str = "") -> list[tuple[str, str]]:
    return [(p.shown_step, p.shown_stop) for p in step.points if p.group.startswith(group)]


def test_blank() -> None:
    """Blank 84 x 66 x 16 sawn, 0.24 kg, not under 82.3 x 64.3 x 15.7 or it does not clean up."""
    stock = plan_of(BRACKET).stock
    assert stock.size_mm == pytest.approx((84, 66, 16))
    assert stock.least_mm == pytest.approx((82.3, 64.3, 15.7))
    assert stock.mass_kg == pytest.approx(0.24, abs=0.005)


def test_sums_and_turns() -> None:
    """X = 34 - drawing x, Y = drawing y - 29, Z = minus height above A; then turned like a page of a book."""
    assert _first().sums == (
        "machine X = 34 - drawing x",
        "machine Y = drawing y - 29",
        "machine Z = minus height above A",
    )
    assert _second().sums == ("machine X = drawing x - 34", "machine Y = drawing y - 29", "machine Z = height above A")
    assert (_second().turn.axis, abs(_second().turn.angle_deg)) == ("y", 180)
    assert "like a page of a book, left over right" in _second().turn.sentence


def test_hold() -> None:
    """Grip 6 of the raw 16 on parallels 24: jaw tops at Z -9.5; then grip 5 on 25: at Z +5, jaws begin at X -22."""
    first, second = _first().hold, _second().hold
    assert (first.grip_mm, first.proud_before_mm, first.jaw_top_z) == pytest.approx((6, 10, -9.5))
    assert (second.grip_mm, second.proud_before_mm, second.proud_after_mm, second.jaw_top_z) == pytest.approx(
        (5, 10.5, 10, 5)
    )
    jaw = next(body for body in second.bodies if body.name == "fixed jaw")
    assert jaw.low[0] == pytest.approx(-22)
    covered = [(b.low[1], b.high[1]) for b in first.bodies if b.name.startswith("parallel")]
    assert covered == [pytest.approx((-31, -25)), pytest.approx((29, 35))]


def test_zero_of_the_first_setup() -> None:
    """Finder of 10 on raw edges: X -53.000 (48 + 5), Y -36.000 (31 + 5); feeler 0.10 on raw top: Z +0.600."""
    zero = _first().zero
    assert [z.key_in for z in zero] == ["X -53.000", "Y -36.000", "Z +0.600"]
    assert [z.side for z in zero[:2]] == ["your left", "your side of it"]
    assert ["right" in zero[0].touch, "front" in zero[1].touch] == [True, True]


def test_zero_of_the_second_setup() -> None:
    """Indicator in the bore: X 0 Y 0; raw top with the feeler: Z +15.600, then the measured thickness t."""
    zero = _second().zero
    assert [z.key_in for z in zero] == ["X 0.000", "Y 0.000", "Z +15.600"]
    assert [z.method for z in zero] == ["indicate", "indicate", "measure"]
    assert "rough" in zero[2].words
    assert "overhanging end" in _second().steps[0].words[0]


def test_touch_off_of_new_cutters() -> None:
    """Each new cutter is set on faced A at Z +0.100, in setup 2 on the boss top at Z +15.100.

    By hand: X +28 Y -15, and X +9 Y 0. The plan takes the places farthest from edges and holes instead; that
    they lie on metal that nothing cuts is the replay's to object to.
    """
    assert {s.touch_off.key_in for s in _first().steps[1:] if s.touch_off} == {"Z +0.100"}
    assert {s.touch_off.key_in for s in _second().steps[1:] if s.touch_off} == {"Z +15.100"}


def test_corners_to_drive_to() -> None:
    """X +34 Y +33 and X -46 Y -29: raw metal must stand outside both."""
    line = next(text for text in _first().before_cutting if "raw metal" in text)
    assert "X -46.000 Y -29.000" in line
    assert "X +34.000 Y +33.000" in line


def test_witness() -> None:
    """A shank of 6.5 goes into P1 at X +36.000 Y -19.000 before the first cut of setup 2."""
    witness = _second().witness
    assert witness is not None
    assert (witness.label, witness.shown["x"], witness.shown["y"]) == ("P1", "+36.000", "-19.000")
    assert witness.pin_mm == pytest.approx(6.5)
    assert _first().witness is None


def test_mark() -> None:
    """B-R on the end to the left in setup 1; in setup 2 that end is at the right, the mark at the back."""
    assert (_first().mark_label, _second().mark_label) == ("B-R", "B-R")
    assert "left" in _first().mark
    assert ["right" in _second().mark, "back" in _second().mark] == [True, True]
    before, after = _first().mark_at, _second().mark_at
    assert before is not None
    assert after is not None
    assert (before[0], after[0]) == pytest.approx((-48, 48))


EDGES_1 = {("x", "-48.000"), ("x", "-46.000"), ("x", "-26.000"), ("x", "+10.000"), ("x", "+34.000"), ("x", "+36.000")}
EDGES_1 |= {("y", "+35.000"), ("y", "+33.000"), ("y", "-29.000"), ("y", "-31.000")}
EDGES_2 = {("x", "-36.000"), ("x", "-34.000"), ("x", "+28.000"), ("x", "+46.000"), ("y", "+33.000"), ("y", "-29.000")}


def test_edges_of_the_plan_view() -> None:
    """The readings along the sides of both hand-drawn views."""
    assert {(e.axis, e.shown) for e in _first().edges} == EDGES_1
    assert {(e.axis, e.shown) for e in _second().edges} >= EDGES_2


@pytest.mark.parametrize(
    ("title", "stop"), [("front side", "-35.000"), ("back side", "+39.000"), ("right side", "-52.000")]
)
def test_outline(title: str, stop: str) -> None:
    """Cutter 12 outside the sides: last stops Y -35, Y +39, X -52, down to -8.500 in all, one over the jaws' -9.5.

    By hand in three passes of 3; the plan takes two equal ones of 4.25, within the same table of depths.
    """
    step = _titled(_first(), title)
    assert [limit.shown for limit in step.limits] == [stop]
    assert step.z_shown[-1] == "-8.500"
    assert step.tool is not None
    assert step.tool.diameter_mm == 12


def test_facing() -> None:
    """A is faced at Z 0.000; the top is cleaned at +15.250, measured, and taken to +15.000."""
    assert _first().steps[0].z_shown == ("0.000",)
    assert [step.z_shown[-1] for step in _second().steps[:2]] == ["+15.250", "+15.000"]


def test_relief() -> None:
    """Relief: last X -20.000 and +4.000 (26 and 10 less 6 of cutter), floor at -1.500."""
    step = _step(_first(), "mill", "relief")
    assert {(limit.axis, limit.shown) for limit in step.limits} == {("x", "-20.000"), ("x", "+4.000")}
    assert step.z_shown[-1] == "-1.500"


SLANT = [
    ("-50.245", "+25.245"),
    ("-48.745", "+26.745"),
    ("-47.245", "+28.245"),
    ("-45.745", "+29.745"),
    ("-44.245", "+31.245"),
    ("-42.745", "+32.745"),
    ("-41.245", "+34.245"),
    ("-39.745", "+35.745"),
    ("-38.245", "+37.245"),
]


def test_slant() -> None:
    """Table S of the hand sheet, cutter 12: X / stop Y."""
    assert sorted(_points(_step(_first(), "mill", "slant")), key=lambda p: float(p[0])) == SLANT
    assert _step(_first(), "mill", "slant").points[0].step_axis == "x"


ROUND = [(-35.0, -36.0), (-34.755, -38.78), (-34.035, -41.47), (-32.855, -44.0), (-31.255, -46.285)]
ROUND += [(-29.285, -48.255), (-27.0, -49.855), (-24.47, -51.035), (-21.78, -51.755), (-19.0, -52.0)]


def test_round_corner() -> None:
    """Table C ends at the same points and lies on the same circle.

    By hand nine steps of 10 degrees leave 0.103; the plan keeps to 0.1 and takes ten. Each of its points lies
    on the circle of cutter centres, radius 16 about X -36 Y -19, as those of the hand sheet do.
    """
    points = [(float(step), float(stop)) for step, stop in _points(_step(_first(), "mill", "round-corner"))]
    assert sorted(points)[0] == ROUND[0]
    assert sorted(points)[-1] == ROUND[-1]
    for y, x in (*points, *ROUND):
        assert ((x + 36) ** 2 + (y + 19) ** 2) ** 0.5 == pytest.approx(16.0, abs=0.008)
    assert len(points) == len(ROUND) + 1


PLACES_1 = {
    "bore": ("0.000", "0.000"),
    "R1": ("-20.285", "+5.435"),
    "R2": ("-5.435", "+20.285"),
    "R3": ("+14.850", "+14.850"),
    "R4": ("+20.285", "-5.435"),
    "R5": ("+5.435", "-20.285"),
    "R6": ("-14.850", "-14.850"),
    "T1": ("-37.000", "-3.000"),
    "T2": ("-37.000", "+13.000"),
    "P1": ("-36.000", "-19.000"),
    "K1": ("+26.000", "+25.000"),
}


def test_positions_of_the_first_setup() -> None:
    """Table H: X and Y of all eleven holes as the readout shows them."""
    spot = next(step for step in _first().steps if step.operation == "spot")
    assert {p.label: (p.shown["x"], p.shown["y"]) for p in spot.positions} == PLACES_1


def test_spot_depths() -> None:
    """T 2.75 (chamfer 5.5 wide) and P1 3.30 below their mouths.

    By hand the other spots stand 0.2 deeper than half the drill, so that they leave a bevel; the plan gives R and
    K1 the drill's own width (2.25) because no chamfer is asked for there, and the bore a spot of the cutter's
    full 8 (4.0 below the relief's -1.5), to guide its pilot.
    """
    spot = next(step for step in _first().steps if step.operation == "spot")
    tips = {p.label: p.z_to for p in spot.positions}
    assert (tips["T1"], tips["T2"]) == (-2.75, -2.75)
    assert tips["P1"] == pytest.approx(-6.6 / 2)
    assert tips["R3"] == pytest.approx(-4.5 / 2)
    assert tips["R1"] == pytest.approx(-1.5 - 4.5 / 2)
    assert tips["bore"] == pytest.approx(-1.5 - 8 / 2)


@pytest.mark.parametrize(
    ("operation", "feature", "full", "by_hand"),
    [
        ("drill", "cover-screws", -7.0, -8.35),
        ("drill", "motor-screws", -9.0, -10.26),
        ("drill", "pivot-hole", -16.0, -17.98),
        ("drill", "bearing-bore", -16.0, -19.51),
        ("ream", "bearing-bore", -19.0, -19.0),
    ],
)
def test_drill_depths(operation: str, feature: str, full: float, by_hand: float) -> None:
    """Tips of the drills: the full diameter one past a later floor (-7, -9) or half past the far side (-16).

    By hand the tip was cut off after two places; the readout shows steps of 0.005, so a tip may differ by one.
    """
    at = next(p for p in _step(_first(), operation, feature).positions if p.feature == feature)
    assert at.z_full == pytest.approx(full)
    assert at.z_to == pytest.approx(by_hand, abs=0.0051)


def test_bore_is_made_in_one_place() -> None:
    """Pilot 6, drill 11.7, chamfer to 13.0, reamer 12 H7, all at X 0 Y 0."""
    steps = [s for s in _first().steps if "bearing-bore" in s.features and s.operation != "spot"]
    assert [s.operation for s in steps] == ["pilot", "drill", "chamfer", "ream"]
    assert [s.tool.diameter_mm for s in steps[:2] if s.tool] == [6.0, 11.7]
    assert {(p.x, p.y) for s in steps for p in s.positions} == {(0.0, 0.0)}
    chamfer = steps[2].positions[0]
    assert 1.0 + 2 * (-1.5 - chamfer.z_to) == pytest.approx(13.0)


def test_ring_function() -> None:
    """Centre 0, 0; radius 21; 6 holes; R1 at 165 degrees, then clockwise; R1 at X -20.285 Y +5.435; 21.0 apart."""
    (ring,) = _first().rings
    assert (*ring.centre, ring.radius, ring.count, ring.start_deg) == pytest.approx((0.0, 0.0, 21.0, 6, 165.0))
    assert (ring.first_label, ring.sense) == ("R1", "clockwise")
    assert (ring.shown["first_x"], ring.shown["first_y"]) == ("-20.285", "+5.435")
    assert ring.chord == pytest.approx(21.0)


def test_levels_of_the_top() -> None:
    """Centre never inside the square of 18.25; pad's wall at X +22; floors 8 and 6."""
    flange = _step(_second(), "mill", "flange-level")
    shown = {(limit.axis, limit.shown) for limit in flange.limits}
    assert {("x", "-18.250"), ("x", "+18.250"), ("y", "-18.250"), ("y", "+18.250"), ("x", "+22.000")} == shown
    assert flange.z_shown[-2:] == ("+6.100", "+6.000")
    assert _step(_second(), "mill", "pad-level").z_shown[-1] == "+8.000"


CORNERS = {
    "front left": [(-17.63, -4.725), (-15.805, -9.125), (-12.905, -12.905), (-9.125, -15.805), (-4.725, -17.63)],
    "front right": [(17.63, -4.725), (15.805, -9.125), (12.905, -12.905), (9.125, -15.805), (4.725, -17.63)],
    "back right": [(17.63, 4.725), (15.805, 9.125), (12.905, 12.905), (9.125, 15.805), (4.725, 17.63)],
    "back left": [(-17.63, 4.725), (-15.805, 9.125), (-12.905, 12.905), (-9.125, 15.805), (-4.725, 17.63)],
}


@pytest.mark.parametrize("corner", CORNERS)
def test_corner_points(corner: str) -> None:
    """Table N, step / stop, all four corners.

    The stop is worked out for the step as the readout shows it, so one of five comes out one count (0.005)
    nearer: sqrt(18.25^2 - 17.63^2) = 4.7165, away from the boss 4.720.
    """
    nibbled = _titled(_second(), "corners of boss")
    found = [(float(a), float(b)) for a, b in _points(nibbled, corner)]
    assert [step for step, _ in found] == [step for step, _ in CORNERS[corner]]
    assert [stop for _, stop in found] == pytest.approx([stop for _, stop in CORNERS[corner]], abs=0.0051)
    assert nibbled.z_shown[0] == "+10.500"


def test_corner_words() -> None:
    """The points leave a diameter of 24.5 with ridges to 25.17."""
    assert _titled(_second(), "corners of boss").words == ("leaves Ø 24.50 with ridges to Ø 25.17",)


def test_boring_head() -> None:
    """Set 25.2, 24.6, 24.2, 24.0, then 23.90 twice, down to 6.050, centre 0, 0, edge inward, backwards."""
    step = _step(_second(), "bore", "boss")
    assert [ring.shown for ring in step.rings] == ["25.20", "24.60", "24.20", "24.00", "23.90", "23.90"]
    assert {(ring.centre, ring.z_to, ring.edge) for ring in step.rings} == {((0.0, 0.0), 6.05, "in")}
    assert any("INWARD" in word and "BACKWARDS" in word for word in step.words)


def test_mouths_of_the_top() -> None:
    """Countersink K1 to 9.0 at X -26 Y +25; chamfers 13.0 at the bore, 5.5 at T1 X +37 Y -3 and T2 X +37 Y +13."""
    mouths = {
        p.label: (p.x, p.y, 1.0 + 2 * (p.z_full - p.z_to))
        for s in _second().steps
        if s.operation in ("countersink", "chamfer")
        for p in s.positions
    }
    assert mouths["K1"] == pytest.approx((-26, 25, 9.0))
    assert mouths["bore"] == pytest.approx((0, 0, 13.0))
    assert mouths["T1"] == pytest.approx((37, -3, 5.5))
    assert mouths["T2"] == pytest.approx((37, 13, 5.5))


def test_left_end_comes_last() -> None:
    """Left end: X -40.200, measure, last X -40.000 down to -0.500; the last cut of all."""
    step = _step(_second(), "mill", "left-end")
    assert [limit.shown for limit in step.limits] == ["-40.000"]
    assert [limit.shown_rough for limit in step.limits] == ["-40.200"]
    assert step.z_shown[-1] == "-0.500"
    assert [s for s in _second().steps if s.removes][-1] is step


MEASURED = {
    "width": "61.70 to 62.30",
    "length": "79.70 to 80.30",
    "height": "14.80 to 15.20",
    "relief depth": "1.40 to 1.60",
    "bearing-bore Ø": "12.000 to 12.018",
    "over pins Ø 4.50 in R1 and R4": "46.30 to 46.70",
    "boss Ø": "23.85 to 23.95",
    "over a pin Ø 12.00 in bearing-bore to left-end": "39.95 to 40.05",
    "flange-level height": "5.90 to 6.10",
    "pad-level height": "7.80 to 8.20",
}


def test_measuring() -> None:
    """Limits of the hand sheets' measuring lines."""
    shown = {row.what: row.shown for row in plan_of(BRACKET).measure}
    assert {what: shown[what] for what in MEASURED} == MEASURED


def test_order_has_a_reason() -> None:
    """The underside comes first because A is what the part stands on in setup 2."""
    assert plan_of(BRACKET).order_reasons[0].endswith("it makes A, on which the part stands in setup 2")
