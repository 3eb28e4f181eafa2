"""Where names lie: points, faces, datums, features."""

from __future__ import annotations

from dataclasses import replace

import pytest

from setupsheet.part.face import Face
from setupsheet.part.feature import BoltCircle, Level, RoundBoss
from setupsheet.part.part import Datum
from setupsheet.plan.places import centre_of, coordinate, face_of, feature_of
from tests.parts import HERE, block, hole, size

BORE = hole(Face.TOP, (34.0, 29.0), size(12.0), 20.0, 0.0, "bore")
SIDE = hole(Face.RIGHT, (11.0, 9.0), size(5.0), 40.0, 0.0, "end-hole")
RING = replace(BORE, id="ring", pattern=BoltCircle((20.0, 10.0), 30.0, 6, 0.0))
PART = replace(
    block(BORE, SIDE, RING),
    datums=(Datum("A", Face.BOTTOM), Datum("B", None, "bore"), Datum("C", Face.FRONT)),
    points={"pivot": (7.0, 8.0)},
)


@pytest.mark.parametrize(
    ("name", "axis", "value"),
    [
        ("pivot", 0, 7.0),
        ("pivot", 1, 8.0),
        ("pivot", 2, None),
        ("right", 0, 40.0),
        ("right", 1, None),
        ("A", 2, 0.0),
        ("C", 1, 0.0),
        ("B", 0, 34.0),
        ("bore", 1, 29.0),
        ("bore", 2, None),
        ("end-hole", 1, 11.0),
        ("end-hole", 2, 9.0),
        ("end-hole", 0, None),
        ("ring", 0, 20.0),
        ("nothing", 0, None),
    ],
)
def test_coordinates(name: str, axis: int, value: float | None) -> None:
    """A face lies along its own axis only, a hole along the two across it, a ring at its centre."""
    assert coordinate(PART, name, axis) == value


def test_names_of_faces_and_features() -> None:
    """Datum letters stand for what they name."""
    assert (face_of(PART, "C"), face_of(PART, "top"), face_of(PART, "B")) == (Face.FRONT, Face.TOP, None)
    assert feature_of(PART, "B") is BORE
    assert feature_of(PART, "pivot") is None


def test_centres() -> None:
    """Round features have a centre, a level has none."""
    boss = RoundBoss("boss", HERE, Face.TOP, (3.0, 4.0), size(5.0), size(20.0))
    assert centre_of(boss) == (3.0, 4.0)
    assert centre_of(Level("l", HERE, Face.TOP, None, size(5.0))) is None
