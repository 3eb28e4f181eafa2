"""Round things seen from the side: their axes, and the lines of threads that a section cuts."""

from __future__ import annotations

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
        return False
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
