"""Angles as a rotary table shows them: in its own unit, counted its own way, as turns of its handwheel.

An angle of the plan is where the cutter stands about the table's axis as seen from above, anticlockwise from X.
The cutter comes there when the table has turned clockwise by it.
"""

from __future__ import annotations

import math

from setupsheet.length import fixed, places_for
from setupsheet.part.shop import RotaryTable

_PARTS = {"deg": 1, "min": 60, "sec": 3600}
WHOLE_DEG = 360.0


def settle(table: RotaryTable, angle_deg: float) -> float:
    """Return the nearest angle that the table can be set to."""
    return round(angle_deg / table.step_deg) * table.step_deg


def within(table: RotaryTable, low_deg: float, high_deg: float) -> tuple[float, float]:
    """Return the widest arc between two angles whose ends the table can be set to: never past either."""
    first, last = math.ceil(low_deg / table.step_deg - 1e-6), math.floor(high_deg / table.step_deg + 1e-6)
    return first * table.step_deg, last * table.step_deg


def shown(table: RotaryTable, angle_deg: float) -> str:
    """Return what the table reads when the cutter stands at an angle: 12°30', 12.5°."""
    reading = (angle_deg * table.counts) % WHOLE_DEG
    return text(table, 0.0 if WHOLE_DEG - reading < table.step_deg / 2 else reading)


def text(table: RotaryTable, degrees: float) -> str:
    """Return an angle of 0 or more in the table's own unit."""
    if table.unit == "deg":
        return f"{fixed(degrees, places_for(table.step_deg))}°"
    count = round(degrees * _PARTS[table.unit])
    if table.unit == "min":
        return f"{count // 60}°{count % 60:02d}'"
    return f"{count // 3600}°{count // 60 % 60:02d}'{count % 60:02d}\""


def turns_text(table: RotaryTable, degrees: float) -> str:
    """Return an angle as whole turns of the handwheel and a rest, '22 turns + 2°'; '' where the ratio is not told."""
    if not table.turns:
        return ""
    a_turn = WHOLE_DEG / table.turns
    whole = math.floor(degrees / a_turn + 1e-9)
    rest = degrees - whole * a_turn
    said = f"{whole} turn{'' if whole == 1 else 's'}"
    if rest < table.step_deg / 2:
        return said
    return f"{said} + {text(table, rest)}" if whole else text(table, rest)


def chord(radius_mm: float, degrees: float) -> float:
    """Return the distance between two places on a circle that lie an angle apart."""
    return 2 * radius_mm * math.sin(math.radians(degrees) / 2)
