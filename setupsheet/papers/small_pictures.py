"""Small pictures: a body seen obliquely, and what the turn-over does with the part. Paper mm."""

from __future__ import annotations

from setupsheet.drawing.ink import Circle, Fill, Group, Line, Pen, Polyline, Stroke
from setupsheet.papers.views import Paper, Strokes, arrow, bounds
from setupsheet.plan.record import Turn
from setupsheet.plane import Point2, polar

_TURN_SCALE = 0.72


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
    """Return a card that is turned about the machine's axis, or None where nothing is turned over.

    The card shows its corner mark before and after; the axis is a chain line, the way an arrow.
    """
    draw = {"x": _tumble, "y": _page, "z": _spin}.get(turn.axis)
    if draw is None or not turn.angle_deg:
        return None
    small = Paper(_TURN_SCALE)
    strokes = tuple(small.stroke(stroke) for stroke in draw())
    return Group("how the part is turned", strokes, (small.point((-1.0, -2.0)), small.point((53.0, 21.0))))


def _card(x: float, y: float, wide: float, high: float, mark: Point2) -> list[Stroke]:
    """Return a card with a black corner; ``mark`` is (0 or 1, 0 or 1), the corner."""
    corner = (x + mark[0] * wide, y + mark[1] * high)
    inward = (3.0 if mark[0] == 0 else -3.0, 3.0 if mark[1] == 0 else -3.0)
    box = ((x, y), (x + wide, y), (x + wide, y + high), (x, y + high))
    black = Fill((corner, (corner[0] + inward[0], corner[1]), (corner[0], corner[1] + inward[1])))
    return [Polyline(Pen.VISIBLE, box, closed=True), black]


def _page() -> list[Stroke]:
    """Return left over right, about an axis that points away from the reader."""
    over = _bow((26.0, 9.0), 9.0, (155.0, 25.0))
    return [
        *_card(0.0, 1.0, 18.0, 13.0, (0.0, 1.0)),
        *_card(34.0, 1.0, 18.0, 13.0, (1.0, 1.0)),
        Line(Pen.CENTRE, (26.0, 0.0), (26.0, 15.0)),
        *over,
    ]


def _tumble() -> list[Stroke]:
    """Return front over back, about an axis along X."""
    return [
        *_card(0.0, 2.0, 20.0, 14.0, (0.0, 0.0)),
        *_card(32.0, 2.0, 20.0, 14.0, (0.0, 1.0)),
        Line(Pen.CENTRE, (-1.0, 9.0), (21.0, 9.0)),
        Line(Pen.THIN, (22.5, 5.0), (29.0, 5.0)),
        arrow((30.5, 5.0), (22.5, 5.0)),
        *_bow((24.0, 11.0), 4.0, (250.0, 90.0)),
    ]


def _spin() -> list[Stroke]:
    """Return a turn as the part lies."""
    return [
        *_card(0.0, 2.0, 18.0, 12.0, (0.0, 1.0)),
        *_card(36.0, -1.0, 12.0, 18.0, (0.0, 0.0)),
        Circle(Pen.THIN, (9.0, 8.0), 0.8),
        *_bow((27.0, 8.0), 6.0, (200.0, 20.0)),
    ]


def _bow(centre: Point2, radius: float, span: Point2) -> list[Stroke]:
    """Return an arc from the first to the second angle, clockwise, with an arrowhead at its end."""
    sweep = (span[0] - span[1]) % 360
    points = tuple(polar(centre, radius, span[0] - sweep * i / 18) for i in range(19))
    return [Polyline(Pen.VISIBLE, points), arrow(points[-1], points[-2], 3.0)]
