"""Surface texture and edge symbols as strokes: a check mark with its value, an angle with its limit.

Every face of our parts is cut, so the check mark is closed to a triangle: removal of metal is required. ISO sets
the value under a bar at the long leg, ASME Y14.36 at the left over the short one. Heights of the legs (1.4 and 3
times the lettering) are from memory of the annex of ISO 1302, not seen in print; its successor ISO 21920-1 adds
a mark that was not seen in print and is not drawn. The edge symbol is that of ISO 13715 as textbooks show it.
"""

from __future__ import annotations

import math
import re

from setupsheet.drawing import signs
from setupsheet.drawing.ink import Line, Pen, Polyline, Stroke, Text
from setupsheet.length import Unit
from setupsheet.plane import Point2

_TEXTURE = re.compile(r"^\s*(?P<name>R(?:a|z|max))\s?(?P<value>\d+(?:[.,]\d+)?)(?P<rest>.*)$")
_SHORT, _LONG = 1.4, 3.0
"""Heights of the two legs over the height of the lettering."""
_LEAN = 1.0 / math.tan(math.radians(60.0))
_SPACE = 0.35


def is_texture(text: str) -> bool:
    """Tell whether a finish is a value of surface texture, and not words ('as sawn')."""
    return bool(_TEXTURE.match(text))


def shown(finish: str, iso: bool, unit: Unit, decimal_sign: str) -> str:
    """Return the text at a symbol: 'Ra 3.2'; on inch drawings with its unit, since others count in microinches."""
    match = _TEXTURE.match(finish)
    if match is None:
        return finish
    value, rest = match["value"].replace(",", ".").replace(".", decimal_sign), match["rest"].rstrip()
    if unit is Unit.INCH and not rest.strip():
        rest = " µm"
    return f"{match['name']} {value}{rest}" if iso or match["name"] != "Ra" else f"{value}{rest}"


def height(h: float) -> float:
    """Return how high a symbol stands with lettering of height ``h``."""
    return _LONG * h


def width(text: str, h: float, iso: bool) -> float:
    """Return how wide a symbol is with its value."""
    wide = signs.width(text, h)
    if iso:
        return (_SHORT + _LONG) * _LEAN * h + _SPACE * h + wide
    return max(_SHORT * _LEAN * h, wide + 0.1 * h - _SHORT * _LEAN * h) + _LONG * _LEAN * h


def symbol(text: str, left: Point2, h: float, iso: bool) -> list[Stroke]:
    """Return the symbol with its value; ``left`` is the left end of the line that it stands on."""
    x, y = left
    wide = signs.width(text, h)
    short, long_ = _SHORT * h, _LONG * h
    foot = x + (short * _LEAN if iso else max(short * _LEAN, wide + 0.1 * h - short * _LEAN))
    knee = (foot - short * _LEAN, y + short)
    end = (foot + long_ * _LEAN, y + long_)
    strokes: list[Stroke] = [
        Polyline(Pen.THIN, (knee, (foot, y), end)),
        Line(Pen.THIN, knee, (foot + short * _LEAN, y + short)),
    ]
    if iso:
        at = end[0] + _SPACE * h
        strokes.append(Line(Pen.THIN, end, (at + wide, end[1])))
        return [*strokes, *signs.line(Text((at, end[1] - 1.35 * h), h, text))]
    return [*strokes, *signs.line(Text((foot + short * _LEAN - 0.1 * h, y + short + 0.35 * h), h, text, "right"))]


def edge_symbol(text: str, left: Point2, h: float) -> list[Stroke]:
    """Return the symbol for outside edges: the angle with its limit, led to the corner of a solid.

    ``left`` is the lower left end of the drawn corner; the whole is 3 h high.
    """
    x, y = left
    corner = (x + 1.3 * h, y + 1.0 * h)
    foot = (corner[0] + 0.9 * h, corner[1] + 0.5 * h)
    return [
        Polyline(Pen.VISIBLE, ((x, corner[1]), corner, (corner[0], y))),
        Line(Pen.THIN, corner, foot),
        Polyline(Pen.THIN, ((foot[0], foot[1] + 1.5 * h), foot, (foot[0] + 1.5 * h, foot[1]))),
        *signs.line(Text((foot[0] + 0.4 * h, foot[1] + 0.4 * h), h, text)),
    ]
