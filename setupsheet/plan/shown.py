"""Numbers as the machine counts: the texts of a digital readout or of handwheel dials.

A readout shows every position with its sign and the decimals of its step. Dials are read as whole turns
and a rest ('12 + .034'), counted from an ``offset_mm`` that makes every reading of a setup positive.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from setupsheet.length import fixed, places_for, to_step
from setupsheet.part.shop import Axis

AWAY = 0.7
"""Farthest that a stop is kept off a wall, in steps: half a step in X and half in Y make 0.707 of one."""

AWAY_MM = 0.002
"""So much farther it may be, which nobody measures: a readout's step is smaller than both together."""

_MM = {"mm": 1.0, "inch": 25.4}


@dataclass(frozen=True, slots=True)
class Scale:
    """One axis of a machine in one setup: how it is read, and the dial's reading at zero."""

    axis: Axis
    offset_mm: float = 0.0

    @property
    def step_mm(self) -> float:
        """Smallest step that the reader can set."""
        return self.axis.step_mm

    @property
    def explained_mm(self) -> float:
        """How much metal may be left on a wall because stops are rounded."""
        return AWAY * self.axis.step_mm + AWAY_MM

    def settle(self, value_mm: float) -> float:
        """Return the nearest value that the axis can show."""
        return to_step(value_mm, self.axis.step_mm)

    def settle_away(self, value_mm: float, stands_at_mm: float) -> float:
        """Return the value that the axis can show on the side away from what must stand, if that is near enough.

        Farther away than rounding explains (``AWAY`` of a step, and ``AWAY_MM``) is metal left standing; the nearest
        value then takes less than a third of a division off what stands, and coarse dials are what does that.
        """
        nearest = self.settle(value_mm)
        if abs(nearest - value_mm) < 1e-7:
            return nearest
        count = value_mm / self.axis.step_mm
        away = math.floor(count) if stands_at_mm > value_mm else math.ceil(count)
        return away * self.axis.step_mm if abs(away - count) * self.axis.step_mm <= self.explained_mm else nearest

    def text(self, value_mm: float) -> str:
        """Return what the reader sees when the spindle is at ``value_mm``."""
        reading = value_mm * self.axis.counts
        unit = _MM[self.axis.unit]
        places = places_for(self.axis.step_mm / unit)
        if self.axis.kind == "readout":
            return _signed(reading / unit, places)
        return self._dial(reading + self.offset_mm, unit, places)

    def _dial(self, reading: float, unit: float, places: int) -> str:
        turns = math.floor(reading / self.axis.per_turn_mm + 1e-6)
        rest = fixed(abs(reading - turns * self.axis.per_turn_mm) / unit, places)
        return f"{turns} + {rest.removeprefix('0') if self.axis.unit == 'inch' else rest}"

    def plain(self, value_mm: float) -> str:
        """Return the position as a signed length in the axis' unit, without turns."""
        unit = _MM[self.axis.unit]
        return _signed(value_mm / unit, places_for(self.axis.step_mm / unit))


def _signed(value: float, places: int) -> str:
    text = fixed(value, places)
    return text if text.startswith("-") or not float(text) else "+" + text


def offset_for(axis: Axis, least_mm: float, most_mm: float) -> float:
    """Return whole turns, in mm, that make every dial reading between two positions positive."""
    if axis.kind == "readout":
        return 0.0
    lowest = min(least_mm * axis.counts, most_mm * axis.counts)
    return max(0, math.ceil(-lowest / axis.per_turn_mm - 1e-9)) * axis.per_turn_mm
