"""The picture of a part set to an angle: seen from the front, on the bar, with its stack and what lies level."""

from __future__ import annotations

from dataclasses import replace

from setupsheet.drawing import lettering
from setupsheet.drawing.ink import Arc, Circle, Fill, Group, Line, Pen, Polyline, Stroke, Text
from setupsheet.papers.views import Paper, arrow, bounds
from setupsheet.plan.record import AngleSetting, Setup
from setupsheet.plane import Point2, angle_of, polar

ROOM = (44.0, 32.0)
"""Paper mm for the drawing itself; words stand beside and under it."""
_WORD_MM = 2.4
_BAR, _ROLL = 0.07, 0.055
"""Thickness of the bar and radius of its rolls, parts of its length as drawn: the bar is not to scale."""
_LONG = 1.1
_ROLLS_AT = (0.03, _LONG - 0.06)
"""Where the rolls are along the face on the bar, parts of its length."""
_SPARE_MM = 1.0
_BLOCK_GREY = 0.75


def angle_picture(setup: Setup, path: str) -> Group | None:
    """Return how the part of a setup is set to its angle, in paper mm; None where it lies square."""
    setting = setup.angle_setting
    if setting is None or len(setting.section) < 3:
        return None
    bar = _bar(setting)
    strokes: list[Stroke] = [Polyline(Pen.VISIBLE, setting.section, closed=True), *bar]
    if setting.pin:
        x, z, size = setting.pin
        strokes += [Circle(Pen.VISIBLE, (x, z), size / 2), *_cross((x, z), size * 0.8)]
    box = bounds(strokes)
    assert box is not None
    (x0, y0), (x1, y1) = box
    scale = min(ROOM[0] / (x1 - x0), ROOM[1] / (y1 - y0))
    paper = Paper(scale, box[0])
    drawn = [paper.stroke(stroke) for stroke in strokes]
    drawn += _level(setup, paper, (x0, x1), path)
    drawn += _angle(setting, paper, f"{path}/angle_setting/shown")
    return Group("how the angle is set, seen from the front", tuple(drawn), _room(drawn))


def _room(drawn: list[Stroke]) -> tuple[Point2, Point2]:
    """Return the box round strokes and texts."""
    box = bounds(drawn)
    assert box is not None
    (x0, y0), (x1, y1) = box
    for stroke in drawn:
        if isinstance(stroke, Text):
            wide = lettering.width(lettering.drawable(stroke.text), stroke.height, stroke.bold)
            start = stroke.at[0] - (wide if stroke.anchor == "right" else 0.0)
            x0, x1 = min(x0, start), max(x1, start + wide)
            y0, y1 = min(y0, stroke.at[1]), max(y1, stroke.at[1] + stroke.height)
    return (x0 - _SPARE_MM, y0 - _SPARE_MM), (x1 + _SPARE_MM, y1 + _SPARE_MM)


def _foot(setting: AngleSetting) -> tuple[Point2, Point2, float]:
    """Return the low corner, the unit vector up along the face on the bar, and how long that face is."""
    low = min(setting.section, key=lambda p: (p[1], p[0]))
    lean = setting.set_deg if setting.roll == "right" else 180.0 - setting.set_deg
    way = polar((0.0, 0.0), 1.0, lean)
    long = max((p[0] - low[0]) * way[0] + (p[1] - low[1]) * way[1] for p in setting.section)
    return low, way, long


def _rolls(setting: AngleSetting) -> tuple[Point2, Point2, float]:
    """Return the middles of the bar's two rolls, the lower one first, and their radius as drawn."""
    low, way, long = _foot(setting)
    roll = _ROLL * long
    near, far = (_along(_along(low, way, share * long), _down(way), _BAR * long + roll * 0.4) for share in _ROLLS_AT)
    return near, far, roll


def _down(way: Point2) -> Point2:
    """Return the unit vector from the bar's top to its underside."""
    return (way[1], -way[0]) if way[0] > 0 else (-way[1], way[0])


def _bar(setting: AngleSetting) -> list[Stroke]:
    """Return the bar under the part, its rolls, the stack and the line on which all stands; a protractor's leg else."""
    low, way, long = _foot(setting)
    if setting.bar_mm <= 0:
        far = _along(low, way, long * _LONG)
        return [Line(Pen.PHANTOM, low, far), Line(Pen.PHANTOM, low, (far[0], low[1]))]
    near, far, roll = _rolls(setting)
    start, end = _along(low, way, -0.03 * long), _along(low, way, _LONG * long)
    plate = (start, end, *(_along(at, _down(way), _BAR * long) for at in (end, start)))
    table, half, top = near[1] - roll, roll * 0.9, far[1] - roll
    stack = ((far[0] - half, table), (far[0] + half, table), (far[0] + half, top), (far[0] - half, top))
    ends = sorted((near[0], far[0]))
    return [
        Fill(stack, _BLOCK_GREY),
        Polyline(Pen.THIN, stack, closed=True),
        Polyline(Pen.THIN, plate, closed=True),
        Circle(Pen.THIN, near, roll),
        Circle(Pen.THIN, far, roll),
        Line(Pen.VISIBLE, (ends[0] - 3 * roll, table), (ends[1] + 3 * roll, table)),
    ]


def _along(at: Point2, way: Point2, by: float) -> Point2:
    return at[0] + way[0] * by, at[1] + way[1] * by


def _cross(at: Point2, arm: float) -> list[Stroke]:
    (x, y) = at
    return [Line(Pen.CENTRE, (x - arm, y), (x + arm, y)), Line(Pen.CENTRE, (x, y - arm), (x, y + arm))]


def _level(setup: Setup, paper: Paper, ends: tuple[float, float], path: str) -> list[Stroke]:
    """Return a heavy line at the height of each level face, with its reading."""
    strokes: list[Stroke] = []
    for index, step in enumerate(setup.steps):
        if not step.moves or not step.z_shown:
            continue
        a, b = (paper.point((x, step.moves[-1].z)) for x in ends)
        last = len(step.z_shown) - 1
        strokes += [
            Line(Pen.CUT, a, b),
            Text(
                (b[0] + 6.0, b[1] - _WORD_MM / 2),
                3.0,
                step.z_shown[-1],
                bold=True,
                path=f"{path}/steps/{index}/z_shown/{last}",
            ),
            arrow((b[0] + 2.5, b[1]), (b[0] + 2.5, b[1] + 5.0), 2.5),
            Text((b[0] + 1.5, b[1] + 3.2), _WORD_MM, "Z"),
        ]
    return strokes


def _angle(setting: AngleSetting, paper: Paper, path: str) -> list[Stroke]:
    """Return the angle at the low corner, named under the table's line, and the height of the stack beside it."""
    low, way, long = _foot(setting)
    corner = paper.point(low)
    radius, right = 0.42 * long * paper.scale, setting.roll == "right"
    lean = angle_of((0.0, 0.0), way)
    first, last = (0.0, lean) if right else (lean, 180.0)
    strokes: list[Stroke] = [
        Line(Pen.THIN, corner, polar(corner, radius * 1.15, 0.0 if right else 180.0)),
        Arc(Pen.THIN, corner, radius, first, last),
    ]
    foot, name = corner[1], Text((0.0, 0.0), 3.0, setting.shown["angle"], "middle", bold=True, path=f"{path}/angle")
    if setting.bar_mm > 0:
        near, far, roll = _rolls(setting)
        (x, top), foot = paper.point((far[0], far[1] - roll)), paper.point((near[0], near[1] - roll))[1]
        beside = x + (roll * paper.scale + 1.0) * (1 if right else -1)
        at = (beside, max(foot + 1.0, (foot + top) / 2 - 1.5))
        anchor = "left" if right else "right"
        strokes.append(Text(at, 3.0, setting.shown["stack"], anchor, bold=True, path=f"{path}/stack"))
    return [*strokes, replace(name, at=(corner[0] + radius * (1 if right else -1), foot - 4.5))]
