"""A hole for a dowel pin: the limits that the pin asks for, and what is said of other ways to seat it.

dowel_of("6 dowel")  -> the pin of 6 mm, m6; its hole is 6 H7
"""

from __future__ import annotations

from setupsheet.part.size import Size
from setupsheet.tables import loader, screws
from setupsheet.tables.screws import Dowel


def dowel_of(text: str) -> Dowel:
    """Return the pin that a callout names ('6 dowel', '1/4 dowel'); raises NotInTables for one that does not exist."""
    return screws.dowel(text.lower().replace("dowel", "").strip())


def hole_size(pin: Dowel) -> Size:
    """Return the size of the hole that a pin is pressed into."""
    fit = "H7" if pin.series == "m6" else ""
    written = f"{pin.nominal_mm:g} {fit}" if fit else f"{pin.pin} dowel"
    return Size(pin.nominal_mm, pin.hole_lower_mm, pin.hole_upper_mm, written, "fit", fit, pin.source)


def seat_words(pin: Dowel) -> list[str]:
    """Return the pin's own limits, and which holes are named for which seat."""
    limits = f"dowel pin {pin.pin} {pin.series}: {pin.pin_lower_mm:.3f} to {pin.pin_upper_mm:.3f} mm"
    kind = "m6 pin" if pin.series == "m6" else "inch"
    return [limits, *(f"{row['case']}: {row['hole']}" for row in loader.rows("dowel_holes") if kind in row["case"])]
