"""Machines whose head loses its place when it is raised: which cutters the quill reaches without moving the head.

A cutter that sticks out by s and works between two heights needs the spindle nose within a span. Steps whose spans
have something in common are done with one stand of the head; where there is nothing left in common, the head has to
move, and X and Y are found again.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from setupsheet.plan.bench import Bench
from setupsheet.plan.record import Step

CLEAR_MM = 2.0
"""How far a cutter is lifted over the work. Common practice, no source."""

Span = tuple[float, float]
"""Lowest and highest place of the spindle nose with the quill drawn in, setup Z."""


def with_head(bench: Bench, steps: Sequence[Step]) -> tuple[tuple[Step, ...], tuple[str, ...]]:
    """Return the steps, those before which the head moves marked, and a line for what to do before cutting."""
    machine = bench.machine
    if machine.head_keeps_place or machine.quill_mm <= 0:
        return tuple(steps), ()
    told: list[Step] = []
    span: Span | None = None
    first: Span | None = None
    for step in steps:
        own = span_of(step, machine.quill_mm)
        both = own if span is None else common(span, own)
        if own is not None and both is None:
            told.append(_again(bench, step))
            span = own
            continue
        span = both or span
        first = span if not any(again(s) for s in told) else first
        told.append(step)
    return tuple(told), _stand(bench, first)


def span_of(step: Step, quill_mm: float) -> Span | None:
    """Return where the spindle nose may stand for a step; None where it has no cutter or no height."""
    heights = [z for p in step.positions for z in (p.z_from, p.z_to)]
    heights += [move.z for move in step.moves] + [arc.z for arc in step.arcs]
    heights += [z for ring in step.rings for z in (ring.z_from, ring.z_to)]
    if step.tool is None or not heights or not step.removes:
        return None
    stick = step.tool.stickout_mm
    return max(heights) + CLEAR_MM + stick, min(heights) + stick + quill_mm


def common(a: Span, b: Span | None) -> Span | None:
    """Return what two spans share, None for nothing; a step without a span changes nothing."""
    if b is None:
        return a
    low, high = max(a[0], b[0]), min(a[1], b[1])
    return (low, high) if low <= high else None


_AGAIN = "the head has to move for this cutter and loses its place"


def again(step: Step) -> bool:
    """Tell whether the head moves before a step."""
    return any(words.startswith(_AGAIN) for words in step.cautions)


def _again(bench: Bench, step: Step) -> Step:
    assert step.tool is not None
    reach = bench.scales["z"].plain(bench.machine.quill_mm).lstrip("+")
    words = f"{_AGAIN}: the quill's {reach} do not reach; find X and Y zero again before it, then touch off"
    return replace(step, cautions=(*step.cautions, words))


def _stand(bench: Bench, span: Span | None) -> tuple[str, ...]:
    if span is None:
        return ()
    low, high = (bench.scales["z"].plain(value).lstrip("+") for value in span)
    where = f"between {low} and {high}" if span[1] < span[0] + 1e5 else f"at {low} or more"
    return (f"The head loses its place when it is moved: lock it once, spindle nose {where} above Z zero",)
