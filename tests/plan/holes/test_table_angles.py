"""A bolt circle as angles of the rotary table: where its holes stand, the chord to check, and what spoils it."""

from __future__ import annotations

import math
from typing import Any

import pytest

from setupsheet.plan.record import TableAngles, as_json
from setupsheet.plan.replay.shown_angles import circles_by_angle
from setupsheet.plane import polar
from tests.plan.planned import plan_of, setup_of

NAME = "rotary-corner"


def _circle() -> TableAngles:
    (circle,) = setup_of(NAME, 3).by_angle
    return circle


def test_angles_and_places_agree() -> None:
    """Turned to each angle the hole comes where X and Y put it, within the readout's step."""
    at = {p.label: (p.x, p.y) for step in setup_of(NAME, 3).steps for p in step.positions}
    for hole in _circle().places:
        assert math.dist(polar((0.0, 0.0), _circle().radius, hole.angle_deg), at[hole.label]) < 0.005


def test_what_is_printed() -> None:
    """Four holes on 20 from 45 degrees: X 10, quarter turns, neighbours 10 times the root of two apart."""
    assert [hole.shown for hole in _circle().places] == ["45°00'", "135°00'", "225°00'", "315°00'"]
    assert _circle().chord == pytest.approx(10 * math.sqrt(2))
    assert _circle().shown == {"radius": "+10.000", "chord": "14.142"}
    assert "H2 135°00'" in _circle().words


def test_only_where_a_table_turns() -> None:
    """In the vise a circle has no angles of a table."""
    assert all(setup.by_angle == () for setup in plan_of(NAME).setups[:2])


def _said(**changed: Any) -> list[str]:
    setup = as_json(setup_of(NAME, 3))
    setup["by_angle"][0]["places"][1].update({k: v for k, v in changed.items() if k != "chord"})
    setup["by_angle"][0].update({k: v for k, v in changed.items() if k == "chord"})
    return circles_by_angle(setup)


def test_the_plan_as_it_is_passes() -> None:
    """Nothing is said of sound numbers."""
    assert _said() == []


@pytest.mark.parametrize(
    ("changed", "word"),
    [
        ({"angle_deg": 135.5, "shown": "135°30'"}, "off"),
        ({"angle_deg": 135.01}, "no multiple"),
        ({"shown": "136°00'"}, "the sheet shows 136°00'"),
        ({"chord": 14.2}, "apart"),
    ],
)
def test_spoiled_circles(changed: dict[str, Any], word: str) -> None:
    """An angle, its text or the chord that is off is told."""
    assert any(word in words for words in _said(**changed))
