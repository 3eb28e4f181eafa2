"""What to measure, with which gauge."""

from __future__ import annotations

from dataclasses import replace

import pytest

from setupsheet.length import Unit
from setupsheet.part.face import Face
from setupsheet.part.feature import BoltCircle, EdgeCut, Hole, Level, Pocket, RoundBoss, RoundedEnd, Spot
from setupsheet.part.geometry import FaceAsked, Geometry
from setupsheet.part.part import Part
from setupsheet.part.shape import BoxShape
from setupsheet.part.shop import Gauge
from setupsheet.plan.measuring import measures, pick_gauge
from setupsheet.plan.record import Measure
from tests.parts import HERE, block, hole, size
from tests.plan.planned import plan_of, small_shop


def _rows(part: Part) -> dict[str, Measure]:
    return {row.what: row for row in measures(part, small_shop(), {})}


def test_whole_part_comes_first() -> None:
    """Length, width, height with their limits."""
    rows = list(_rows(block()))
    assert rows == ["length", "width", "height"]


def test_distance_over_a_pin() -> None:
    """D12 turned round: 34 from a bore's centre is 34 + 6 = 40 over a pin of 12 in it."""
    bore = replace(hole(Face.TOP, (34.0, 15.0), size(12.0, 12.0, 12.018), 20.0, 0.0, "bore"), making="fit")
    end = EdgeCut(
        "end", HERE, Face.TOP, ((0.0, 0.0), (0.0, 30.0)), (-1.0, 0.0), Face.LEFT, None, size(34.0, 33.95, 34.05), "bore"
    )
    row = _rows(block(bore, end))["over a pin Ø 12.00 in bore to end"]
    assert (row.lower_mm, row.upper_mm) == pytest.approx((39.95, 40.05))


def test_over_two_pins() -> None:
    """D10: 40.02 between the centres is 46.02 over two pins of 6.00; opposite holes of a ring, the zone either way."""
    circle = BoltCircle((20.0, 15.0), 20.0, 4, 0.0)
    places = [(30.0, 15.0), (20.0, 25.0), (10.0, 15.0), (20.0, 5.0)]
    spots = tuple(Spot(f"R{i}", at, 20.0, 0.0) for i, at in enumerate(places, 1))
    ring = Hole("ring", HERE, Face.TOP, "plain", size(6.0), "6", spots, circle)
    row = _rows(block(ring))["over pins Ø 6.00 in R1 and R3"]
    assert (row.lower_mm, row.upper_mm) == pytest.approx((25.8, 26.2))


def test_thread_is_tried_with_a_screw() -> None:
    """A thread has no number to measure: a screw runs in by hand."""
    tapped = replace(hole(Face.TOP, (8.0, 8.0), size(4.134), 20.0, 0.0, "t"), making="tap", callout="M5")
    row = _rows(block(tapped))["t thread"]
    assert (row.shown, row.gauge) == ("M5", "screw or plug gauge")


def test_level_is_measured_from_what_it_is_counted_from() -> None:
    """From the bottom up for the top; as a depth from its own face for the others."""
    top = Level("top-step", HERE, Face.TOP, BoxShape((0, 0), (9, 9)), size(8.0, 7.8, 8.2))
    below = Level("relief", HERE, Face.BOTTOM, BoxShape((0, 0), (9, 9)), size(1.5, 1.4, 1.6))
    rows = _rows(block(top, below))
    assert rows["top-step height"].shown == "7.80 to 8.20"
    assert rows["relief depth"].shown == "1.40 to 1.60"


def test_sizes_of_bosses_and_openings() -> None:
    """A boss is measured across its outside, a pocket between its walls where a width is given."""
    boss = RoundBoss("boss", HERE, Face.TOP, (20.0, 15.0), size(10.0, 9.9, 10.1), size(20.0))
    pocket = Pocket("p", HERE, Face.TOP, BoxShape((0, 0), (9, 9)), 20.0, size(4.0), 4.0, size(9.0, 8.9, 9.1))
    rows = _rows(block(boss, pocket))
    assert rows["boss Ø"].shown == "9.90 to 10.10"
    assert rows["p width"].shown == "8.90 to 9.10"


@pytest.mark.parametrize(
    ("lower", "upper", "reach", "gauge"),
    [
        (79.7, 80.3, "outside", "caliper 0-150"),
        (23.98, 24.02, "outside", "micrometer 0-25"),
        (33.98, 34.02, "outside", "micrometer (to borrow)"),
        (5.9, 6.1, "depth", "depth gauge 0-100"),
        (22.0, 22.021, "inside", "plug gauge or pins 22.000 and 22.021"),
        (12.0, 12.018, "inside", "gauge pins 1 to 13 by 0.01"),
        (151.0, 151.5, "inside", "caliper (to borrow)"),
    ],
)
def test_gauges(lower: float, upper: float, reach: str, gauge: str) -> None:
    """A caliper for bands of 0.08 and more, finer ones for less, from the shop where it has one that spans it."""
    assert pick_gauge(small_shop(), lower, upper, reach) == gauge


def test_a_close_bore_too_wide_for_pins_is_felt_and_then_measured() -> None:
    """24 H8, 24.000 to 24.033 (ISO 286-2): a telescoping gauge, then the micrometer over it, where there are both."""
    shop = small_shop()
    assert pick_gauge(shop, 24.0, 24.033, "inside") == "plug gauge or pins 24.000 and 24.033"
    assert pick_gauge(shop, 25.4, 25.425, "inside", Unit.INCH) == "plug gauge or pins 1.0000 and 1.0010"
    with_one = replace(
        shop, gauges=(*shop.gauges, Gauge("telescoping gauge", "telescoping gauge 8-54", 8.0, 54.0, 0.0))
    )
    assert pick_gauge(with_one, 24.0, 24.033, "inside") == "telescoping gauge 8-54, then micrometer 0-25 over it"
    assert pick_gauge(with_one, 30.0, 30.033, "inside").startswith("plug gauge")  # the micrometer ends at 25


def test_a_slot_with_a_floor_is_measured_in_depth() -> None:
    """From its mouth down: floor 14.8 to 15.2 under a top at 20 is 4.80 to 5.20 deep."""
    pocket = Pocket("p", HERE, Face.TOP, BoxShape((0, 0), (9, 9)), 20.0, size(15.0, 14.8, 15.2), 15.0, size(9.0))
    assert _rows(block(pocket))["p depth"].shown == "4.80 to 5.20"


def test_a_size_of_the_whole_part_is_asked_after_its_last_face() -> None:
    """Squaring the hinge block: the length after the right end, the width after the front, the height after the top."""
    after = {row.what: row.after.setup for row in plan_of("hinge-block").measure if row.after}
    assert [after[what] for what in ("length", "width", "height")] == [5, 3, 7]


def test_geometry_is_measured_with_an_indicator() -> None:
    """A zone is a row of its own, with how; a finer indicator is borrowed where needed."""
    square = Geometry("perpendicularity", 0.05, "A", "perpendicularity 0.05 to A", True)
    bore = replace(hole(Face.TOP, (8.0, 8.0), size(6.0), 20.0, 0.0, "b"), geometry=(square,))
    asked = FaceAsked(Face.BOTTOM, "", (Geometry("flatness", 0.02, "", "flatness 0.02"),), HERE)
    shop = replace(small_shop(), gauges=(Gauge("indicator", "indicator 0.01", 0.0, 0.8, 0.01),))
    rows = {row.what: row for row in measures(replace(block(bore), faces=(asked,)), shop, {})}
    row = rows["b perpendicularity"]
    assert (row.feature, row.lower_mm, row.upper_mm, row.gauge) == ("b", 0.0, 0.05, "indicator 0.01")
    assert "datum A" in row.words
    flat = rows["flatness of the bottom face"]
    assert (flat.upper_mm, flat.shown, flat.feature) == (0.02, "at most 0.02", "")
    assert flat.gauge == "indicator that shows 0.004 mm (to borrow)"


def test_a_round_end_to_limits_is_measured_over_a_pin_in_its_bore() -> None:
    """Radius 15 ± 0.05 about a bore of 12.00: 20.95 to 21.05 over the pin; without a bore, radius gauges."""
    end = RoundedEnd("nose", HERE, Face.TOP, (25.0, 15.0), size(15.0, 14.95, 15.05), Face.RIGHT)
    bore = hole(Face.TOP, (25.0, 15.0), size(12.0, 12.0, 12.018), 20.0, 0.0, "bore")
    row = _rows(block(bore, end))["over a pin Ø 12.00 in bore to nose"]
    assert (row.lower_mm, row.upper_mm) == pytest.approx((20.95, 21.05))
    assert row.close
    assert _rows(block(end))["nose radius"].gauge == "radius gauges"
