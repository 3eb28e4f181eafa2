"""Lengths: exact, in millimetres, together with the text that the author wrote.

A ``Length`` keeps ``12.70`` as 12.70 and ``3/8 in`` as exactly 9.525 mm. Everything that a person
reads at the machine is rounded here: to the step of a readout or the division of a dial.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from enum import StrEnum
from fractions import Fraction

from setupsheet.pattern import Pattern

MM_PER_INCH = Fraction(254, 10)
"""Exact by definition (international inch, 1959)."""

_NOISE = 1e-7
"""mm; float noise from the arithmetic of a plan, far below any readout's step."""


class Unit(StrEnum):
    """A unit of length that a spec or a machine may use."""

    MM = "mm"
    INCH = "inch"

    @property
    def mm(self) -> Fraction:
        """Millimetres in one of this unit, exact."""
        return Fraction(1) if self is Unit.MM else MM_PER_INCH

    @property
    def short(self) -> str:
        """The unit as written behind a number."""
        return "mm" if self is Unit.MM else "in"


@dataclass(frozen=True, slots=True)
class Length:
    """An exact length in mm, the text it was written as ('' if worked out), and that text's unit."""

    exact_mm: Fraction
    written: str = ""
    unit: Unit = Unit.MM

    @property
    def mm(self) -> float:
        """The length in millimetres as a float, for the kernel and for plan.json."""
        return float(self.exact_mm)

    def text(self, places: int | None = None) -> str:
        """Return the length as written; a worked-out one with ``places`` (default 3 mm, 4 inch)."""
        if self.written and places is None:
            return self.written
        return plain(self.exact_mm / self.unit.mm, default_places(self.unit) if places is None else places)


_NUMBER = r"(?:\d+\.\d*|\.\d+|\d+)"
_LENGTH = Pattern(
    rf"^\s*(?P<sign>[+-])?\s*(?:(?P<whole>\d+)[- ](?P<wn>\d+)/(?P<wd>\d+)|(?P<n>\d+)/(?P<d>\d+)|(?P<dec>{_NUMBER}))"
    r"\s*(?P<unit>mm|in|inch|\")?\s*$"
)


def parse(text: str, unit: Unit) -> Length:
    """Read ``12.70``, ``6.5 mm``, ``3/8 in``, ``1-1/2``; ``unit`` holds where none is written.

    Raises ValueError with a sentence that says what is wrong.
    """
    match = _LENGTH.match(text)
    if not match:
        raise ValueError(f"{text!r} is not a length")
    number = _number(match)
    if match["sign"] == "-":
        number = -number
    written_unit = unit if not match["unit"] else Unit.MM if match["unit"] == "mm" else Unit.INCH
    return Length(number * written_unit.mm, text.strip(), written_unit)


def _number(match: re.Match[str]) -> Fraction:
    if match["dec"]:
        return Fraction(match["dec"] if match["dec"][-1] != "." else match["dec"] + "0")
    over, under = (match["wn"], match["wd"]) if match["whole"] else (match["n"], match["d"])
    if int(under) == 0:
        raise ValueError("a fraction cannot have 0 below the line")
    return int(match["whole"] or 0) + Fraction(int(over), int(under))


def default_places(unit: Unit) -> int:
    """Decimal places that a worked-out length of this unit is shown with at most."""
    return 3 if unit is Unit.MM else 4


def plain(value: Fraction | float, places: int) -> str:
    """Return ``value`` rounded half up to at most ``places``, without trailing zeros, never -0."""
    text = fixed(value, places)
    return text.rstrip("0").rstrip(".") if "." in text else text


def fixed(value: Fraction | float, places: int, *, sign: bool = False) -> str:
    """Return ``value`` with exactly ``places`` decimals, rounded half up, never -0."""
    exact = value if isinstance(value, Fraction) else Fraction(value).limit_denominator(10**9)
    digits = Decimal(exact.numerator) / Decimal(exact.denominator)
    rounded = digits.quantize(Decimal(1).scaleb(-places), rounding=ROUND_HALF_UP)
    text = f"{abs(rounded):.{places}f}"
    if rounded < 0:
        return "-" + text
    return "+" + text if sign and rounded > 0 else text


def to_step(value_mm: float, step_mm: float) -> float:
    """Round to the nearest multiple of a readout's step or a dial's division, half away from 0."""
    count = math.floor(abs(value_mm) / step_mm + 0.5 + _NOISE)
    return (count if value_mm >= 0 else -count) * step_mm


def places_for(step: float) -> int:
    """Return the decimals needed to show every multiple of ``step`` (0.005 -> 3, 0.001 -> 3)."""
    places = 0
    while places < 6 and abs(step * 10**places - round(step * 10**places)) > 1e-6:
        places += 1
    return places
