"""Pictures of very many holes: the first of every pattern stays, everything else of the part is as it was."""

from __future__ import annotations

from dataclasses import replace

from setupsheet.part.face import Face
from setupsheet.part.feature import Hole, Spot
from setupsheet.solid.thinned import HOLES_IN_A_PICTURE, is_thinned, thinned, without_repeats
from setupsheet.solid.volume import CircleLoop, Cone, Prism
from tests.parts import block, hole, size


def _row(count: int, id_: str = "row", y: float = 5.0) -> Hole:
    one = hole(Face.TOP, (1.0, y), size(0.5), 20.0, 10.0, id_)
    spots = tuple(Spot(f"{id_}{i}", (1.0 + 0.1 * i, y), 20.0, 10.0) for i in range(count))
    return replace(one, spots=spots)


def test_only_very_many_holes_are_left_out() -> None:
    """Two hundred holes are drawn, one more is not."""
    assert not is_thinned(block(_row(HOLES_IN_A_PICTURE)))
    assert is_thinned(block(_row(HOLES_IN_A_PICTURE), _row(1, "one", 9.0)))
    few = thinned(block(_row(5), _row(3, "other", 9.0)))
    assert [len(f.spots) for f in few.features if isinstance(f, Hole)] == [1, 1]


def test_what_work_took_at_repeated_holes_stays_in_pictures() -> None:
    """Of three holes on one line only the first is cut; a face, a hole alone are kept."""
    row, alone = _row(3), _row(1, "alone", 9.0)
    part = block(row, alone)
    face = Prism(2, CircleLoop((1.1, 5.0), 3.0), (), 20.0, 22.0)
    drills = tuple(Cone(2, spot.at, 10.0, 20.0, 0.25, 0.25) for spot in (*row.spots, *alone.spots))
    across = Cone(1, row.spots[1].at, 0.0, 30.0, 1.0, 1.0)
    left = without_repeats(part, {"setup 1": (face, *drills), "setup 2": (across,)})
    assert left == {"setup 1": (face, drills[0], drills[3]), "setup 2": (across,)}
