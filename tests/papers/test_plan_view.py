"""The plan view: to scale, labels apart, arrows as the machine counts, hatch only where a cutter goes."""

from __future__ import annotations

import itertools
from dataclasses import replace

import pytest

from setupsheet.drawing.boxes import Rect, overlap, rect
from setupsheet.drawing.ink import Circle, Fill, Group, Line, Pen, Text
from setupsheet.drawing.signs import box as text_box
from setupsheet.papers.hatching import Ruler, Swept, crossing_span, floors, inside, minus
from setupsheet.papers.labels import Label, Places
from setupsheet.papers.plan_view import plan_view
from setupsheet.papers.setup_page import PLAN_ROOM
from setupsheet.plane import Point2, polar
from tests.papers.small_plan import DEEP, WIDE, plan, setup, views

RING = tuple((f"R{i + 1}", polar((30.0, 20.0), 16.0, 15.0 * i)) for i in range(24))


def picture(places: tuple[tuple[str, Point2], ...] | None = None) -> Group:
    """Return the plan view of the first setup."""
    made, seen = (plan(places), views(places)) if places else (plan(), views())
    return plan_view(made, 0, seen.setups[0], PLAN_ROOM)


def boxes(group: Group) -> list[tuple[str, Rect]]:
    """Return all texts with their upright boxes."""
    found = []
    for item in group.items:
        if isinstance(item, Text):
            corners = text_box(item)
            xs, ys = [c[0] for c in corners], [c[1] for c in corners]
            found.append((item.text, rect(min(xs), min(ys), max(xs), max(ys))))
    return found


@pytest.mark.parametrize("places", [None, RING], ids=["three holes", "ring of 24"])
def test_no_two_texts_overlap(places: tuple[tuple[str, Point2], ...] | None) -> None:
    """All labels, names and readings stand apart."""
    pairs = itertools.combinations(boxes(picture(places)), 2)
    assert [(a, b) for (a, one), (b, other) in pairs if overlap(one, other)] == []


@pytest.mark.parametrize("places", [None, RING], ids=["three holes", "ring of 24"])
def test_all_texts_lie_in_the_picture(places: tuple[tuple[str, Point2], ...] | None) -> None:
    """No text is cut by the edge of the picture, and the picture fits its room."""
    group = picture(places)
    (x0, y0), (x1, y1) = group.box
    assert [t for t, ((a, b), (c, d)) in boxes(group) if a < x0 or b < y0 or c > x1 or d > y1] == []
    assert x1 - x0 <= PLAN_ROOM[0] + 1e-6
    assert y1 - y0 <= PLAN_ROOM[1] + 1e-6


def test_every_hole_has_its_label_once() -> None:
    """A hole that four steps come back to is labelled once."""
    texts = [text for text, _ in boxes(picture(RING))]
    assert [texts.count(label) for label, _ in RING] == [1] * 24


def test_metal_is_drawn_to_scale() -> None:
    """The part's outline on paper is its size times the scale of the group."""
    group = picture()
    lines = [item for item in group.items if isinstance(item, Line) and item.pen is Pen.VISIBLE]
    xs, ys = [p[0] for line in lines for p in (line.a, line.b)], [p[1] for line in lines for p in (line.a, line.b)]
    assert max(xs) - min(xs) == pytest.approx(WIDE * group.scale)
    assert max(ys) - min(ys) == pytest.approx(DEEP * group.scale)


@pytest.mark.parametrize(("sign", "right"), [(1, True), (-1, False)])
def test_arrow_points_the_way_in_which_the_machine_counts(sign: int, right: bool) -> None:
    """An axis that counts to the left has its arrow on the left."""
    made = plan()
    counted = replace(made.setups[0], counts={"x": sign, "y": 1, "z": 1})
    group = plan_view(replace(made, setups=(counted, made.setups[1])), 0, views().setups[0], PLAN_ROOM)
    at = next(item.at for item in group.items if isinstance(item, Text) and item.text == "X+")
    assert (at[0] > WIDE * group.scale / 2) is right


def test_jaws_are_named_and_parallels_are_hidden() -> None:
    """Jaws carry their names; what lies under the part is dashed."""
    group = picture()
    assert {"fixed jaw", "moving jaw"} <= {text for text, _ in boxes(group)}
    hidden = [item for item in group.items if isinstance(item, Line) and item.pen is Pen.HIDDEN]
    assert {round(line.a[1] / group.scale, 6) for line in hidden if line.a[1] == line.b[1]} == {34.0, 40.0}


def test_hatch_stays_in_the_cutters_way() -> None:
    """Both ends of each hatch line lie in the level's pass or in a ring of the boring head, inside the metal."""
    group = picture()
    ends = [p for item in group.items if isinstance(item, Line) and item.pen is Pen.HATCH for p in (item.a, item.b)]
    assert ends
    for x, y in ((x / group.scale, y / group.scale) for x, y in ends):
        in_pass = x <= 30.0 + 1e-6 and 5.0 - 1e-6 <= y <= 15.0 + 1e-6
        in_ring = 5.0 - 1e-6 <= ((x - 30) ** 2 + (y - 20) ** 2) ** 0.5 <= 6.0 + 1e-6
        assert in_pass or in_ring
        assert -1e-6 <= x <= WIDE + 1e-6


def test_the_deeper_floor_comes_first() -> None:
    """Floors rise in height; facing is no floor, and a height that two steps mill is one floor."""
    found = floors(setup(1))
    assert [floor.z for floor in found] == [-3.0, -2.0]


def test_line_through_a_slot_shaped_way() -> None:
    """A line across the middle of a leg meets it over the cutter's diameter; past its end over less; beyond not."""
    way = Swept((0.0, 0.0), (20.0, 0.0), 5.0)
    up = (0.0, 1.0)
    assert inside(Ruler((10.0, 0.0), up), [way]) == [pytest.approx((-5.0, 5.0))]
    assert inside(Ruler((23.0, 0.0), up), [way]) == [pytest.approx((-4.0, 4.0))]
    assert inside(Ruler((25.1, 0.0), up), [way]) == []
    assert inside(Ruler((0.0, 0.0), (1.0, 0.0)), [way]) == [pytest.approx((-5.0, 25.0))]


def test_line_through_a_ring() -> None:
    """A line through a ring of radii 3 and 5 meets it twice through the middle, once near its rim."""
    ring = Swept((0.0, 0.0), (0.0, 0.0), 5.0, 3.0)
    assert inside(Ruler((0.0, 0.0), (1.0, 0.0)), [ring]) == [pytest.approx((-5.0, -3.0)), pytest.approx((3.0, 5.0))]
    assert inside(Ruler((0.0, 4.0), (1.0, 0.0)), [ring]) == [pytest.approx((-3.0, 3.0))]


def test_intervals_taken_away() -> None:
    """What is cut deeper is taken out of the line."""
    assert minus([(0.0, 10.0)], [(2.0, 3.0), (5.0, 12.0)]) == [(0.0, 2.0), (3.0, 5.0)]
    assert minus([(0.0, 1.0), (4.0, 5.0)], [(-1.0, 6.0)]) == []


def test_line_across_an_outline() -> None:
    """The metal on a line reaches from the first to the last crossing of the outline."""
    square = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0), (0.0, 0.0)]
    assert crossing_span(Ruler((5.0, 5.0), (1.0, 0.0)), [square]) == pytest.approx((-5.0, 5.0))
    assert crossing_span(Ruler((5.0, 11.0), (1.0, 0.0)), [square]) is None


def test_corner_mark_is_black_and_at_its_corner() -> None:
    """A black corner stands where the plan says, with the plan's text beside it."""
    group = picture()
    corner = (0.0, DEEP * group.scale)
    assert any(isinstance(item, Fill) and item.points[0] == pytest.approx(corner) for item in group.items)
    assert "B-L" in {text for text, _ in boxes(group)}


def test_witness_hole_has_a_heavy_ring() -> None:
    """The hole that is looked at first is ringed at its place."""
    group = picture()
    rings = [item for item in group.items if isinstance(item, Circle) and item.pen is Pen.CUT]
    assert [ring.centre for ring in rings] == [pytest.approx((10.0 * group.scale, 10.0 * group.scale))]


def test_label_keeps_off_a_line_where_there_is_room() -> None:
    """Beside a line through its first place a label takes another place near its point."""
    label = Label((0.0, 0.0), 1.0, "K1", 3.0)
    free, held = Places(rect(-30.0, -30.0, 30.0, 30.0)), Places(rect(-30.0, -30.0, 30.0, 30.0))
    held.keep_off([Line(Pen.VISIBLE, (-30.0, 2.5), (30.0, 2.5))])
    first, other = (next(s for s in places.place(label) if isinstance(s, Text)) for places in (free, held))
    assert first.at[1] < 2.5 < first.at[1] + first.height
    assert not other.at[1] < 2.5 < other.at[1] + other.height


def test_witness_has_its_label_beside_it() -> None:
    """A hole that is only looked at is labelled as in the words, with its place in the plan."""
    made = plan()
    witness = made.setups[0].witness
    assert witness is not None
    bare = replace(made.setups[0], witness=replace(witness, label="W9"))
    group = plan_view(replace(made, setups=(bare, made.setups[1])), 0, views().setups[0], PLAN_ROOM)
    found = [item.path for item in group.items if isinstance(item, Text) and item.text == "W9"]
    assert found == ["/setups/0/witness/label"]
