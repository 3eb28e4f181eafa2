"""Small pictures: a body seen obliquely, and what the turn-over does with the part. Paper mm."""

from __future__ import annotations

import math
from dataclasses import replace

from setupsheet.drawing.ink import Circle, Fill, Group, Line, Pen, Polyline, Stroke, Text
from setupsheet.papers.views import Paper, Strokes, bounds
from setupsheet.plan.record import Turn
from setupsheet.plane import Point2, angle_of, polar

_TURN_SCALE, _TWO_SCALE, _STEP = 0.72, 0.42, 60.0
_AXES = ("x", "y", "z")
_HEAD = 4.5
"""Length of an arrowhead before the picture is made small."""


def picture(name: str, strokes: Strokes, room: Point2) -> Group | None:
    """Return strokes fitted into ``room`` (not to scale), or None where there are none."""
    box = bounds(strokes)
    if box is None:
        return None
    wide, high = box[1][0] - box[0][0], box[1][1] - box[0][1]
    if wide <= 0 and high <= 0:
        return None
    scale = min(room[0] / wide if wide else 1e9, room[1] / high if high else 1e9)
    paper = Paper(scale, box[0])
    return Group(name, tuple(paper.stroke(s) for s in strokes), ((0.0, 0.0), (wide * scale, high * scale)), scale)


def turn_picture(turn: Turn) -> Group | None:
    """Return what is done with the part, move by move, or None where nothing is turned.

    A turn-over shows a card with its corner mark before and after, a tip the part from the side with its
    upper face as a black band; the axis is a chain line, the way an arrow. A tilt has a picture of its own.
    """
    told = turn.moves or (((turn.axis, turn.angle_deg),) if turn.angle_deg and turn.axis in _AXES else ())
    moves = [(axis, round(angle)) for axis, angle in told if round(angle) % 90 == 0 and abs(angle) > 1]
    if not moves:
        return None
    small = _TURN_SCALE if len(moves) == 1 else _TWO_SCALE
    strokes: list[Stroke] = []
    for number, (axis, angle) in enumerate(moves):
        paper = Paper(small, (0.0, 0.0), (number * _STEP * small, 0.0))
        strokes += [_small(paper.stroke(stroke), small) for stroke in _drawn(axis, angle)]
    box = ((-1.0 * small, -4.0 * small), ((_STEP * (len(moves) - 1) + 53.0) * small, 21.0 * small))
    return Group("how the part is turned", tuple(strokes), box)


def _small(stroke: Stroke, scale: float) -> Stroke:
    """Return a stroke whose text is as small as the picture."""
    return replace(stroke, height=stroke.height * scale) if isinstance(stroke, Text) else stroke


def _drawn(axis: str, angle: int) -> list[Stroke]:
    """Return one move about a machine axis: a half turn of a card, a tip seen from the side, or a turn as it lies."""
    if axis == "z":
        return _spin(angle)
    if abs(angle) == 180:
        return _page() if axis == "y" else _tumble()
    return _tip(to_right=angle > 0, side="front") if axis == "y" else _tip(to_right=angle < 0, side="right")


def _card(x: float, y: float, wide: float, high: float, mark: Point2) -> list[Stroke]:
    """Return a card with a black corner; ``mark`` is (0 or 1, 0 or 1), the corner."""
    corner = (x + mark[0] * wide, y + mark[1] * high)
    inward = (3.0 if mark[0] == 0 else -3.0, 3.0 if mark[1] == 0 else -3.0)
    black = Fill((corner, (corner[0] + inward[0], corner[1]), (corner[0], corner[1] + inward[1])))
    return [_box(x, y, wide, high), black]


def _box(x: float, y: float, wide: float, high: float) -> Polyline:
    return Polyline(Pen.VISIBLE, ((x, y), (x + wide, y), (x + wide, y + high), (x, y + high)), closed=True)


def _page() -> list[Stroke]:
    """Return left over right, about an axis that points away from the reader."""
    return [
        *_card(0.0, 1.0, 18.0, 13.0, (0.0, 1.0)),
        *_card(34.0, 1.0, 18.0, 13.0, (1.0, 1.0)),
        Line(Pen.CENTRE, (26.0, 0.0), (26.0, 15.0)),
        *_bow((26.0, 13.0), 7.5, (160.0, 12.0)),
    ]


def _tumble() -> list[Stroke]:
    """Return front over back, about an axis along X."""
    return [
        *_card(0.0, 2.0, 20.0, 14.0, (0.0, 0.0)),
        *_card(32.0, 2.0, 20.0, 14.0, (0.0, 1.0)),
        Line(Pen.CENTRE, (-1.0, 9.0), (21.0, 9.0)),
        *_next((22.0, 5.0), 31.0),
        *_bow((24.0, 12.0), 4.5, (250.0, 80.0)),
    ]


def _tip(*, to_right: bool, side: str) -> list[Stroke]:
    """Return a block from the side, lying and then standing; its upper face is a black band."""
    face, out = (50.0, 1.6) if to_right else (42.0, -1.6)
    pivot, span = (13.0, (120.0, 50.0)) if to_right else (7.0, (60.0, 130.0))
    return [
        _box(0.0, 1.0, 20.0, 8.0),
        _box(42.0, 1.0, 8.0, 18.0),
        Fill(((0.0, 9.0), (20.0, 9.0), (20.0, 10.6), (0.0, 10.6))),
        Fill(((face, 1.0), (face + out, 1.0), (face + out, 19.0), (face, 19.0))),
        Line(Pen.THIN, (-1.0, 1.0), (52.0, 1.0)),
        *_bow((pivot, 5.0), 12.0, span, clockwise=to_right),
        *_next((24.0, 5.0), 38.0),
        Text((26.0, -3.0), 2.8, f"seen from the {side}", "middle"),
    ]


def _spin(angle: int) -> list[Stroke]:
    """Return a turn as the part lies, seen from above; positive turns run anticlockwise."""
    mark = {90: (0.0, 0.0), -90: (1.0, 1.0)}.get(angle, (1.0, 0.0))
    after = _card(37.0, -1.0, 12.0, 18.0, mark) if abs(angle) == 90 else _card(34.0, 2.0, 18.0, 12.0, mark)
    span = (160.0, 20.0) if angle <= 0 else (20.0, 160.0)
    return [
        *_card(0.0, 2.0, 18.0, 12.0, (0.0, 1.0)),
        *after,
        Circle(Pen.THIN, (9.0, 8.0), 0.8),
        *_bow((9.0, 8.0), 4.5, span, clockwise=angle <= 0),
        *_next((21.0, 8.0), 32.0),
    ]


def _bow(centre: Point2, radius: float, span: Point2, *, clockwise: bool = True) -> list[Stroke]:
    """Return an arc from the first to the second angle with an arrowhead over its last stretch."""
    way = -1.0 if clockwise else 1.0
    sweep = ((span[1] - span[0]) * way) % 360
    neck = sweep - math.degrees(_HEAD / radius)
    points = tuple(polar(centre, radius, span[0] + way * neck * i / 18) for i in range(19))
    return [Polyline(Pen.VISIBLE, points), _head(polar(centre, radius, span[1]), points[-1])]


def _next(start: Point2, to_x: float) -> list[Stroke]:
    """Return the straight arrow from the part before to the part after."""
    neck = (to_x - _HEAD, start[1])
    return [Line(Pen.THIN, start, neck), _head((to_x, start[1]), neck)]


def _head(tip: Point2, neck: Point2) -> Fill:
    """Return an arrowhead wide enough to be seen on a small picture."""
    back = angle_of(tip, neck)
    return Fill((tip, polar(tip, _HEAD, back - 24), polar(tip, _HEAD, back + 24)))
