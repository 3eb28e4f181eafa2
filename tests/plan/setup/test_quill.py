"""A head that loses its place: one stand for all cutters that the quill reaches, else zero again."""

from __future__ import annotations

from dataclasses import replace

from setupsheet.part.shop import Cutter
from setupsheet.plan.bench import Bench
from setupsheet.plan.draft import step, tool_plan
from setupsheet.plan.record import Move, Step
from setupsheet.plan.setup.quill import again, common, span_of, with_head
from tests.parts import block
from tests.plan.planned import bench


def _round_column(quill: float) -> Bench:
    made = bench(block())
    return replace(made, machine=replace(made.machine, head_keeps_place=False, quill_mm=quill))


def _mill(length: float, z: float) -> Step:
    cutter = Cutter("end mill", f"end mill {length:g} long", 10.0, flute_length_mm=20.0, overall_length_mm=length)
    moves = (Move("outside", z, 5.0, ((0.0, 0.0), (10.0, 0.0))),)
    return step("mill", "side", (), method="table", removes=True, tool=tool_plan(cutter), moves=moves)


def test_span_is_stickout_over_the_heights_of_the_work() -> None:
    """70 long, 25 of it held, cutting at -5: the nose from 2 over 40 up to a quill's travel more (-5 + 45 + 60)."""
    assert span_of(_mill(70.0, -5.0), 60.0) == (42.0, 100.0)
    assert common((67.0, 125.0), (100.0, 150.0)) == (100.0, 125.0)
    assert common((67.0, 80.0), (100.0, 150.0)) is None
    assert common((67.0, 80.0), None) == (67.0, 80.0)


def test_cutters_within_the_quill_need_no_new_zero() -> None:
    """Lengths 70 and 110 with a quill of 60: one stand of the head, told before cutting."""
    steps, lines = with_head(_round_column(60.0), [_mill(70.0, -5.0), _mill(110.0, -5.0)])
    assert not any(again(one) for one in steps)
    assert len(lines) == 1
    assert "82.000 and 100.000" in lines[0]


def test_cutter_beyond_the_quill_asks_for_zero_again() -> None:
    """Lengths 70 and 180 with a quill of 60: nothing in common, so the second comes with a caution."""
    steps, _ = with_head(_round_column(60.0), [_mill(70.0, -5.0), _mill(180.0, -5.0), _mill(175.0, -5.0)])
    assert [again(one) for one in steps] == [False, True, False]
    assert "find X and Y zero again" in steps[1].cautions[0]


def test_a_head_that_keeps_its_place_says_nothing() -> None:
    """A knee mill or a dovetail column: no word."""
    steps, lines = with_head(bench(block()), [_mill(70.0, -5.0), _mill(180.0, -5.0)])
    assert lines == ()
    assert not any(again(one) for one in steps)
