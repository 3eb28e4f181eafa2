"""Work by layout: a drill press reads no X and Y, so positions are scribed from two edges and punched."""

from __future__ import annotations

from dataclasses import replace

from setupsheet.plan.bench import Bench
from setupsheet.plan.record import AxisZero

METHOD = "scribe"
"""How the zero of an axis is found that no machine reads."""

LINES = (
    "Blue the face; scribe each hole's X and Y from the two edges named, before the part is clamped",
    "Lay the template on it: every crossing must lie under its hole",
    "Punch each crossing lightly, look at it, then punch deep enough for the drill's point",
    "Table square to the spindle; let the vise find the punch mark under a running drill, then hold it there",
)
"""What is done before the first hole. Common practice, no source."""


def is_scribed(bench: Bench) -> bool:
    """Tell whether positions are marked out and not dialled."""
    return bench.machine.kind == "drill press"


def scribed_zeros(bench: Bench, zeros: tuple[AxisZero, ...]) -> tuple[AxisZero, ...]:
    """Return the zeros with each edge that a finder would touch as the edge that lines are scribed from."""
    if not is_scribed(bench):
        return zeros
    return tuple(_scribed(bench, zero) if zero.method == "edge finder" else zero for zero in zeros)


def _scribed(bench: Bench, zero: AxisZero) -> AxisZero:
    index = "xyz".index(zero.axis)
    middle = (bench.stock.low[index] + bench.stock.high[index]) / 2
    half = zero.tip_diameter_mm / 2
    edge = bench.settle(zero.axis, zero.reading + (half if zero.reading < middle else -half))
    shown = f"{zero.axis.upper()} {bench.shown(zero.axis, edge)}"
    words = f"measure from the {zero.touch}: this edge counts {shown}"
    return replace(zero, method=METHOD, tip_diameter_mm=0.0, reading=edge, key_in=shown, words=words)
