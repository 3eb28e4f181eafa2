"""Metal over a point: by hand, and as a property against plain membership of points in the shapes."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setupsheet.part.face import Box, Face
from setupsheet.plane import Point2, Point3
from setupsheet.solid.column import metal, surface
from setupsheet.solid.volume import ArcEdge, CircleLoop, Cone, EdgeLoop, LineEdge, Loop, Primitive, Prism

_BOX = Box((-10, -10, -10), (10, 10, 10))
_number = st.integers(-12_000, 12_000).map(lambda n: n / 1000)
_size = st.integers(100, 8_000).map(lambda n: n / 1000)


def _rectangle(x0: float, y0: float, x1: float, y1: float) -> EdgeLoop:
    corners = [(x0, y0), (x1, y0), (x1, y1), (x0, y1)]
    return EdgeLoop(tuple(LineEdge(corners[i], corners[(i + 1) % 4]) for i in range(4)))


def _round_slot(centre: Point2, half: float, radius: float) -> EdgeLoop:
    x, y = centre
    left, right = (x - half, y), (x + half, y)
    a, b, c, d = (left[0], y - radius), (right[0], y - radius), (right[0], y + radius), (left[0], y + radius)
    return EdgeLoop((LineEdge(a, b), ArcEdge(b, c, right, True), LineEdge(c, d), ArcEdge(d, a, left, True)))


def _notch(centre: Point2, radius: float) -> EdgeLoop:
    """Return a square corner with a concave (clockwise) arc: what a corner radius removes."""
    x, y = centre
    on_x, on_y, corner = (x + radius, y), (x, y + radius), (x + radius, y + radius)
    return EdgeLoop((LineEdge(on_x, corner), LineEdge(corner, on_y), ArcEdge(on_y, on_x, centre, False)))


_loop = st.one_of(
    st.builds(CircleLoop, st.tuples(_number, _number), _size),
    st.builds(lambda x, y, w, h: _rectangle(x, y, x + w, y + h), _number, _number, _size, _size),
    st.builds(_round_slot, st.tuples(_number, _number), _size, _size),
    st.builds(_notch, st.tuples(_number, _number), _size),
)
_prism = st.builds(
    lambda axis, outer, islands, low, height: Prism(axis, outer, tuple(islands), low, low + height),
    st.integers(0, 2),
    _loop,
    st.lists(_loop, max_size=2),
    _number,
    _size,
)
_cone = st.builds(
    lambda axis, centre, low, height, r0, r1: Cone(axis, centre, low, low + height, r0, r1),
    st.integers(0, 2),
    st.tuples(_number, _number),
    _number,
    _size,
    _size,
    st.one_of(st.just(0.0), _size),
)


def _in_loop(loop: Loop, point: Point2) -> bool:
    """Tell by the angle that a fine polygon of the loop turns through as seen from the point."""
    if isinstance(loop, CircleLoop):
        return math.dist(point, loop.centre) < loop.radius
    corners: list[Point2] = []
    for edge in loop.edges:
        corners += [edge.a] if isinstance(edge, LineEdge) else _along(edge)
    turned = 0.0
    for i, corner in enumerate(corners):
        a = math.atan2(corners[i - 1][1] - point[1], corners[i - 1][0] - point[0])
        b = math.atan2(corner[1] - point[1], corner[0] - point[0])
        turned += (b - a + math.pi) % math.tau - math.pi
    return abs(turned) > math.pi


def _along(arc: ArcEdge) -> list[Point2]:
    start = math.atan2(arc.a[1] - arc.centre[1], arc.a[0] - arc.centre[0])
    end = math.atan2(arc.b[1] - arc.centre[1], arc.b[0] - arc.centre[0])
    sweep = (end - start) % math.tau if arc.ccw else -((start - end) % math.tau)
    radius = math.dist(arc.a, arc.centre)
    angles = [start + sweep * i / 400 for i in range(400)]
    return [(arc.centre[0] + radius * math.cos(t), arc.centre[1] + radius * math.sin(t)) for t in angles]


def _in_shape(shape: Primitive, point: Point3) -> bool:
    along = point[shape.axis]
    flat = tuple(point[i] for i in range(3) if i != shape.axis)
    across = (flat[0], flat[1])
    if not shape.low < along < shape.high:
        return False
    if isinstance(shape, Prism):
        return _in_loop(shape.outer, across) and not any(_in_loop(loop, across) for loop in shape.islands)
    share = (along - shape.low) / (shape.high - shape.low)
    return math.dist(across, shape.centre) < shape.radius_low + share * (shape.radius_high - shape.radius_low)


def _near_an_edge(spans: tuple[tuple[float, float], ...], height: float) -> bool:
    return any(abs(height - end) < 2e-2 for span in spans for end in span)


@given(st.lists(st.one_of(_prism, _cone), max_size=4), st.integers(0, 2), st.tuples(_number, _number), _number)
def test_a_point_is_metal_where_no_shape_holds_it(
    shapes: list[Primitive], axis: int, at: Point2, height: float
) -> None:
    """The intervals agree with asking each shape whether it holds the point (away from their ends)."""
    spans = metal(_BOX, shapes, axis, at)
    point = [at[0], at[1]]
    point.insert(axis, height)
    here = (point[0], point[1], point[2])
    inside_box = all(-10 < value < 10 for value in here)
    nudged = [
        inside_box and not any(_in_shape(s, (here[0] + dx, here[1] + dy, here[2] + dz)) for s in shapes)
        for dx in (-2e-3, 2e-3)
        for dy in (-2e-3, 2e-3)
        for dz in (-2e-3, 2e-3)
    ]
    if len(set(nudged)) > 1 or _near_an_edge(spans, height):
        return
    assert any(low <= height <= high for low, high in spans) == nudged[0]


def test_a_plain_bore_and_a_blind_one() -> None:
    """A through bore leaves nothing, a blind one its floor, its point a slope."""
    bore = Cone(2, (0, 0), -11, 11, 3, 3)
    point = Cone(2, (5, 5), 0, 2, 0, 2)
    assert metal(_BOX, [bore], 2, (1, 1)) == ()
    assert metal(_BOX, [bore], 0, (0, 0)) == ((-10, -3), (3, 10))
    assert metal(_BOX, [Cone(2, (0, 0), 4, 11, 3, 3)], 2, (1, 1)) == ((-10, 4),)
    assert metal(_BOX, [point, Cone(2, (5, 5), 2, 11, 2, 2)], 2, (6, 5)) == ((-10, 1),)


def test_a_wall_stands_and_a_seam_does_not() -> None:
    """On the wall between two levels the higher one counts; two cuts that touch leave nothing between."""
    low_level = Prism(2, _rectangle(-11, -11, 2, 11), (), 0, 11)
    pad_level = Prism(2, _rectangle(2, -11, 11, 11), (), 5, 11)
    assert surface(_BOX, [low_level, pad_level], Face.TOP, (2, 0)) == 5
    window = [Prism(2, _rectangle(-5, -5, 0, 5), (), -11, 11), Prism(2, _rectangle(0, -5, 5, 5), (), -11, 11)]
    assert metal(_BOX, window, 2, (0, 0)) == ()
    assert metal(_BOX, window, 2, (5, 0)) == ((-10, 10),)


def test_islands_stand_in_a_pocket_from_every_side() -> None:
    """A round island is met by a line along the pocket's axis and by one across it."""
    pocket = Prism(2, _rectangle(-8, -8, 8, 8), (CircleLoop((0, 0), 3),), 4, 11)
    assert metal(_BOX, [pocket], 2, (0, 0)) == ((-10, 10),)
    assert metal(_BOX, [pocket], 2, (5, 0)) == ((-10, 4),)
    assert metal(_BOX, [pocket], 0, (0, 6)) == ((-10, -8), (-3, 3), (8, 10))


def test_the_first_metal_seen_from_each_face() -> None:
    """The surface is asked from the face's own side; outside the box there is none."""
    pocket = Prism(2, _rectangle(-5, -5, 5, 5), (), -6, 6)
    assert surface(_BOX, [pocket], Face.TOP, (0, 0)) == 10
    assert surface(_BOX, [pocket], Face.BOTTOM, (0, 0)) == -10
    open_top = [Prism(2, _rectangle(-5, -5, 5, 5), (), -6, 11)]
    assert surface(_BOX, open_top, Face.TOP, (0, 0)) == -6
    assert surface(_BOX, open_top, Face.LEFT, (0, 0)) == -10
    assert surface(_BOX, open_top, Face.TOP, (10.5, 0)) is None


@pytest.mark.parametrize(("at", "wanted"), [((3.0, 0.0), 8.0), ((0.0, 2.9), 8.0), ((3.2, 3.2), None)])
def test_a_corner_radius_leaves_what_is_under_its_arc(at: Point2, wanted: float | None) -> None:
    """Inside the radius the metal stands to the box's top, past it nothing is left."""
    box = Box((-4, -4, 0), (4, 4, 8))
    notch = Prism(2, _notch((0, 0), 4), (), -1, 9)
    assert surface(box, [notch], Face.TOP, at) == wanted
