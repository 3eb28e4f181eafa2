"""Linear dimensions outside a view: a size between two points, on a line of its own.

ISO: the text stands above the line and runs along it; ASME: the text is level, in a gap of the line.
When the text and two arrows do not fit between, the arrows stand outside and the text beside them.
"""

from __future__ import annotations

from dataclasses import dataclass

from setupsheet.drawing import signs
from setupsheet.drawing.ink import Dimension, Line, Pen, Stroke, Text
from setupsheet.drawing.needs import Need, given
from setupsheet.drawing.profile import Profile
from setupsheet.drawing.sides import Side
from setupsheet.drawing.strokes import arrowhead
from setupsheet.plane import Point2


@dataclass(frozen=True, slots=True)
class Linear:
    """A size along the ruler of a side: the two measured paper points, text, value in drawing units."""

    a: Point2
    b: Point2
    text: str
    value: float
    needs: tuple[Need, ...]
    before: bool = False
    """Whether a value that does not fit between the ends stands before them and not after them."""


def linear_dimension(size: Linear, side: Side, at: float, scale: float, profile: Profile) -> Dimension:
    """Return the dimension with its line at distance ``at`` from the outline."""
    low, high = sorted((size.a, size.b), key=side.ruler)
    s0, s1 = side.ruler(low), side.ruler(high)
    strokes: list[Stroke] = [
        Line(Pen.DIM, side.at(s, profile.gap_mm - side.depth(p)), side.at(s, at + profile.past_mm))
        for s, p in ((s0, low), (s1, high))
    ]
    strokes += _between(size, (s0, s1), side, at, profile)
    first = size.needs[0]
    return Dimension(
        "linear" if _fits(size, s1 - s0, side, profile) else "drawn",
        first.feature,
        first.what,
        size.value,
        size.text,
        (low, high),
        side.at(s0, at),
        0.0 if side.runs_across else 90.0,
        tuple(strokes),
        scale,
        given(size.needs),
    )


def reach(size: Linear, side: Side, profile: Profile) -> Point2:
    """Return from where to where the line reaches along the ruler, with a value that stands beside it."""
    s0, s1 = sorted((side.ruler(size.a), side.ruler(size.b)))
    if _fits(size, s1 - s0, side, profile):
        return s0, s1
    out = 2 * profile.arrow_mm
    far = out + _along(size.text, side, profile) + 2.0
    return (s0 - far, s1 + out) if size.before else (s0 - out, s1 + far)


def _between(size: Linear, ends: Point2, side: Side, at: float, profile: Profile) -> list[Stroke]:
    s0, s1 = ends
    wide = _along(size.text, side, profile)
    if _fits(size, s1 - s0, side, profile):
        return [
            *_shaft(ends, (s0 + s1) / 2, wide, side, at, profile),
            *_heads(ends, side, at, profile, True),
            *_text(size.text, (s0 + s1) / 2, side, at, profile),
        ]
    out = 2 * profile.arrow_mm
    beside = out + wide / 2 + 1.0
    tail = 0.0 if profile.level_text else wide + 1.5
    low, high = s0 - out - (tail if size.before else 0.0), s1 + out + (0.0 if size.before else tail)
    strokes: list[Stroke] = [
        Line(Pen.DIM, side.at(a, at), side.at(b, at)) for a, b in ((low, s0), (s0, s1), (s1, high))
    ]
    middle = s0 - beside if size.before else s1 + beside
    return [*strokes, *_heads(ends, side, at, profile, False), *_text(size.text, middle, side, at, profile)]


def _fits(size: Linear, long_: float, side: Side, profile: Profile) -> bool:
    """Tell whether text and arrows stand between the ends; else the dimension is strokes for every reader.

    Programs that draw a dimension afresh from its points put a value that stands beside it elsewhere.
    """
    return _along(size.text, side, profile) + 1.0 <= long_ - 2 * profile.arrow_mm


def _along(text: str, side: Side, profile: Profile) -> float:
    if profile.level_text and not side.runs_across:
        return profile.text_mm
    return signs.width(text, profile.text_mm)


def _shaft(ends: Point2, middle: float, wide: float, side: Side, at: float, profile: Profile) -> list[Stroke]:
    if not profile.level_text:
        return [Line(Pen.DIM, side.at(ends[0], at), side.at(ends[1], at))]
    half = wide / 2 + profile.above_mm
    return [
        Line(Pen.DIM, side.at(ends[0], at), side.at(middle - half, at)),
        Line(Pen.DIM, side.at(middle + half, at), side.at(ends[1], at)),
    ]


def _heads(ends: Point2, side: Side, at: float, profile: Profile, inner: bool) -> list[Stroke]:
    low = side.along_deg + (180.0 if inner else 0.0)
    return [
        arrowhead(side.at(ends[0], at), low, profile.arrow_mm),
        arrowhead(side.at(ends[1], at), low + 180.0, profile.arrow_mm),
    ]


def _text(text: str, s: float, side: Side, at: float, profile: Profile) -> tuple[Stroke, ...]:
    """Return the text: above its line when it runs along it, else level about the line's middle."""
    foot, h = side.at(s, at), profile.text_mm
    if profile.level_text:
        return signs.line(Text((foot[0], foot[1] - h / 2), h, text, "middle"))
    if side.runs_across:
        return signs.line(Text((foot[0], foot[1] + profile.above_mm), h, text, "middle"))
    return signs.line(Text((foot[0] - profile.above_mm, foot[1]), h, text, "middle", 90.0))
