"""What a body shows: true circles, merged hidden lines, the same in every view and order."""

from __future__ import annotations

import math

import pytest

from setupsheet.part.face import Face
from setupsheet.part.feature import EdgeCut, Pocket, RoundBoss, Slot
from setupsheet.part.shape import BoxShape, SlotShape
from setupsheet.solid.body import finished
from setupsheet.solid.flat import NEAR_MM, Arc, Circle, Ellipse, Flat, Line, Outlines, Polyline, chain
from setupsheet.solid.frame import part_to_setup
from setupsheet.solid.outline import outlines
from setupsheet.solid.view import face_view, oblique_view
from tests.parts import HERE, block, hole, size
from tests.solid.bracket_part import BORE, bracket

_BRACKET = finished(bracket())


def _circles(flats: tuple[Flat, ...]) -> list[tuple[float, float, float]]:
    return [(round(f.centre[0], 6), round(f.centre[1], 6), round(f.radius, 6)) for f in flats if isinstance(f, Circle)]


def _lines(flats: tuple[Flat, ...]) -> list[Line]:
    return [flat for flat in flats if isinstance(flat, Line)]


def test_the_top_view_of_the_bracket_has_true_circles() -> None:
    """Boss, bore with chamfer, six screws, pivot, two tapped with chamfer, one countersunk: 16; one corner arc."""
    seen = outlines(_BRACKET, face_view(Face.TOP))
    circles = _circles(seen.visible)
    assert len(circles) == 16
    assert (*BORE, 12.0) in circles
    assert (*BORE, 6.0) in circles
    assert (8.0, 54.0, 4.5) in circles
    arcs = [flat for flat in seen.visible if isinstance(flat, Arc)]
    assert arcs == [Arc((70.0, 10.0), 10.0, 270.0, 360.0)]
    assert not [flat for flat in (*seen.visible, *seen.hidden) if isinstance(flat, Polyline | Ellipse)]


def test_hidden_circles_under_visible_ones_are_left_out() -> None:
    """From above only the relief's two walls stay hidden; from below only the boss and the countersink."""
    above, below = (outlines(_BRACKET, face_view(face)) for face in (Face.TOP, Face.BOTTOM))
    assert _lines(above.hidden) == [Line((24.0, 0.0), (24.0, 62.0)), Line((60.0, 0.0), (60.0, 62.0))]
    assert _circles(above.hidden) == []
    assert sorted(radius for _, _, radius in _circles(below.hidden)) == [4.5, 12.0]


def test_a_setup_frame_is_a_view_from_above() -> None:
    """With the underside up, R1 of the ring stands where the setup's sums put it (machine X = 34 - drawing x)."""
    frame = part_to_setup(Face.BOTTOM, Face.BACK, (34.0, 29.0, 0.0))
    circles = _circles(outlines(_BRACKET, frame).visible)
    assert (0.0, 0.0, 6.0) in circles
    assert (-20.284442, 5.4352, 2.25) in circles


def test_pieces_of_one_line_are_joined() -> None:
    """The front view's underside is three lines, not one for every hole that ends in it."""
    seen = outlines(_BRACKET, face_view(Face.FRONT))
    level = [line for line in _lines(seen.visible) if line.a[1] == line.b[1] == 0.0]
    assert level == [Line((0.0, 0.0), (24.0, 0.0)), Line((60.0, 0.0), (80.0, 0.0))]
    for hidden in _lines(seen.hidden):
        assert not any(_lies_on(hidden, line) for line in _lines(seen.visible))


def _lies_on(one: Line, other: Line) -> bool:
    """Tell whether two upright or level lines share more than a point."""
    for i in (0, 1):
        if max(abs(p[i] - one.a[i]) for p in (one.b, other.a, other.b)) < 1e-6:
            low, high = (sorted((line.a[1 - i], line.b[1 - i])) for line in (one, other))
            return min(low[1], high[1]) - max(low[0], high[0]) > 1e-3
    return False


def test_smooth_seams_are_not_drawn() -> None:
    """Seen from the front a slot through to both sides shows its walls; where flank runs into end is no line."""
    slot = Slot("slot", HERE, Face.TOP, SlotShape((10, 15), (30, 15), 8), size(8), 20, None, 0)
    seen = outlines(finished(block(slot)), face_view(Face.FRONT))
    upright = sorted(line.a[0] for line in _lines(seen.hidden) if abs(line.a[0] - line.b[0]) < 1e-9)
    assert upright == pytest.approx([6.0, 34.0])
    above = outlines(finished(block(slot)), face_view(Face.TOP))
    ends = [flat for flat in above.visible if isinstance(flat, Arc)]
    assert [(arc.centre, arc.radius) for arc in ends] == [((10.0, 15.0), 4.0), ((30.0, 15.0), 4.0)]
    assert [arc.to_deg - arc.from_deg for arc in ends] == pytest.approx([180, 180])


def test_crossing_bores_come_out_as_fine_polylines_or_lines() -> None:
    """Where two bores of one size cross, no point of a record is further from the true curve than allowed."""
    one = hole(Face.FRONT, (20, 10), size(10), 0, 30, "one")
    two = hole(Face.TOP, (20, 15), size(6), 20, 0, "two")
    seen = outlines(finished(block(one, two)), face_view(Face.FRONT))
    curves = [flat for flat in (*seen.visible, *seen.hidden) if isinstance(flat, Polyline)]
    side = outlines(finished(block(one, two)), face_view(Face.RIGHT))
    curves += [flat for flat in (*side.visible, *side.hidden) if isinstance(flat, Polyline)]
    assert curves
    for curve in (c for c in curves if c not in (*seen.visible, *seen.hidden)):
        for y, z in curve.points:
            assert abs(z - 10) == pytest.approx(math.sqrt(25 - (9 - (y - 15) ** 2)), abs=NEAR_MM)


def test_an_oblique_picture_is_lines_and_ellipses_without_hidden_ones() -> None:
    """A circle seen along the cube's diagonal is an ellipse of ratio 1 : sqrt(3)."""
    seen = outlines(_BRACKET, oblique_view(), hidden=False)
    assert seen.hidden == ()
    ellipses = [flat for flat in seen.visible if isinstance(flat, Ellipse)]
    assert ellipses
    for ellipse in ellipses:
        assert ellipse.ratio == pytest.approx(3**-0.5, abs=1e-6)
    boss = max(ellipses, key=lambda e: math.hypot(*e.major) if e.to_deg - e.from_deg == 360 else 0)
    assert math.hypot(*boss.major) == pytest.approx(12)


@pytest.mark.parametrize("face", list(Face))
def test_each_view_has_the_size_of_the_part(face: Face) -> None:
    """The strokes of a view reach exactly to the envelope's outline as seen from there."""
    view = face_view(face)
    seen = outlines(_BRACKET, view)
    for row, i in ((view[0], 0), (view[1], 1)):
        axis = max(range(3), key=lambda k: abs(row[k]))
        ends = sorted((0.0, row[axis] * (80.0, 62.0, 15.0)[axis]))
        values = [point[i] for flat in seen.visible for point in chain(flat)]
        assert [min(values), max(values)] == pytest.approx(ends, abs=1e-6)


def test_the_usual_views_have_the_usual_way_up() -> None:
    """Front, back, left and right show the top upwards, the top view the back; a view from below the front."""
    top_point = (0.0, 0.0, 1.0)
    for face in (Face.FRONT, Face.BACK, Face.LEFT, Face.RIGHT):
        assert [row[2] for row in face_view(face)[:3]] == [0.0, 1.0, 0.0], top_point
    assert face_view(Face.TOP)[:2] == ((1.0, 0.0, 0.0, 0.0), (0.0, 1.0, 0.0, 0.0))
    assert face_view(Face.BOTTOM)[:2] == ((1.0, 0.0, 0.0, 0.0), (0.0, -1.0, 0.0, 0.0))
    assert face_view(Face.RIGHT)[0][:3] == (0.0, 1.0, 0.0)
    with pytest.raises(ValueError, match="direction"):
        oblique_view((0.0, 0.0, 1.0))


def test_order_and_bytes_do_not_depend_on_what_was_drawn_before() -> None:
    """The same view twice, with another in between, gives equal records."""
    first = outlines(_BRACKET, face_view(Face.LEFT))
    outlines(_BRACKET, oblique_view())
    assert outlines(_BRACKET, face_view(Face.LEFT)) == first


def test_a_slanted_edge_and_a_boss_from_the_side() -> None:
    """From the front the slant is one upright line, the boss two; nothing else stands above the level."""
    half = 0.5**0.5
    slant = EdgeCut("slant", HERE, Face.TOP, ((28, 0), (40, 12)), (half, -half), None, None)
    boss = RoundBoss("boss", HERE, Face.TOP, (12, 15), size(10), size(20))
    level = Pocket("level", HERE, Face.TOP, BoxShape((-1, -1), (41, 31)), 20, size(10), 0)
    seen: Outlines = outlines(finished(block(slant, boss, level)), face_view(Face.FRONT))
    upright = sorted(line.a[0] for line in _lines(seen.visible) if abs(line.a[0] - line.b[0]) < 1e-9)
    assert upright == pytest.approx([0, 7, 17, 28, 40])
