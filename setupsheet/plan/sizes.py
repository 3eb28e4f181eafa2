"""Sizes as they are printed on the sheets: in the part's unit, with as many digits as the limits need."""

from __future__ import annotations

from setupsheet.length import Unit, fixed, plain
from setupsheet.part.feature import Size

_PLACES = {Unit.MM: 2, Unit.INCH: 3}


def between(lower_mm: float, upper_mm: float, unit: Unit) -> str:
    """Return limits as '11.95 to 12.05'; more digits where two would not tell them apart exactly."""
    places = max(places_for(lower_mm, unit), places_for(upper_mm, unit))
    scale = float(unit.mm)
    return f"{fixed(lower_mm / scale, places)} to {fixed(upper_mm / scale, places)}"


def places_for(value_mm: float, unit: Unit) -> int:
    """Return the decimals that show a size exactly, from two (inch: three) to one more digit than that."""
    least = _PLACES[unit]
    value = value_mm / float(unit.mm)
    return next((p for p in (least, least + 1) if abs(value - round(value, p)) < 1e-6), least + 1)


def length(value_mm: float, unit: Unit) -> str:
    """Return a length without trailing zeros in the part's unit."""
    return plain(value_mm / float(unit.mm), _PLACES[unit] + 1)


def with_unit(value_mm: float, unit: Unit) -> str:
    """Return a length with its unit for a sentence: '0.01 mm', '.0004' as '0.0004 inch'."""
    return f"{length(value_mm, unit)} {unit.value}"


def limits(size: Size, unit: Unit) -> str:
    """Return the limits of a size as printed."""
    return between(size.lower_mm, size.upper_mm, unit)
