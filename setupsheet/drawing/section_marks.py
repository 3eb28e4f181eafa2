"""The marks of a cutting plane in the view that it cuts: ends, steps, arrows and letters.

ISO: wide ends and corners, arrows whose tips touch the line from the reader's side. ASME: a wide line with
its ends bent in the direction of sight, arrows at their ends. The ends stand outside all dimensions.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

from setupsheet.drawing import signs
from setupsheet.drawing.boxes import Rect, join
from setupsheet.drawing.centres import centre_line
from setupsheet.drawing.ink import Line, Pen, Stroke, Text
from setupsheet.drawing.profile import Profile
from setupsheet.drawing.strokes import arrowhead, items_box
from setupsheet.plane import Point2, angle_of, distance, polar

_END_MM = 8.0
_CORNER_MM = 4.0
_CLEAR_MM = 3.0
_BESIDE_MM = 2.0
"""Clear room beside the marks of an end."""
_RIM_MM = 3.0
"""How far the chain line runs past the outline."""


@dataclass(frozen=True, slots=True)
class Mark:
    """A cutting plane as the view that it cuts shows it: path in view mm, direction of sight, letter.

    A path of one point is no cut: an arrow of sight for a view that stands out of line.
    """

    path: tuple[Point2, ...]
    sight_deg: float
    letter: str


def sight_arrow(at: Point2, mark: Mark, taken: Rect, profile: Profile) -> list[Stroke]:
    """Return the arrow and the letter of a view that stands out of line (ISO 128-3), outside of ``taken``."""
    (x0, y0), (x1, y1) = taken
    sight, long_ = mark.sight_deg, 1.5 * profile.arrow_mm
    if abs(sight - 90) < 1 or abs(sight - 270) < 1:
        tip = (at[0], y0 - _CLEAR_MM) if sight < 180 else (at[0], y1 + _CLEAR_MM)
        beside = (tip[0] + profile.letter_mm, tip[1])
    else:
        tip = (x0 - _CLEAR_MM, at[1]) if sight < 90 else (x1 + _CLEAR_MM, at[1])
        beside = (tip[0], tip[1] + profile.letter_mm)
    tail = polar(tip, -2 * long_, sight)
    middle = (beside[0] + tail[0] - tip[0], beside[1] + (tail[1] - tip[1]) / 2)
    h = profile.letter_mm
    return [
        Line(Pen.CUT, tail, polar(tip, -0.6 * long_, sight)),
        arrowhead(tip, sight, long_),
        *signs.line(Text((middle[0], middle[1] - h / 2), h, mark.letter, "middle")),
    ]


def cutting_plane(path: tuple[Point2, ...], mark: Mark, taken: Sequence[Rect], profile: Profile) -> list[Stroke]:
    """Return the marks of a plane through ``path`` (paper points, both ends at the rim of the view).

    ``taken`` are the boxes of all that stands round the view already; the ends go beyond what lies in their way.
    """
    strokes: list[Stroke] = [*_chain(path)]
    ends = []
    for inner, rim in ((path[1], path[0]), (path[-2], path[-1])):
        end, drawn = _end(rim, angle_of(inner, rim), mark, taken, profile)
        ends.append(end)
        strokes += drawn
    points = (ends[0], *path[1:-1], ends[1])
    for before, here, after in zip(points, points[1:], points[2:], strict=False):
        for other in (before, after):
            reach = min(_CORNER_MM, distance(here, other) * 0.4)
            strokes.append(Line(Pen.CUT, here, polar(here, reach, angle_of(here, other))))
    return strokes


def _end(
    rim: Point2, outwards: float, mark: Mark, taken: Sequence[Rect], profile: Profile
) -> tuple[Point2, list[Stroke]]:
    """Return an end of the plane with its marks, moved out past the boxes that would lie under them."""
    axis = 0 if abs(math.cos(math.radians(outwards))) > 0.5 else 1
    low, high = items_box(tuple(_end_marks(rim, outwards, mark, profile)))
    side = (low[1 - axis] - _BESIDE_MM, high[1 - axis] + _BESIDE_MM)
    under = [box for box in taken if box[0][1 - axis] < side[1] and box[1][1 - axis] > side[0]]
    end = _beyond(rim, outwards, join([(rim, rim), *under]))
    return end, _end_marks(end, outwards, mark, profile)


def _end_marks(end: Point2, outwards: float, mark: Mark, profile: Profile) -> list[Stroke]:
    """Return the wide line, the arrow and the letter at an end of the plane."""
    return [
        Line(Pen.CUT, end, polar(end, -_END_MM, outwards)),
        *_arrow(polar(end, -1.5, outwards), mark.sight_deg, profile),
        *_letter(end, outwards, mark, profile),
    ]


def _beyond(end: Point2, outwards: float, taken: Rect) -> Point2:
    """Return the end of the plane moved out of the box that is taken."""
    (x0, y0), (x1, y1) = taken
    if abs(outwards - 180) < 1:
        return min(x0 - _CLEAR_MM - _END_MM, end[0] - 2 * _END_MM), end[1]
    if outwards < 1 or outwards > 359:
        return max(x1 + _CLEAR_MM + _END_MM, end[0] + 2 * _END_MM), end[1]
    if abs(outwards - 90) < 1:
        return end[0], max(y1 + _CLEAR_MM + _END_MM, end[1] + 2 * _END_MM)
    return end[0], min(y0 - _CLEAR_MM - _END_MM, end[1] - 2 * _END_MM)


def _chain(path: tuple[Point2, ...]) -> list[Stroke]:
    """Return the narrow chain line inside the view; outside it the wide ends alone stand."""
    strokes: list[Stroke] = []
    last = len(path) - 2
    for k, (a, b) in enumerate(itertools.pairwise(path)):
        along = angle_of(a, b)
        corner = min(_CORNER_MM, distance(a, b) * 0.4)
        lead = -_RIM_MM - 1.0 if k == 0 else corner
        tail = -_RIM_MM - 1.0 if k == last else corner
        if distance(a, b) - lead - tail > 2.0:
            strokes.append(centre_line(polar(a, lead + 1.0, along), polar(b, -tail - 1.0, along)))
    return strokes


def _arrow(at: Point2, sight_deg: float, profile: Profile) -> list[Stroke]:
    """Return the arrow of sight: its tip on the line (ISO) or its tail on it (ASME)."""
    long_ = 1.5 * profile.arrow_mm
    tail, tip = (polar(at, -2 * long_, sight_deg), at) if profile.iso else (at, polar(at, 2 * long_, sight_deg))
    shaft_end = polar(tip, -0.6 * long_, sight_deg)
    return [Line(Pen.CUT, tail, shaft_end), arrowhead(tip, sight_deg, long_)]


def _letter(end: Point2, outwards: float, mark: Mark, profile: Profile) -> list[Stroke]:
    """Return the letter beside the arrow, on the outer side, upright to the reader."""
    h = profile.letter_mm
    beside = polar(end, 1.5 + h / 2, outwards)
    back = polar(beside, -0.75 * 2 * profile.arrow_mm if profile.iso else 0.75 * 2 * profile.arrow_mm, mark.sight_deg)
    return list(signs.line(Text((back[0], back[1] - h / 2), h, mark.letter, "middle")))
