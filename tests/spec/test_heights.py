"""Finished surfaces: from a face inward, over a point and under a disc; checked against a plain search."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setupsheet.finding import Place
from setupsheet.part.face import Box, Face
from setupsheet.part.feature import EdgeCut, Feature, Keep, Level, Pocket, RoundBoss, Size
from setupsheet.part.shape import BoxShape, CircleShape, PolygonShape, Shape, SlotShape
from setupsheet.spec.heights import Surfaces
from setupsheet.spec.shape_edge import bounds, edge_distance

from .conftest import Read

HERE = Place("x")
BOX = Box((0, 0, 0), (60, 40, 20))


def size(value: float) -> Size:
    """Return a size without tolerance."""
    return Size(value, value, value, f"{value:g}", "basic")


def level(face: Face, area: Shape | None, height: float, *leave: Shape) -> Level:
    """Return a level."""
    return Level(f"level-{face}-{height:g}", HERE, face, area, size(height), tuple(Keep(shape) for shape in leave))


def test_plain_block() -> None:
    """Without features each face is its own surface."""
    surfaces = Surfaces(BOX, ())
    assert [surfaces.at(face, (5, 5)) for face in Face] == [20, 0, 0, 60, 0, 40]


def test_lowest_floor_counts() -> None:
    """Where levels overlap the lowest one is the surface; what is left standing keeps the face."""
    features = [level(Face.TOP, None, 15, BoxShape((0, 0), (10, 10))), level(Face.TOP, BoxShape((30, 0), (60, 40)), 8)]
    surfaces = Surfaces(BOX, features)
    assert [surfaces.at(Face.TOP, point) for point in ((5, 5), (20, 5), (40, 5))] == [20, 15, 8]
    assert surfaces.at(Face.BOTTOM, (40, 5)) == 0


def test_boss_protects_its_cylinder() -> None:
    """Over a boss the surface is its own top, whatever levels run round it."""
    boss = RoundBoss("boss", HERE, Face.TOP, (20, 20), size(10), size(18))
    surfaces = Surfaces(BOX, [boss, level(Face.TOP, None, 6)])
    assert surfaces.at(Face.TOP, (22, 20)) == 18
    assert surfaces.at(Face.TOP, (26, 20)) == 6
    assert surfaces.under(Face.TOP, (20, 20), 4) == (18,)
    assert surfaces.under(Face.TOP, (24, 20), 2) == (18, 6)


def test_from_below() -> None:
    """From the bottom the deepest floor is the highest one."""
    surfaces = Surfaces(BOX, [level(Face.BOTTOM, BoxShape((0, 0), (30, 40)), 4)])
    assert surfaces.at(Face.BOTTOM, (10, 10)) == 4
    assert surfaces.under(Face.BOTTOM, (30, 10), 3) == (0, 4)


def test_edge_cut_moves_the_side_in() -> None:
    """A straight cut makes the side's surface."""
    cut = EdgeCut("cut", HERE, Face.TOP, ((3, 0), (3, 40)), (-1, 0), Face.LEFT, None)
    assert Surfaces(BOX, [cut]).at(Face.LEFT, (20, 10)) == 3


def test_side_hole_starts_at_the_wall_that_a_level_left() -> None:
    """From the right, above the step's floor, the metal starts at the step's wall."""
    surfaces = Surfaces(BOX, [level(Face.TOP, BoxShape((45, -5), (65, 45)), 12)])
    assert surfaces.at(Face.RIGHT, (20, 5)) == 60
    assert surfaces.at(Face.RIGHT, (20, 16)) == 45
    assert surfaces.under(Face.RIGHT, (20, 12), 2) == (60, 45)


def test_a_line_along_the_flank_of_a_slot() -> None:
    """The edge of a floor belongs to the floor: a line on a straight flank runs free to where the flank ends."""
    for slot, y in (
        (SlotShape((0.0, 10.0), (20.0, 10.0), 8.0), 14.0),
        (SlotShape((0.0, 10.0), (20.0, 10.0), 8.0), 6.0),
    ):
        assert Surfaces(BOX, [level(Face.BOTTOM, slot, 4)]).at(Face.LEFT, (y, 2)) == 20


def test_no_metal_in_a_window() -> None:
    """In a window there is no metal, from either side; across it a line meets the near wall."""
    window = Pocket("window", HERE, Face.TOP, CircleShape((30, 20), 10), 20, None, 0)
    surfaces = Surfaces(BOX, [window])
    assert not surfaces.metal(Face.TOP, (30, 20))
    assert surfaces.metal(Face.TOP, (36, 20))
    assert surfaces.at(Face.LEFT, (20, 10)) == 0
    assert surfaces.metal(Face.FRONT, (30, 10))


def test_hole_in_a_window_is_told(read: Read) -> None:
    """A hole where all metal is gone is an error."""
    text = "  win:\n    kind: pocket\n    area: {circle: {at: [20, 15], diameter: 14}}\n    through: true\n"
    assert [finding.code for finding in read(more=text)[2]] == ["hole-in-air"]


shapes = st.one_of(
    st.tuples(st.floats(-5, 40), st.floats(-5, 20), st.floats(4, 30), st.floats(4, 30)).map(
        lambda v: BoxShape((v[0], v[1]), (v[0] + v[2], v[1] + v[3]), min(v[2], v[3]) / 4)
    ),
    st.tuples(st.floats(0, 60), st.floats(0, 40), st.floats(3, 30)).map(lambda v: CircleShape((v[0], v[1]), v[2])),
    st.tuples(st.floats(0, 60), st.floats(0, 40), st.floats(0, 60), st.floats(0, 40), st.floats(2, 12)).map(
        lambda v: SlotShape((v[0], v[1]), (v[2], v[3]), v[4])
    ),
    st.tuples(st.floats(0, 20), st.floats(0, 10), st.floats(25, 60), st.floats(15, 40)).map(
        lambda v: PolygonShape(((v[0], v[1]), (v[2], v[1]), (v[0], v[3])))
    ),
)
cuts = st.lists(st.tuples(st.sampled_from([Face.TOP, Face.BOTTOM]), shapes, st.floats(2, 18)), max_size=3)


def in_metal(features: list[Feature], place: tuple[float, float, float]) -> bool:
    """Tell by plain tests whether a point in space is metal."""
    for feature in features:
        assert isinstance(feature, Level)
        assert feature.area is not None
        outside = (place[2] - feature.height.nominal_mm) * feature.face.sign > 0
        if outside and edge_distance((place[0], place[1]), feature.area) <= 0:
            return False
    return True


@given(cuts, st.sampled_from([Face.LEFT, Face.RIGHT]), st.floats(1, 39), st.floats(1, 19))
def test_side_surface_against_a_plain_search(
    drawn: list[tuple[Face, Shape, float]], face: Face, y: float, z: float
) -> None:
    """The surface from a side is where a fine walk inward first meets metal, to the walk's step."""
    features: list[Feature] = [level(side, area, height) for side, area, height in drawn]
    surfaces = Surfaces(BOX, features)
    step = 0.05
    start = BOX.at(face)
    walk = [start - face.sign * (index + 0.5) * step for index in range(int(60 / step))]
    met = next((x for x in walk if in_metal(features, (x, y, z))), None)
    if met is None:
        return
    found = surfaces.at(face, (y, z))
    assert found <= start if face.sign > 0 else found >= start
    thin = [x for x in walk if (x - met) * face.sign > step and (found - x) * face.sign >= 0]
    assert all(not in_metal(features, (x, y, z)) for x in thin)
    assert abs(found - met) <= 2 * step or _thin_wall(features, found, face, (y, z))


def _thin_wall(features: list[Feature], found: float, face: Face, at: tuple[float, float]) -> bool:
    """Tell whether the wall that was found is real, only thinner than the walk's step."""
    return in_metal(features, (found - face.sign * 1e-5, *at))


@given(shapes, st.floats(-20, 80), st.floats(-20, 60))
def test_edge_distance_against_samples(shape: Shape, x: float, y: float) -> None:
    """No point of the plane is nearer to the edge than the distance says: a disc of that radius stays on one side."""
    gap = edge_distance((x, y), shape)
    if isinstance(shape, PolygonShape):
        return
    inside = gap < 0
    for angle in range(0, 360, 15):
        reach = abs(gap) * 0.999
        spot = (x + reach * math.cos(math.radians(angle)), y + reach * math.sin(math.radians(angle)))
        assert (edge_distance(spot, shape) < 1e-9) == inside or abs(edge_distance(spot, shape)) < 1e-6


@given(shapes)
def test_bounds_hold_the_shape(shape: Shape) -> None:
    """Outside its box a shape has no point."""
    low, high = bounds(shape)
    middle = ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2)
    for spot in (
        (low[0] - 0.1, middle[1]),
        (high[0] + 0.1, middle[1]),
        (middle[0], low[1] - 0.1),
        (middle[0], high[1] + 0.1),
    ):
        assert edge_distance(spot, shape) > 0


@pytest.mark.parametrize(("point", "expected"), [((5, 5), -5), ((5, 12), 2), ((13, 14), 5), ((0, 5), 0)])
def test_box_distance(point: tuple[float, float], expected: float) -> None:
    """A box 10 x 10: inside, beside, off a corner (3-4-5), on the edge."""
    assert edge_distance(point, BoxShape((0, 0), (10, 10))) == pytest.approx(expected)
