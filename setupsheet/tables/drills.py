"""Twist drills as they are sold: fractions, numbers, letters and metric sizes; their points.

named("no. 7")                -> (5.1054, "no. 7")
nearest(5.2, "metric")        -> (5.2, "5.2 mm")
point_height_mm(10.0)         -> 3.004 (118 degrees)
"""

from __future__ import annotations

import functools
import math
import re
from typing import NamedTuple

from setupsheet.pattern import Pattern
from setupsheet.tables import loader
from setupsheet.tables.unknown import NotInTables

INCH_SERIES = ("fraction", "number", "letter")


class DrillSize(NamedTuple):
    """One size that is sold; ``label`` is how it is printed and asked for ('no. 7', 'F', '1/4', '6.5 mm')."""

    series: str
    label: str
    diameter_mm: float
    source: str
    status: str


@functools.cache
def sizes() -> tuple[DrillSize, ...]:
    """Return every standard size, thinnest first (fractions before numbers of one size)."""
    found = [
        DrillSize(row["series"], _label(row), float(row["diameter_mm"]), row["source"], row["status"])
        for row in loader.rows("drills")
    ]
    return tuple(sorted(found, key=lambda size: (size.diameter_mm, size.series, size.label)))


def _label(row: loader.Row) -> str:
    if row["series"] == "number":
        return f"no. {row['name'].lstrip('#')}"
    return f"{row['name']} mm" if row["series"] == "metric" else row["name"]


_NUMBER = Pattern(r"^(?:#|no\.?|number)\s*(\d+)$", re.IGNORECASE)
_LETTER = Pattern(r"^(?:letter\s+)?([A-Z])$", re.IGNORECASE)
_FRACTION = Pattern(r"^(?:(\d+)[- ])?(\d+)/(\d+)\s*(?:in|\")?$")
_METRIC = Pattern(r"^(\d+\.?\d*|\.\d+)\s*(?:mm)?$")


def named(text: str) -> tuple[float, str]:
    """Return diameter in mm and label of the drill that ``text`` names; raises NotInTables."""
    size = find(text)
    return size.diameter_mm, size.label


def find(text: str) -> DrillSize:
    """Return the standard drill that ``text`` names ('#7', 'no. 7', 'F', '1/4', '6.5 mm'); raises NotInTables."""
    words = text.strip()
    if match := _NUMBER.match(words):
        return _labelled(f"no. {int(match[1])}", text, "number drills run from no. 1 to no. 80", "no. 80")
    if match := _LETTER.match(words):
        return _labelled(match[1].upper(), text, "letter drills run from A to Z", "")
    if match := _FRACTION.match(words):
        return _fraction(match, text)
    if match := _METRIC.match(words):
        mm = float(match[1])
        near = nearest(mm, "metric")
        return _labelled(
            f"{match[1].rstrip('.')} mm" if near[0] != mm else near[1], text, "no such drill is sold", near[1]
        )
    raise NotInTables(f"{text!r} names no drill", text, "no. 7, F, 1/4 or 6.5 mm")


def _fraction(match: re.Match[str], text: str) -> DrillSize:
    whole, over, under = int(match[1] or 0), int(match[2]), int(match[3])
    if under == 0:
        raise NotInTables("a fraction cannot have 0 below the line", text, "1/64 to 1 in by 64ths")
    inch = whole + over / under
    near, label = nearest(inch * 25.4, "fraction")
    if abs(near - inch * 25.4) > 1e-6:
        raise NotInTables("fractional drills run by 64ths from 1/64 to 1 in", text, label)
    return _by_label()[label]


def _labelled(label: str, text: str, why: str, near: str) -> DrillSize:
    size = _by_label().get(label)
    if size is None:
        raise NotInTables(f"{text!r}: {why}", text, near)
    return size


@functools.cache
def _by_label() -> dict[str, DrillSize]:
    return {size.label: size for size in sizes()}


def nearest(mm: float, series: str) -> tuple[float, str]:
    """Return the standard size nearest to ``mm`` in a series; the thinner one of two equally near.

    ``series`` is one of the table's (fraction, number, letter, metric), ``inch`` for the first three or ``any``.
    """
    wanted = [size for size in sizes() if in_series(size, series)]
    mm = min(mm, max(size.diameter_mm for size in wanted))  # far above all, every distance is the same float
    best = min(wanted, key=lambda size: (abs(size.diameter_mm - mm), size.diameter_mm, size.series))
    return best.diameter_mm, best.label


def in_series(size: DrillSize, series: str) -> bool:
    """Tell whether a size belongs to a series, ``inch`` or ``any``."""
    return series in ("any", size.series) or (series == "inch" and size.series in INCH_SERIES)


def point_height_mm(diameter: float, angle: float = 118.0) -> float:
    """Return how far a point reaches below the full diameter (mm); ``angle`` is the included one, in degrees."""
    return diameter / 2.0 / math.tan(math.radians(angle) / 2.0)
