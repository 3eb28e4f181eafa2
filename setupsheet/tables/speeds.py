"""Cutting speeds to start with, and the spindle speed that a machine has for them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from setupsheet.tables import loader
from setupsheet.tables.near import nearest
from setupsheet.tables.unknown import NotInTables

SMALL_MM = 10.0
"""Up to this diameter a cutter may turn faster than its ideal, inside the printed range (a rule of this project)."""

HELD_IN_CHUCK = ("drill", "deep drill", "ream", "spot", "centre drill", "countersink", "counterbore")
"""Operations whose cutter a drill chuck holds; an end mill sits in a collet, a tap is turned by hand."""

_NOISE = 1e-9
_ENDS = ("start", "low", "high")


class SpeedRange(NamedTuple):
    """A cutting speed to start with and the range it was chosen in, m/min."""

    start_m_min: float
    low_m_min: float
    high_m_min: float
    source: str
    status: str


class Spindle(NamedTuple):
    """The speeds of a machine's spindle: steps, or two ends where it is ``stepless``; () is any machine.

    ``most_rpm`` is what the drill chuck or the boring head bears that holds the cutter; 0 where nobody says.
    """

    speeds_rpm: tuple[int, ...] = ()
    stepless: bool = True
    most_rpm: int = 0


ANY_SPINDLE = Spindle()
"""Where no machine is named: the ideal speed, rounded down."""


class SpindleSpeed(NamedTuple):
    """A speed to set. ``too_fast`` where even the lowest speed is above what the cutter should turn.

    ``held_back`` where the cutter may turn faster and what holds it may not.
    """

    rpm: int
    ideal_rpm: float
    cutting_speed_m_min: float
    too_fast: bool
    held_back: bool = False


def operations() -> tuple[str, ...]:
    """Return the operations that have a cutting speed."""
    return tuple(row["operation"] for row in loader.rows("speed_rules"))


def start(group: str, operation: str, tool: str = "hss") -> SpeedRange:
    """Return the cutting speed for a group of materials, an operation and a cutter material; raises NotInTables.

    A cutter material without a figure of its own gets that of HSS, which never is too fast for carbide;
    the status says so.
    """
    rule = _rule(operation)
    row, borrowed = _row(group, rule["like"], tool.lower())
    first, low, high = (round(float(row[f"{end}_m_min"]) * float(rule[f"{end}_factor"]), 2) for end in _ENDS)
    sources, states = [row["source"]], [row["status"]]
    if rule["like"] != operation:
        sources.append(rule["source"])
        states.append(rule["status"])
    if borrowed:
        states.append(f"no figure for {tool}: that of HSS")
    return SpeedRange(first, low, high, "; ".join(sources), "; ".join(states))


def rpm(cutting_speed_m_min: float, diameter_mm: float) -> float:
    """Return n = 1000 v / (pi D) in rpm (Army subcourse OD1645); 0 for no diameter."""
    return 1000 * cutting_speed_m_min / (math.pi * diameter_mm) if diameter_mm > 0 else 0.0


def cutting_speed_m_min(spindle_rpm: float, diameter_mm: float) -> float:
    """Return v = pi D n / 1000 in m/min."""
    return math.pi * diameter_mm * spindle_rpm / 1000


def holder_most_rpm(holder: str) -> int:
    """Return the most that a holder is turned at where its maker's figure is not known; 0 for one that bears all."""
    rows = [row for row in loader.rows("holder_speeds") if row["holder"] == holder]
    return int(rows[0]["greatest_rpm"]) if rows else 0


def pick(speed: SpeedRange, diameter_mm: float, operation: str, spindle: Spindle) -> SpindleSpeed:
    """Return the speed to set on this machine for a cutter of this diameter.

    At or below the ideal for reamers, taps, countersinks, counterbores, the boring head and every cutter
    over 10 mm. A smaller one takes the nearer of the speeds below and above, the one above only inside
    the printed range. Never above what the holder bears, unless the machine has nothing slower. Raises
    NotInTables for a diameter of nothing.
    """
    if not 0 < diameter_mm < math.inf:
        raise NotInTables("a cutter needs a diameter", f"{diameter_mm:g} mm")
    ideal = rpm(speed.start_m_min, diameter_mm)
    careful = _rule(operation)["not_above_ideal"] == "yes" or diameter_mm > SMALL_MM
    top = ideal if careful else rpm(speed.high_m_min, diameter_mm)
    free = _set(ideal, top, spindle)
    most = spindle.most_rpm or math.inf
    chosen = free if free <= most else _set(min(ideal, most), min(top, most), spindle)
    too_fast = chosen > min(top, most) * (1 + _NOISE)
    return SpindleSpeed(chosen, ideal, cutting_speed_m_min(chosen, diameter_mm), too_fast, free > most)


def _set(ideal: float, top: float, spindle: Spindle) -> int:
    """Return the speed of the machine for an ideal one, at most ``top`` if it can."""
    if spindle.speeds_rpm and not spindle.stepless:
        return _step(ideal, top, spindle.speeds_rpm)
    return _stepless(ideal, spindle.speeds_rpm)


def spindle_rpm(speed: SpeedRange, diameter_mm: float, operation: str, spindle: Spindle) -> int:
    """Return only the number that ``pick`` chooses."""
    return pick(speed, diameter_mm, operation, spindle).rpm


def _step(ideal: float, top: float, speeds_rpm: Sequence[int]) -> int:
    """Return the step at or below ``top`` that is nearest to the ideal by ratio; the lowest if none is."""
    fits = [step for step in speeds_rpm if step <= top * (1 + _NOISE)]
    if not fits:
        return min(speeds_rpm)
    return min(fits, key=lambda step: (abs(math.log(step / ideal)), step))


def _stepless(ideal: float, ends_rpm: Sequence[int]) -> int:
    """Return the ideal rounded down to two figures, as one sets a dial, within the machine's ends if known."""
    step = 10 ** max(0, math.floor(math.log10(ideal)) - 1) if ideal >= 1 else 1
    rounded = max(1, math.floor(ideal / step + _NOISE) * step)
    if not ends_rpm:
        return rounded
    low, high = min(ends_rpm), max(ends_rpm)
    return min(max(rounded, low), high)


def _rule(operation: str) -> loader.Row:
    for row in loader.rows("speed_rules"):
        if row["operation"] == operation:
            return row
    raise NotInTables(f"no cutting speed for '{operation}'", operation, nearest(operation, operations()))


def _row(group: str, operation: str, tool: str) -> tuple[loader.Row, bool]:
    """Return the row of the table and whether it is that of HSS for want of another."""
    table = [row for row in loader.rows("speeds") if row["group"] == group]
    if not table:
        known = dict.fromkeys(row["group"] for row in loader.rows("speeds"))
        raise NotInTables(f"no cutting speeds for '{group}'", group, nearest(group, known))
    tools = dict.fromkeys(row["tool"] for row in loader.rows("speeds"))
    if tool not in tools:
        raise NotInTables(f"no cutting speeds for cutters of '{tool}'", tool, nearest(tool, tools))
    found = {row["tool"]: row for row in table if row["operation"] == operation}
    return (found[tool], False) if tool in found else (found["hss"], True)
