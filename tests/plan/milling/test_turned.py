"""Arcs on the rotary table: radii away from what stands, angles to the table's step, the work against the cutter."""

from __future__ import annotations

import math
from collections.abc import Sequence

import pytest

from setupsheet.plan.record import ArcMove, Step
from tests.plan.planned import plan_of, setup_of

ROUND_NAMES = ("rotary-rounded-end", "rotary-corner", "rotary-groove", "rotary-boss")


def _turned(name: str) -> list[Step]:
    return [step for step in setup_of(name, 3).steps if step.arcs]


def _arcs(name: str, feature: str) -> tuple[ArcMove, ...]:
    (step,) = [step for step in _turned(name) if feature in step.features]
    return step.arcs


def _lasts(arcs: Sequence[ArcMove]) -> list[ArcMove]:
    return [arc for arc in arcs if arc.why == "last"]


@pytest.mark.parametrize("name", ROUND_NAMES)
def test_every_round_is_turned(name: str) -> None:
    """Each is cut by arcs about zero, conventional, with nothing left to file and no table of points."""
    steps = _turned(name)
    assert steps
    for step in steps:
        assert (step.method, step.direction, step.leftover, step.points) == ("rotary_table", "conventional", (), ())
        assert {arc.centre for arc in step.arcs} == {(0.0, 0.0)}
    assert not any(step.moves and "nose" in step.features for step in steps)


@pytest.mark.parametrize("name", ROUND_NAMES)
def test_the_proof_has_no_gouge(name: str) -> None:
    """The replay cuts the arcs and finds the part, nothing more and nothing less."""
    verdict = plan_of(name).replay
    assert verdict is not None
    assert (verdict.proved, verdict.gouge, verdict.left, verdict.explained) == (True, (), (), ())


def test_tangent_ends() -> None:
    """A rounded end runs from flank to flank, a corner over a quarter: straight and round meet uncut."""
    assert {(arc.from_deg, arc.to_deg) for arc in _arcs("rotary-rounded-end", "nose")} == {(-90.0, 90.0)}
    assert {(arc.from_deg, arc.to_deg) for arc in _arcs("rotary-corner", "corner")} == {(0.0, 90.0)}


def test_the_last_radius() -> None:
    """R 15 and a cutter of 12 make X 21; a boss of 20 h7 (its middle 19.9895) rounds up, never small."""
    (last,) = _lasts(_arcs("rotary-rounded-end", "nose"))
    assert (last.radius, last.shown["radius"]) == (21.0, "+21.000")
    (boss,) = _lasts(_arcs("rotary-boss", "spigot"))
    exact = (20.0 - 0.021 / 2) / 2 + 6.0  # ISO 286-2: h7 over 18 to 30 mm, 0 and -0.021
    assert exact <= boss.radius < exact + 0.005


def test_the_work_goes_against_the_cutter() -> None:
    """Round what stands inside the cutter goes anticlockwise over the work; along a wall outside it clockwise."""
    assert all(arc.to_deg > arc.from_deg for arc in _arcs("rotary-boss", "spigot"))
    assert all(arc.to_deg < arc.from_deg for arc in _arcs("rotary-groove", "recess"))
    outer, inner = _lasts(_arcs("rotary-groove", "groove"))
    assert outer.radius > inner.radius
    assert (outer.to_deg < outer.from_deg, inner.to_deg > inner.from_deg) == (True, True)


def test_walls_of_opening_and_groove() -> None:
    """A pocket of 26 is cut at its half less the cutter's; a groove 34 to 44 at both walls."""
    (step,) = [step for step in _turned("rotary-groove") if "recess" in step.features]
    assert step.tool is not None
    (last,) = _lasts(step.arcs)
    assert last.radius + step.tool.diameter_mm / 2 == pytest.approx(13.0, abs=0.005)
    outer, inner = _lasts(_arcs("rotary-groove", "groove"))
    (groove,) = [step for step in _turned("rotary-groove") if "groove" in step.features]
    assert groove.tool is not None
    half = groove.tool.diameter_mm / 2
    assert (outer.radius + half, inner.radius - half) == pytest.approx((22.0, 17.0), abs=0.005)


@pytest.mark.parametrize("name", ROUND_NAMES)
def test_passes_follow_each_other(name: str) -> None:
    """A pass goes down where it is clear or where the one before it has been, no wider than the cutter."""
    for step in _turned(name):
        assert step.tool is not None
        for before, arc in zip(step.arcs, step.arcs[1:], strict=False):
            assert abs(arc.radius - before.radius) <= step.tool.diameter_mm
            if arc.radius != before.radius and arc.z == before.z and arc.entry == "outside":
                assert arc.run_in == before.radius


def test_holes_of_the_corner_are_drilled_first_or_last() -> None:
    """The bolt circle of the corner plate stands 10 from the axis, as its sheet says."""
    for at in (p for step in setup_of("rotary-corner", 3).steps for p in step.positions):
        assert math.hypot(at.x, at.y) == pytest.approx(10.0, abs=0.005)
