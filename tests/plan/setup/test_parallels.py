"""Parallels: the pair that is picked, and a place for each that no drill comes out on."""

from __future__ import annotations

import math
from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from setupsheet.part.shop import Parallel
from setupsheet.plan.setup.parallels import CLEAR_MM, Bed, Pieces, Round, alike, laid_clear, meets, pieces_clear
from tests.plan.planned import small_shop

PAIR = Parallel(20.0, 6.0, 100.0)
JAWS = ((-50.0, 50.0), (-30.0, 30.0))


def parallels_y(
    parallel: Parallel, jaws_x: tuple[float, float], jaws_y: tuple[float, float], through: tuple[Round, ...]
) -> tuple[float, float]:
    """Return where the one pair that there is lies."""
    return laid_clear((parallel,), Bed(jaws_x, jaws_y, through))[1]


def test_against_the_jaws_where_nothing_comes_out() -> None:
    """Without holes near them, both parallels lie against their jaws."""
    assert parallels_y(PAIR, *JAWS, ()) == (-30.0, 24.0)
    assert parallels_y(PAIR, *JAWS, ((0.0, 0.0, 6.0),)) == (-30.0, 24.0)


def test_moved_in_clear_of_a_hole_at_the_edge() -> None:
    """A hole of radius 3 at 5 from the front jaw pushes the front one in: 5 + 3 + 1 = 9 from the jaw."""
    assert parallels_y(PAIR, *JAWS, ((10.0, -25.0, 3.0),)) == (-21.0, 24.0)


def test_a_hole_beyond_its_end_does_not_move_it() -> None:
    """A parallel is only as long as it is."""
    assert parallels_y(Parallel(20.0, 6.0, 40.0), *JAWS, ((40.0, -27.0, 3.0),)) == (-30.0, 24.0)


def test_stays_at_the_jaw_where_no_place_is_clear() -> None:
    """Holes all over leave it where a check will find it."""
    grid = tuple((x, y, 4.0) for x in range(-45, 50, 9) for y in range(-27, 30, 9))
    assert parallels_y(PAIR, *JAWS, grid) == (-30.0, 24.0)


def test_thinner_ones_where_the_thick_ones_meet_a_hole() -> None:
    """A row across at 9, drill 5: 4 between two holes, less 1 each side; 2 thick goes there and 6 goes nowhere."""
    thick, thin = Parallel(20.0, 6.0, 100.0), Parallel(20.0, 2.0, 100.0)
    row = tuple((20.0, -27.0 + 9 * i, 2.5) for i in range(7))
    bed = Bed(*JAWS, row)
    assert laid_clear((thick,), bed) == (thick, (-30.0, 24.0))
    chosen, under = laid_clear((thick, thin), bed)
    assert chosen is thin
    for low in under:
        assert min(max(low - y, 0.0, y - low - 2.0) - 2.5 for _, y, _ in row) >= CLEAR_MM - 1e-9


def test_never_so_near_each_other_that_the_part_rocks() -> None:
    """All but the middle 20 of 60 is drilled through: two of 6 go in side by side there, 15 from middle to middle."""
    beside = tuple((0.0, y, 3.0) for y in (-27.0, -20.0, 20.0, 27.0))
    front, back = parallels_y(PAIR, *JAWS, beside)
    assert back - front >= 15.0
    narrow = tuple((0.0, y, 3.0) for y in (-27.0, -20.0, -14.0, 14.0, 20.0, 27.0))
    assert parallels_y(PAIR, *JAWS, narrow) == (-10.0, 24.0), "one is clear, and a check finds the other"


def test_only_those_of_one_height() -> None:
    """Another height is another grip; of one height the thickest comes first."""
    pairs = (PAIR, Parallel(20.0, 2.0, 100.0), Parallel(20.0, 3.0, 100.0), Parallel(25.0, 3.0, 100.0))
    assert [p.thickness_mm for p in alike(replace(small_shop(), parallels=pairs), PAIR)] == [3.0, 2.0]


@given(st.lists(st.tuples(st.floats(-49, 49), st.floats(-29, 29), st.floats(0.5, 8)), max_size=4))
def test_clear_or_at_the_jaw(holes: list[tuple[float, float, float]]) -> None:
    """A parallel that was moved is clear of every hole."""
    front, back = parallels_y(PAIR, *JAWS, tuple(holes))
    for low, jaw in ((front, -30.0), (back, 24.0)):
        gaps = [math.hypot(0.0, max(low - y, 0.0, y - low - 6.0)) - r for _, y, r in holes]
        assert low == jaw or min(gaps) >= CLEAR_MM - 1e-9


def test_packing_at_the_ends_where_a_hole_lies_over_every_pair() -> None:
    """A part 60 long and 24 wide with a hole of 12 across its middle: no pair of 6 is clear, both ends are."""
    bed = Bed((-20.0, 80.0), (0.0, 24.0), ((30.0, 12.0, 6.0),))
    assert meets(PAIR, laid_clear((PAIR,), bed)[1], bed)
    assert pieces_clear(bed, (0.0, 60.0)) == Pieces(0.0, 50.0, 10.0)


def test_packing_moves_in_or_gets_narrower_before_it_lies_under_a_hole() -> None:
    """Holes of 6 at 8 from both ends leave 8 - 3 - 1 = 4 there; with holes at 4 it moves in past 4 + 3 + 1 = 8."""
    near = Bed((-20.0, 80.0), (0.0, 24.0), ((8.0, 12.0, 3.0), (52.0, 12.0, 3.0), (30.0, 12.0, 12.0)))
    assert pieces_clear(near, (0.0, 60.0)) == Pieces(0.0, 56.0, 4.0)
    ends = Bed((-20.0, 80.0), (0.0, 24.0), ((4.0, 12.0, 3.0), (56.0, 12.0, 3.0)))
    assert pieces_clear(ends, (0.0, 60.0)) == Pieces(8.0, 42.0, 10.0)


def test_no_packing_where_holes_leave_no_steady_place() -> None:
    """Both pieces on one side of the part, or too near each other, do not carry it."""
    row = tuple((x, 12.0, 5.0) for x in (0.0, 10.0, 20.0, 30.0))
    assert pieces_clear(Bed((-20.0, 80.0), (0.0, 24.0), row), (0.0, 60.0)) is None


def test_a_pair_with_little_room_beside_a_hole_is_not_given_up() -> None:
    """Parallels of 6 in 24 leave 12: a hole of 11 in the middle has half a millimetre on either side, and keeps it."""
    for radius, met in ((5.5, False), (5.95, True)):
        bed = Bed((-20.0, 80.0), (0.0, 24.0), ((30.0, 12.0, radius),))
        parallel, under = laid_clear((PAIR,), bed)
        assert under == (0.0, 18.0)
        assert meets(parallel, under, bed) is met


def test_packing_carries_the_part_on_both_sides_of_its_middle() -> None:
    """The right half is full of holes: what room there is lies too far in, and the part would tip."""
    holes = tuple((x, 12.0, 4.0) for x in (34.0, 42.0, 50.0, 58.0))
    assert pieces_clear(Bed((-20.0, 80.0), (0.0, 24.0), holes), (0.0, 60.0)) is None
