"""Where sections are cut."""

from __future__ import annotations

from dataclasses import replace

from setupsheet.drawing.sections import choose_cuts, step_place
from setupsheet.part.face import Face
from setupsheet.part.feature import Pocket
from setupsheet.part.shape import BoxShape
from tests.drawing import parts


def test_nothing_hidden_no_section() -> None:
    """Plain through holes need no section."""
    assert choose_cuts(parts.part((parts.plain_hole("P1", (20.0, 20.0), 6.0, 15.0),))) == ()


def test_a_plane_steps_through_what_hides() -> None:
    """Two blind holes beside each other lie in one stepped plane."""
    holes = (parts.tapped("T1", (20.0, 15.0), 15.0, 8.0), parts.tapped("T2", (60.0, 40.0), 15.0, 8.0))
    (cut,) = choose_cuts(parts.part(holes))
    assert cut.along == 0
    assert {cut.at(20.0), cut.at(60.0)} == {15.0, 40.0}


def test_what_lies_above_another_gets_its_own_plane() -> None:
    """Two blind holes at one x are cut along y, in one plane without a step."""
    holes = (parts.tapped("T1", (40.0, 15.0), 15.0, 8.0), parts.tapped("T2", (40.0, 45.0), 15.0, 8.0))
    (cut,) = choose_cuts(parts.part(holes))
    assert (cut.along, cut.levels) == (1, ((0.0, 60.0, 40.0),))


def test_a_plane_does_not_step_at_an_edge() -> None:
    """The step keeps off edges of the part."""
    place = step_place(10.0, 30.0, [(19.0, 21.0)])
    assert place is not None
    assert 10.0 < place < 30.0
    assert abs(place - 20.0) >= 1.0


def test_no_room_no_step() -> None:
    """Where something stands in the whole way, the plane does not step."""
    assert step_place(10.0, 30.0, [(9.0, 31.0)]) is None


def test_a_feature_counts_once() -> None:
    """A row of equal holes does not outweigh two different things."""
    row = parts.tapped("T", (10.0, 10.0), 15.0, 8.0)
    spots = tuple(replace(row.spots[0], at=(10.0, y), label=f"T{y:g}") for y in (10.0, 25.0, 40.0))
    cuts = choose_cuts(parts.part((replace(row, spots=spots), parts.tapped("U1", (60.0, 25.0), 15.0, 8.0))))
    assert cuts[0].along == 0


def test_a_pocket_beside_a_blind_hole_is_cut_in_its_plane() -> None:
    """The pocket's middle lies 2 mm off the hole: one straight plane through both, not two close ones."""
    area = BoxShape((40.0, 12.0), (70.0, 32.0), 3.0)
    pocket = Pocket("well", parts.HERE, Face.TOP, area, 15.0, parts.size(9.0), 9.0)
    (cut,) = choose_cuts(parts.part((parts.tapped("T1", (20.0, 20.0), 15.0, 8.0), pocket)))
    assert [level for _, _, level in cut.levels] == [20.0]


def test_a_plane_keeps_off_the_sides_of_other_holes() -> None:
    """Two threads in a row with a hole 1 mm beside the line through them: the plane runs square to that line."""
    threads = parts.tapped("T", (20.0, 15.0), 15.0, 8.0)
    threads = replace(threads, spots=(threads.spots[0], replace(threads.spots[0], at=(20.0, 45.0), label="T2")))
    (straight,) = choose_cuts(parts.part((threads,)))
    (square,) = choose_cuts(parts.part((threads, parts.plain_hole("P", (21.0, 30.0), 5.0, 15.0))))
    assert (straight.along, square.along) == (1, 0)
