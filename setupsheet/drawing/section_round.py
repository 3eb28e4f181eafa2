"""Round things seen from the side: their axes, and the lines of threads that a section cuts."""

from __future__ import annotations

from dataclasses import replace

from setupsheet.drawing import threads
from setupsheet.drawing.centres import centre_line
from setupsheet.drawing.frames import lift, project
from setupsheet.drawing.ink import Line, Pen, Stroke
from setupsheet.drawing.profile import Profile
from setupsheet.drawing.seen import Seen
from setupsheet.part.face import Face
from setupsheet.part.feature import Hole, RoundBoss
from setupsheet.part.part import Part
from setupsheet.plane import Point2

_LEAST_GAP_MM = 0.7
"""Least clear distance between parallel lines on paper."""


def cut_rounds(seen: Seen, part: Part, k: float, profile: Profile) -> list[Stroke]:
    """Return axes and thread lines of all holes whose axis lies in the cutting plane, and of bosses."""
    strokes: list[Stroke] = []
    for feature in part.features:
        if isinstance(feature, RoundBoss) and _in_plane(seen, feature.at, feature.face):
            strokes.append(_boss_axis(feature, seen, part, k, profile))
        if not isinstance(feature, Hole):
            continue
        for spot in feature.spots:
            if not _in_plane(seen, spot.at, feature.face):
                continue
            foot = _paper(spot.at, feature.face, spot.mouth_mm, seen, k)
            end = _paper(spot.at, feature.face, spot.exit_mm, seen, k)
            strokes.append(_axis(foot, end, profile.overrun_mm))
            if feature.thread is not None:
                minor, major = feature.diameter.nominal_mm / 2 * k, feature.thread.major_mm / 2 * k
                strokes += threads.side_view(foot, end, minor, major, not feature.through)
    return _without_doubles(strokes)


def without_fine_chamfers(seen: Seen, part: Part, k: float) -> Seen:
    """Return a section without the rims of hole chamfers that lie closer to the mouth than lines may."""
    rims: list[tuple[Point2, Point2]] = []
    for feature in part.features:
        if not isinstance(feature, Hole) or not feature.chamfers:
            continue
        for spot in feature.spots:
            for chamfer in feature.chamfers:
                deep = (chamfer.diameter_mm - feature.diameter.nominal_mm) / 2
                if deep * k < _LEAST_GAP_MM:
                    end = spot.mouth_mm if chamfer.end == "mouth" else spot.exit_mm
                    other = spot.exit_mm if chamfer.end == "mouth" else spot.mouth_mm
                    along = end + deep * (1 if other > end else -1)
                    middle = project(lift(spot.at, feature.face, along), seen.frame)
                    rims.append((middle, (feature.diameter.nominal_mm / 2 + 1e-3, 1e-3)))
    visible = tuple(s for s in seen.visible if not any(_is_rim(s, rim) for rim in rims))
    return replace(seen, visible=visible)


def _is_rim(stroke: Stroke, rim: tuple[Point2, Point2]) -> bool:
    """Tell whether a line lies within a hole's width of its axis, square to it, at the chamfer's depth."""
    (x, y), (half, near) = rim
    if not isinstance(stroke, Line):
        return False
    return all(abs(p[1] - y) < near and abs(p[0] - x) < half for p in (stroke.a, stroke.b))


def side_axes(seen: Seen, part: Part, k: float, profile: Profile) -> list[Stroke]:
    """Return the axes of bosses that an elevation shows from the side."""
    strokes: list[Stroke] = []
    for feature in part.features:
        if isinstance(feature, RoundBoss) and feature.face.axis != seen.frame.face.axis:
            strokes.append(_boss_axis(feature, seen, part, k, profile))
    return _without_doubles(strokes)


def _in_plane(seen: Seen, at: Point2, face: Face) -> bool:
    """Tell whether an axis lies in the cutting plane."""
    cut = seen.cut
    if cut is None or face.axis in (seen.frame.face.axis,):
        return False
    point = lift(at, face, 0.0)
    if face.axis == cut.along:
        return any(abs(level - point[cut.across]) < 1e-6 for _, _, level in cut.levels)
    return abs(cut.at(point[cut.along]) - point[cut.across]) < 1e-6


def _boss_axis(boss: RoundBoss, seen: Seen, part: Part, k: float, profile: Profile) -> Stroke:
    foot = _paper(boss.at, boss.face, boss.top.nominal_mm, seen, k)
    end = _paper(boss.at, boss.face, part.box.at(boss.face.opposite), seen, k)
    return _axis(foot, end, profile.overrun_mm)


def _paper(at: Point2, face: Face, along: float, seen: Seen, k: float) -> Point2:
    x, y = project(lift(at, face, along), seen.frame)
    return x * k, y * k


def _axis(a: Point2, b: Point2, overrun: float) -> Stroke:
    """Return an axis that runs past both ends; it lies along paper X or Y."""
    dx, dy = (0.0, overrun) if abs(b[1] - a[1]) > abs(b[0] - a[0]) else (overrun, 0.0)
    low, high = sorted((a, b))
    return centre_line((low[0] - dx, low[1] - dy), (high[0] + dx, high[1] + dy))


def _without_doubles(strokes: list[Stroke]) -> list[Stroke]:
    """Keep of several axes on one line the longest: a bore in a boss has one axis."""
    best: dict[tuple[bool, float], Line] = {}
    rest: list[Stroke] = []
    for stroke in strokes:
        if not isinstance(stroke, Line) or stroke.pen not in (Pen.CENTRE, Pen.THIN):
            rest.append(stroke)
            continue
        upright = abs(stroke.a[0] - stroke.b[0]) < 1e-9
        key = (upright, round(stroke.a[0 if upright else 1], 4))
        other = best.get(key)
        best[key] = stroke if other is None else _longer(stroke, other)
    return [*best.values(), *rest]


def _longer(a: Line, b: Line) -> Line:
    """Return one axis over the reach of both."""
    ends = sorted((a.a, a.b, b.a, b.b))
    return centre_line(ends[0], ends[-1])
