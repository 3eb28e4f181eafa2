"""A part set to an angle: the stack under a sine bar, and the gauge blocks that make it up.

The stack is the bar's length times the sine of the angle. Near 90 degrees a small error of the stack turns the bar a
lot, so above 45 degrees the other face is set to the complement instead (a published rule of the trade).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from setupsheet.tables import loader

COMPLEMENT_OVER_DEG = 45.0
"""Above this angle the complement is set. Practice example E16: twice the error at 60 of that at 30 degrees."""

BAR_MM = {"mm": 100.0, "inch": 127.0}
"""Length of a sine bar between its rolls: 100 mm, 5 in. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Setting:
    """An angle as it is set: the angle itself (``complement`` tells that it is 90 less the one asked), the stack."""

    angle_deg: float
    complement: bool
    bar_mm: float
    stack_mm: float


def sine_stack(length: float, angle_deg: float) -> float:
    """Return the height of the stack under a sine bar, in the unit of its length."""
    return length * math.sin(math.radians(angle_deg))


def angle_error_deg(length: float, angle_deg: float, stack_error: float) -> float:
    """Return by how much an error of the stack turns the bar at an angle, degrees."""
    share = math.sin(math.radians(angle_deg)) + stack_error / length
    return math.degrees(math.asin(share)) - angle_deg


def setting(angle_deg: float, series: str) -> Setting:
    """Return how an angle between 0 and 90 degrees is set with the sine bar of a series ('mm' or 'inch')."""
    complement = angle_deg > COMPLEMENT_OVER_DEG
    angle = 90.0 - angle_deg if complement else angle_deg
    return Setting(angle, complement, BAR_MM[series], sine_stack(BAR_MM[series], angle))


def block_stack(size: float, blocks: Sequence[float], step: float) -> tuple[float, ...]:
    """Return blocks of a set that add up to a size, the last decimal first; () where the set cannot do it.

    All in one unit. ``step`` is the finest that the set can make up; the size is rounded to it.
    """
    left = round(size / step)
    counts = {round(block / step): block for block in blocks}
    return tuple(counts[count] for count in _fewest(left, sorted(counts, reverse=True)))


def _fewest(left: int, counts: Sequence[int], at_most: int = 6) -> tuple[int, ...]:
    """Return the fewest different counts that add up to ``left``, found by taking away the last decimals first."""
    for number in range(1, at_most + 1):
        found = _of(left, counts, number)
        if found:
            return found
    return ()


def _of(left: int, counts: Sequence[int], number: int) -> tuple[int, ...]:
    """Return ``number`` different counts that add up to ``left``, the one that clears the last decimal first."""
    if number == 1:
        return (left,) if left in counts else ()
    for zeros in (10, 100, 1000):
        if left % zeros:
            fit = [count for count in counts if count % zeros == left % zeros and count < left]
            break
    else:
        fit = []
    for count in fit or [count for count in counts if count < left]:
        rest = _of(left - count, [other for other in counts if other != count], number - 1)
        if rest:
            return (count, *rest)
    return ()


def blocks_of(series: str) -> tuple[float, ...]:
    """Return the usual set of gauge blocks of a series, in its own unit (mm or in)."""
    found: list[float] = []
    for row in loader.rows("gauge_blocks"):
        if row["series"] == series:
            first, step = float(row["first_mm"] or row["first_in"]), float(row["step_mm"] or row["step_in"])
            found += [round(first + step * i, 5) for i in range(int(row["pieces_count"]))]
    return tuple(found)
