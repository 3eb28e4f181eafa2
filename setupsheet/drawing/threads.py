"""Thread lines: the narrow circle or line of the major diameter beside the wide one of the minor.

ISO 6410-1: in the end view a narrow three-quarter circle, open at the upper right; ASME Y14.6: a dashed
circle. Where both would stand closer than 0.7 mm on paper the narrow one moves outwards.
"""

from __future__ import annotations

from setupsheet.drawing.ink import WIDTH_MM, Arc, Circle, Line, Pen, Stroke
from setupsheet.drawing.profile import Profile
from setupsheet.plane import Point2

_LEAST_GAP_MM = max(0.7, 2 * WIDTH_MM[Pen.VISIBLE])
_FROM_DEG, _TO_DEG = 95.0, 355.0


def major_radius(minor: float, major: float) -> float:
    """Return the paper radius of the narrow circle: never closer to the wide one than can be seen."""
    return max(major, minor + _LEAST_GAP_MM)


def end_view(centre: Point2, minor: float, major: float, profile: Profile) -> Stroke:
    """Return the circle of the major diameter as the profile draws it; radii on paper."""
    radius = major_radius(minor, major)
    if profile.iso:
        return Arc(Pen.THREAD, centre, radius, _FROM_DEG, _TO_DEG)
    return Circle(Pen.HIDDEN, centre, radius)


def side_view(foot: Point2, end: Point2, minor: float, major: float, blind: bool) -> list[Stroke]:
    """Return the lines of a thread cut lengthwise, from its mouth ``foot`` to the end of full thread.

    The axis runs along paper X or Y.
    """
    radius = major_radius(minor, major)
    across = (0.0, 1.0) if abs(end[0] - foot[0]) > abs(end[1] - foot[1]) else (1.0, 0.0)
    strokes: list[Stroke] = []
    for sign in (-1, 1):
        dx, dy = across[0] * radius * sign, across[1] * radius * sign
        strokes.append(Line(Pen.THREAD, (foot[0] + dx, foot[1] + dy), (end[0] + dx, end[1] + dy)))
    if blind:
        dx, dy = across[0] * radius, across[1] * radius
        strokes.append(Line(Pen.VISIBLE, (end[0] - dx, end[1] - dy), (end[0] + dx, end[1] + dy)))
    return strokes
