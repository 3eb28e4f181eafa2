"""Drawing signs as strokes: what no font has and no DXF reader can be trusted with.

A sign stands in a line of text on the base line, as high as the capitals, and has an advance like a
letter. ``line`` sets a text in which such signs stand among letters. Proportions: ISO 3098 lettering and
ASME Y14.5 appendix C as multiples of the height h, from memory, not seen in print; the diameter sign
after a textbook (circle as high as a small letter, stroke at 75 degrees).
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

from setupsheet.drawing import lettering
from setupsheet.drawing.ink import Arc, Circle, Fill, Line, Pen, Polyline, Stroke, Text
from setupsheet.plane import Point2, direction, polar

DIAMETER = "⌀"
DEPTH = "↧"
COUNTERBORE = "⌴"
SPOTFACE = "\uf101"
"""A private character; Unicode has none for the spotface."""
COUNTERSINK = "⌵"
SQUARE = "□"
STRAIGHTNESS = "⏤"
FLATNESS = "⏥"
ROUNDNESS = "○"
CYLINDRICITY = "⌭"
LINE_PROFILE = "⌒"
SURFACE_PROFILE = "⌓"
PARALLELISM = "∥"
SQUARENESS = "⟂"
ANGULARITY = "∠"
POSITION = "⌖"
COAXIALITY = "◎"
SYMMETRY = "⌯"
RUN_OUT = "↗"
TOTAL_RUN_OUT = "⌰"
MOST_METAL = "Ⓜ"

Curve = tuple[str, tuple[float, ...]]
"""('path', x, y, ...), ('circle', x, y, r), ('arc', x, y, r, from, to), ('text', x, y, h)."""


@dataclass(frozen=True, slots=True)
class Sign:
    """A sign at height 1 with its left lower corner at the origin: curves, width, and space behind."""

    width: float
    curves: tuple[Curve, ...]
    letters: str = ""
    gap: float = 0.25

    @property
    def advance(self) -> float:
        """Distance to the next letter in heights."""
        return self.width + self.gap


HALO_MM = 0.5
"""White on every side of a text with a halo."""

_BOLD_FROM_MM = 3.0
"""Height from which signs are drawn with the pen of lettering; it would fill smaller ones in."""


def _arrow(x: float, y: float, angle_deg: float) -> Curve:
    """Return an arrowhead 0.4 long whose tip is at x, y; the pen's width fills it."""
    left, right = polar((x, y), 0.4, angle_deg + 167), polar((x, y), 0.4, angle_deg + 193)
    return "path", (x, y, *left, *right, x, y)


def _slash(x: float, y: float, half: float, angle_deg: float) -> Curve:
    return "path", (*polar((x, y), half, angle_deg + 180), *polar((x, y), half, angle_deg))


_LEANING: tuple[Curve, ...] = tuple(_slash(*polar((0.6, 0.5), 0.3, side), 0.55, 60) for side in (150, -30))
_CUP: Curve = ("path", (0.05, 0.85, 0.05, 0.1, 1.65, 0.1, 1.65, 0.85))

SIGNS: dict[str, Sign] = {
    DIAMETER: Sign(0.8, (("circle", (0.4, 0.5, 0.36)), _slash(0.4, 0.5, 0.5 / math.sin(math.radians(75)), 75))),
    DEPTH: Sign(0.8, (("path", (0.05, 0.95, 0.75, 0.95)), ("path", (0.4, 0.95, 0.4, 0.5)), _arrow(0.4, 0.08, -90))),
    COUNTERBORE: Sign(1.7, (_CUP,)),
    SPOTFACE: Sign(1.7, (_CUP, ("text", (0.85, 0.25, 0.55))), "SF"),
    COUNTERSINK: Sign(1.7, (("path", (0.0, 0.93, 0.85, 0.08, 1.7, 0.93)),)),
    SQUARE: Sign(0.9, (("path", (0.05, 0.1, 0.85, 0.1, 0.85, 0.9, 0.05, 0.9, 0.05, 0.1)),)),
    STRAIGHTNESS: Sign(1.2, (("path", (0.0, 0.5, 1.2, 0.5)),)),
    FLATNESS: Sign(1.5, (("path", (0.0, 0.15, 1.05, 0.15, 1.5, 0.85, 0.45, 0.85, 0.0, 0.15)),)),
    ROUNDNESS: Sign(1.0, (("circle", (0.5, 0.5, 0.48)),)),
    CYLINDRICITY: Sign(1.2, (("circle", (0.6, 0.5, 0.3)), *_LEANING)),
    LINE_PROFILE: Sign(1.4, (("arc", (0.7, 0.1, 0.7, 0, 180)),)),
    SURFACE_PROFILE: Sign(1.4, (("arc", (0.7, 0.1, 0.7, 0, 180)), ("path", (0.0, 0.1, 1.4, 0.1)))),
    PARALLELISM: Sign(1.0, (_slash(0.35, 0.5, 0.6, 60), _slash(0.7, 0.5, 0.6, 60))),
    SQUARENESS: Sign(1.2, (("path", (0.0, 0.05, 1.2, 0.05)), ("path", (0.6, 0.05, 0.6, 1.0)))),
    ANGULARITY: Sign(1.2, (("path", (1.2, 0.1, 0.0, 0.1, 1.0, 0.85)),)),
    POSITION: Sign(
        1.2,
        (("circle", (0.6, 0.5, 0.38)), ("path", (0.0, 0.5, 1.2, 0.5)), ("path", (0.6, -0.1, 0.6, 1.1))),
    ),
    COAXIALITY: Sign(1.0, (("circle", (0.5, 0.5, 0.48)), ("circle", (0.5, 0.5, 0.26)))),
    SYMMETRY: Sign(
        1.4,
        (("path", (0.0, 0.5, 1.4, 0.5)), ("path", (0.3, 0.85, 1.1, 0.85)), ("path", (0.3, 0.15, 1.1, 0.15))),
    ),
    RUN_OUT: Sign(0.9, (("path", (0.05, 0.05, 0.8, 0.9)), _arrow(0.88, 0.99, 48.6))),
    TOTAL_RUN_OUT: Sign(
        1.5,
        (
            ("path", (0.05, 0.05, 0.75, 0.05)),
            ("path", (0.05, 0.05, 0.7, 0.9)),
            ("path", (0.75, 0.05, 1.4, 0.9)),
            _arrow(0.77, 0.99, 52.6),
            _arrow(1.47, 0.99, 52.6),
        ),
    ),
    MOST_METAL: Sign(1.4, (("circle", (0.7, 0.5, 0.68)), ("text", (0.7, 0.15, 0.7))), "M"),
}
"""Every sign by its character."""


def sign(name: str, at: Point2, height: float, angle_deg: float = 0.0, pen: Pen | None = None) -> tuple[Stroke, ...]:
    """Return a sign's strokes: ``at`` is its left end on the base line, ``name`` its character.

    Without a ``pen`` the sign is as bold as letters of its height. Raises KeyError for what is no sign.
    """
    shape = SIGNS[name]
    pen = pen or (Pen.TEXT if height >= _BOLD_FROM_MM else Pen.THIN)
    place = _placer(at, height, angle_deg)
    return tuple(_stroke(curve, shape, place, (height, angle_deg), pen) for curve in shape.curves)


@lru_cache(maxsize=8192)
def width(text: str, height: float, bold: bool = False) -> float:
    """Return the width in mm of a line in which signs stand among letters."""
    total = sum(
        SIGNS[piece].advance * height if piece in SIGNS else lettering.width(piece, height, bold)
        for piece in _pieces(text)
    )
    last = text[-1:]
    return total - SIGNS[last].gap * height if last in SIGNS else total


def line(text: Text) -> tuple[Stroke, ...]:
    """Set a text in which signs stand among letters: one Text per run of letters, strokes per sign.

    A halo becomes one white fill behind the whole line.
    """
    pieces = _pieces(text.text)
    if not any(piece in SIGNS for piece in pieces):
        return (text,)
    wide = width(text.text, text.height, text.bold)
    along = {"left": 0.0, "middle": -wide / 2, "right": -wide}[text.anchor]
    strokes: list[Stroke] = [Fill(box(text, HALO_MM), 1.0)] if text.halo else []
    for piece in pieces:
        at = polar(text.at, along, text.angle_deg)
        if piece in SIGNS:
            strokes.extend(sign(piece, at, text.height, text.angle_deg, Pen.TEXT if text.halo else None))
            along += SIGNS[piece].advance * text.height
        else:
            strokes.append(
                Text(at, text.height, piece, "left", text.angle_deg, text.bold, False, text.path),
            )
            along += lettering.width(piece, text.height, text.bold)
    return tuple(strokes)


def box(text: Text, clear: float = 0.0) -> tuple[Point2, Point2, Point2, Point2]:
    """Return the four corners of a line's box on paper, ``clear`` mm larger on every side.

    The box reaches from the base line to the capital height; letters that hang below it (g, p, the
    comma) hang out by up to 0.35 of it. Signs among the letters are counted.
    """
    wide = width(text.text, text.height, text.bold)
    left = {"left": 0.0, "middle": -wide / 2, "right": -wide}[text.anchor] - clear
    right, low, high = left + wide + 2 * clear, -clear, text.height + clear
    place = _placer(text.at, 1.0, text.angle_deg)
    return place(left, low), place(right, low), place(right, high), place(left, high)


def _pieces(text: str) -> list[str]:
    """Cut a text into runs of letters and single signs."""
    pieces: list[str] = []
    for character in text:
        if character in SIGNS or not pieces or pieces[-1] in SIGNS:
            pieces.append(character)
        else:
            pieces[-1] += character
    return [piece if piece in SIGNS else lettering.drawable(piece) for piece in pieces]


def _placer(at: Point2, height: float, angle_deg: float) -> Callable[[float, float], Point2]:
    (ax, ay), (cos, sin) = at, direction(angle_deg)

    def place(x: float, y: float) -> Point2:
        return ax + height * (x * cos - y * sin), ay + height * (x * sin + y * cos)

    return place


def _stroke(
    curve: Curve, shape: Sign, place: Callable[[float, float], Point2], size: tuple[float, float], pen: Pen
) -> Stroke:
    kind, values = curve
    height, angle_deg = size
    if kind == "circle":
        return Circle(pen, place(values[0], values[1]), values[2] * height)
    if kind == "arc":
        start, end = values[3] + angle_deg, values[4] + angle_deg
        return Arc(pen, place(values[0], values[1]), values[2] * height, start, end)
    if kind == "text":
        return Text(place(values[0], values[1]), values[2] * height, shape.letters, "middle", angle_deg)
    points = tuple(place(x, y) for x, y in zip(values[::2], values[1::2], strict=True))
    return Line(pen, *points) if len(points) == 2 else Polyline(pen, points)
