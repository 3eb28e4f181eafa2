"""The narrow circle round a place that a detail shows larger, with the detail's letter beside it."""

from __future__ import annotations

from setupsheet.drawing import signs
from setupsheet.drawing.boxes import crosses, grow, meets_circle, overlap
from setupsheet.drawing.clip import Round
from setupsheet.drawing.ink import Circle, Pen, Stroke, Text
from setupsheet.drawing.leaders import Room
from setupsheet.drawing.profile import Profile
from setupsheet.drawing.strokes import text_room
from setupsheet.plane import Point2, polar

_ANGLES = (45.0, 135.0, 315.0, 225.0, 0.0, 180.0, 90.0, 270.0)
_CLEAR_MM = 0.8


def detail_circle(letter: str, window: Round, room: Room, profile: Profile) -> list[Stroke]:
    """Return circle and letter, the letter where the least is in its way, and take that room."""
    centre, radius = window
    h = profile.letter_mm
    texts = []
    for away in (0.0, 3.0, 7.0):
        for angle in _ANGLES:
            x, y = polar(centre, radius + 1.0 + 0.75 * h + away, angle)
            texts.append(Text((x, y - h / 2), h, letter, "middle"))
    best = min(texts, key=lambda text: _cost(text, centre, room))
    room.boxes.append(grow(text_room(best), _CLEAR_MM))
    room.circles.append(window)
    return [Circle(Pen.THIN, centre, radius), *signs.line(best)]


def _cost(text: Text, centre: Point2, room: Room) -> tuple[int, float]:
    box = grow(text_room(text), _CLEAR_MM)
    lines = (*room.segments, *room.extensions, *room.edges)
    bad = 10 * sum(overlap(box, other) for other in room.boxes) + 2 * sum(crosses(box, line) for line in lines)
    bad += 2 * sum(meets_circle(box, at, r) for at, r in room.circles)
    inside = overlap(box, room.outline)
    return bad + (3 if inside else 0), abs(text.at[0] - centre[0]) + abs(text.at[1] - centre[1])
