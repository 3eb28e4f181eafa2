"""Rows that are led in from an open side, so that no cutter comes down on metal."""

from __future__ import annotations

from functools import cache

import pytest

from setupsheet.plan.milling import area
from setupsheet.plan.milling.leads import led_in
from setupsheet.plan.milling.passes import Clearing, Pass, rough_passes
from setupsheet.plan.record import Step
from tests.plan.planned import plan_of

ALL = area.rectangle((-100.0, -100.0), (100.0, 100.0))
WELL = area.rectangle((-30.0, -10.0), (30.0, 10.0))


def _bay(open_to: tuple[float, float, float, float]) -> Clearing:
    """Return a well in a plate 80 x 40 that runs out over one edge."""
    x0, y0, x1, y1 = open_to
    target = area.common(area.union([WELL, area.rectangle((x0, y0), (x1, y1))]), ALL)
    keep = area.without(area.rectangle((-40.0, -20.0), (40.0, 20.0)), target)
    return Clearing(target, keep, 6.0, 8.4, 0.2)


@pytest.mark.parametrize(
    ("open_to", "from_y"), [((-30.0, -21.0, 30.0, 10.0), -28.0), ((-30.0, -10.0, 30.0, 21.0), 28.0)]
)
def test_from_the_open_side_with_the_metal_on_the_left(
    open_to: tuple[float, float, float, float], from_y: float
) -> None:
    """Every row begins a radius and the run-out of 1 beside the metal; the next row's metal lies left of the feed."""
    clearing = _bay(open_to)
    rows = rough_passes(clearing)
    blind = [row for row in rows if not row.outside]
    assert len(blind) >= 2
    led = [row for row in led_in(clearing, rows) if len(row.path) > 2]
    assert all(row.outside and row.path[0][1] == pytest.approx(from_y) for row in led)
    assert len(led) == len(blind)
    inward = [row.path[1][1] for row in led]
    assert inward == sorted(inward, reverse=from_y > 0)
    assert all((row.path[2][0] > row.path[1][0]) is (from_y < 0) for row in led)


def test_closed_all_round_stays_as_it_is() -> None:
    """Where no side is open the rows go down on the metal as before."""
    clearing = Clearing(WELL, area.without(ALL, WELL), 6.0, 8.4, 0.2)
    rows = rough_passes(clearing)
    assert led_in(clearing, rows) == rows == tuple(Pass(row.path, False) for row in rows)


@cache
def _step() -> Step:
    return plan_of("clamped-on-table").setups[0].steps[0]


def test_level_open_at_the_front_is_entered_from_there() -> None:
    """The plate's step: four flutes never come down on metal; the place to go down is on the sheet."""
    made = _step()
    assert {move.entry for move in made.moves if move.why == "rough"} == {"outside"}
    assert not any("to and fro" in words for words in made.words)
    x, y = made.moves[0].path[0]
    assert y < -6.0
    assert any(f"X {x:+.3f} Y {y:+.3f}" in words for words in made.words)
