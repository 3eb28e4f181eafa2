"""The texts of a DXF file: coding of signs, and how a dimension's text keeps its live value.

Readers show a dimension's value from the measured points, the length factor and the decimals of the
header. Where that gives the number that is printed, the text carries ``<>`` and stays alive; elsewhere the
number itself is written, so that nobody reads another one.
"""

from __future__ import annotations

import math
import re
from collections import Counter
from dataclasses import dataclass, replace
from decimal import ROUND_HALF_UP, Decimal

from setupsheet.drawing import lettering
from setupsheet.drawing.ink import Dimension, Sheet, Text
from setupsheet.drawing.signs import DIAMETER
from setupsheet.plane import Point2, direction

_CODES = {"Ø": "%%c", DIAMETER: "%%c", "°": "%%d", "±": "%%p"}
_PLAIN = {
    "…": "...",
    "−": "-",
    "–": "-",
    "—": "-",
    "→": "->",
    "≤": "<=",
    "≥": ">=",
    "≈": "~",
    "‘": "'",
    "’": "'",
    "“": '"',
    "”": '"',
}
"""Signs outside Latin-1 that a widely used reader shows as an empty rhombus (seen), and what stands in."""
_STARTS_CODE = re.compile("%[%Ø°±]")
_NUMBER = re.compile(r"\d*[.,]\d+|\d+")


def encoded(text: str) -> str:
    """Return a text as DXF codes it: diameter, degree and plus-minus as codes that every reader knows.

    A per cent sign before another or before a coded sign, and a caret, would start a code: they are written so that
    they do not.
    """
    shown = lettering.drawable(text.replace(DIAMETER, "Ø"))
    if _STARTS_CODE.search(shown):
        shown = shown.replace("%", "%%%")
    shown = shown.replace("^", "^ ")
    for sign, code in {**_CODES, **_PLAIN}.items():
        shown = shown.replace(sign, code)
    return shown


@dataclass(frozen=True, slots=True)
class Numbers:
    """How the header of a file makes the number of a dimension: paper mm times ``factor``, decimals."""

    height: float
    factor: float
    places: int
    is_inch: bool
    decimal_sign: str

    def shown(self, value: float) -> str:
        """Return the number that a reader prints for a length of this value."""
        text = f"{Decimal(repr(round(value, 9))).quantize(Decimal(1).scaleb(-self.places), ROUND_HALF_UP):f}"
        if self.is_inch:
            text = text[1:] if text.startswith("0.") else text
        elif "." in text:
            text = text.rstrip("0").rstrip(".")
        return text.replace(".", self.decimal_sign)


def numbers_of(sheet: Sheet) -> Numbers:
    """Return the text height, length factor and decimals that most dimensions of a sheet have."""
    is_inch = sheet.unit == "inch"
    sign = sheet.fields.get("decimal_sign") or "."
    found = [item for group in sheet.groups for item in group.items if isinstance(item, Dimension)]
    heights = Counter(s.height for item in found for s in item.strokes if isinstance(s, Text))
    height = _most(heights, 3.0 if is_inch else 3.5)
    places = 3
    if is_inch:
        first = (_NUMBER.search(item.text) for item in found if item.kind in {"linear", "aligned"})
        places = int(_most(Counter(float(len(m[0].partition(sign)[2])) for m in first if m), 3.0))
    return Numbers(height, 1 / sheet.scale / (25.4 if is_inch else 1.0), places, is_inch, sign)


def _most(counted: Counter[float], otherwise: float) -> float:
    return max(counted, key=lambda value: (counted[value], value)) if counted else otherwise


def measured(dimension: Dimension) -> float:
    """Return what a reader measures on paper between the points: mm, or degrees for an angle.

    An angle lies between two lines (four points) or two legs from a corner (three points), on the side
    where the dimension line stands.
    """
    first, second = dimension.points[0], dimension.points[1]
    across = second[0] - first[0], second[1] - first[1]
    if dimension.kind == "aligned":
        return math.hypot(*across)
    if dimension.kind != "angular":
        along, up = direction(dimension.angle_deg)
        return abs(across[0] * along + across[1] * up)
    start, end = dimension.points[-2:] if len(dimension.points) == 4 else (first, dimension.points[2])
    other = end[0] - start[0], end[1] - start[1]
    return _angle((first, across), (start, other), dimension.line_at)


def _angle(one: tuple[Point2, Point2], two: tuple[Point2, Point2], seen_from: Point2) -> float:
    """Return the angle in degrees between two lines (point, direction) in the sector of a point."""
    (p, d), (q, e) = one, two
    cross = _cross(d, e)
    if not cross:
        return 0.0
    along = _cross((q[0] - p[0], q[1] - p[1]), e) / cross
    corner = p[0] + along * d[0], p[1] + along * d[1]
    out = seen_from[0] - corner[0], seen_from[1] - corner[1]
    same_side = _cross(out, e) / cross * (_cross(d, out) / cross) >= 0
    dot = (d[0] * e[0] + d[1] * e[1]) * (1 if same_side else -1)
    return math.degrees(math.atan2(abs(cross), dot))


def _cross(a: Point2, b: Point2) -> float:
    return a[0] * b[1] - a[1] * b[0]


def dimension_text(dimension: Dimension, numbers: Numbers, scale: float) -> str:
    """Return the text of a DIMENSION entity, with ``<>`` where the live value prints the same number."""
    text = encoded(dimension.text)
    if dimension.kind == "angular":
        number = replace(numbers, is_inch=False, places=3).shown(measured(dimension)) + "%%d"
    elif math.isclose(dimension.scale, scale):
        number = numbers.shown(measured(dimension) * numbers.factor)
    else:
        return text
    match = _NUMBER.search(text)
    if not match or not text[match.start() :].startswith(number):
        return text
    end = match.start() + len(number)
    if text[end : end + 1].isdigit() or (text[end : end + 1] in {".", ","} and text[end + 1 : end + 2].isdigit()):
        return text
    return f"{text[: match.start()]}<>{text[end:]}"
