"""The start angle of a pitch circle, as an arc dimension in the view.

It is drawn as strokes (kind ``turn``), not as a live dimension: DXF readers place the text of an angle by
themselves, and here it stands where there is room, in a box when the angle is exact.
"""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

from setupsheet.drawing import signs
from setupsheet.drawing.boxes import Rect, crosses, grow, meets_circle, overlap
from setupsheet.drawing.ink import Arc, Dimension, Line, Pen, Polyline, Stroke, Text
from setupsheet.drawing.leaders import Room
from setupsheet.drawing.needs import given
from setupsheet.drawing.profile import Profile
from setupsheet.drawing.strokes import arrowhead, items_box, stroke_box, text_room
from setupsheet.drawing.wanted import Turn
from setupsheet.plane import Point2, distance, distance_to_segment, polar

_LEAST_RADIUS_MM = 12.0
_FRAME_MM = 0.8
"""Between an exact value and its frame."""
_UNREADABLE = 40.0
"""Cost from which a place stands on another text or line."""
_SPOTS = ((0.0, 1.5), (0.0, 3.5), (1.0, 0.0), (-1.0, 0.0), (1.0, 3.0), (-1.0, 3.0))
"""Where the text may stand: beyond which end of the arc (0: at its middle) and how far, and how far outside it."""


def turn_dimension(turn: Turn, room: Room, scale: float, profile: Profile) -> Dimension | None:
    """Return the angle at the radius where it meets the least, None where it would stand on something.

    The centre of the turn is a paper point already.
    """
    best: tuple[float, tuple[Stroke, ...], float, Turn] | None = None
    for nth, (low, high) in enumerate(((turn.from_deg, turn.to_deg), *turn.alike)):
        here = replace(turn, from_deg=low, to_deg=high)
        for step, radius in enumerate(_radii(turn), 1):
            for order, spot in enumerate(_SPOTS):
                base = 0.6 * step + 0.7 * order + 1.5 * nth
                if best is not None and base >= best[0]:
                    break
                strokes = _strokes(here, radius, spot, profile)
                cost = base + _cost(here, strokes, room, best[0] - base if best else math.inf)
                if best is None or cost < best[0]:
                    best = cost, strokes, radius, here
    if best is None or best[0] >= _UNREADABLE:
        return None
    _, strokes, radius, turn = best
    _take(strokes, room)
    low, high = sorted((turn.from_deg, turn.to_deg))
    first = turn.needs[0]
    points = (turn.centre, polar(turn.centre, radius, low), polar(turn.centre, radius, high))
    middle = polar(turn.centre, radius, (low + high) / 2)
    value = first.value
    return Dimension(
        "turn", first.feature, first.what, value, turn.text, points, middle, 0.0, strokes, scale, given(turn.needs)
    )


def _radii(turn: Turn) -> list[float]:
    """Return the radii to try: inside the pitch circle first, then outside in steps."""
    inner = [turn.radius * share for share in (0.8, 0.7) if turn.radius * share >= _LEAST_RADIUS_MM]
    return [*inner, *(max(turn.radius + 3.0 * step, _LEAST_RADIUS_MM) for step in range(1, 12))]


def _strokes(turn: Turn, radius: float, spot: Point2, profile: Profile) -> tuple[Stroke, ...]:
    """Return rays, arc, arrows outside and the text at the end of the arc."""
    low, high = sorted((turn.from_deg, turn.to_deg))
    c, a = turn.centre, profile.arrow_mm
    bend = 57.3 * a / radius
    strokes: list[Stroke] = []
    for angle in (low, high):
        start = turn.radius + (3.2 if angle == turn.to_deg else 0.5) * (1 if radius > turn.radius else -1)
        end = radius + (profile.past_mm if radius > turn.radius else -profile.past_mm)
        strokes.append(Line(Pen.DIM, polar(c, start, angle), polar(c, end, angle)))
    words = _text(turn, radius, spot, profile)
    inner = (high - low) / 57.3 * radius > 2 * a + 2
    if inner:
        strokes.append(Arc(Pen.DIM, c, radius, *_as_far_as(words, c, radius, (low, high), spot[0])))
        strokes.append(arrowhead(polar(c, radius, low), low - 90 + bend / 2, a))
        strokes.append(arrowhead(polar(c, radius, high), high + 90 - bend / 2, a))
    else:
        strokes.append(Arc(Pen.DIM, c, radius, low - 2 * bend, high + 2 * bend))
        strokes.append(arrowhead(polar(c, radius, low), low + 90 - bend / 2, a))
        strokes.append(arrowhead(polar(c, radius, high), high - 90 + bend / 2, a))
    return (*strokes, *words)


def _as_far_as(words: tuple[Stroke, ...], centre: Point2, radius: float, ends: Point2, beyond: float) -> Point2:
    """Return the ends of the arc, drawn on to the text that stands beyond one of them."""
    low, high = ends
    if not beyond:
        return ends
    box = grow(items_box(words), 0.0 if isinstance(words[-1], Polyline) else 1.0)
    edge = high if beyond > 0 else low
    for step in range(1, 240):
        angle = edge + math.copysign(step * 0.25, beyond)
        at = polar(centre, radius, angle)
        if box[0][0] <= at[0] <= box[1][0] and box[0][1] <= at[1] <= box[1][1]:
            return (low, angle) if beyond > 0 else (angle, high)
    return ends


def _text(turn: Turn, radius: float, spot: Point2, profile: Profile) -> tuple[Stroke, ...]:
    """Return the text, level, at one of its possible places; in a box when the angle is exact."""
    h, (beyond, outside) = profile.text_mm, spot
    low, high = sorted((turn.from_deg, turn.to_deg))
    wide = signs.width(turn.text, h)
    if beyond:
        reach = 57.3 * (2 * profile.arrow_mm + h) / radius * beyond
        at = polar(turn.centre, radius + outside, (high if beyond > 0 else low) + reach)
        foot = (at[0] - wide / 2, at[1] - h / 2)
    else:
        at = polar(turn.centre, radius + outside + (_FRAME_MM if turn.exact else 0.0), (low + high) / 2)
        left = at[0] < turn.centre[0]
        foot = (at[0] - wide if left else at[0], at[1] - h / 2)
    strokes: list[Stroke] = list(signs.line(Text(foot, h, turn.text)))
    if turn.exact:
        x, y = foot[0] - _FRAME_MM, foot[1] - _FRAME_MM
        w, t = wide + 2 * _FRAME_MM, h + 2 * _FRAME_MM
        strokes.append(Polyline(Pen.DIM, ((x, y), (x + w, y), (x + w, y + t), (x, y + t)), closed=True))
    return tuple(strokes)


def _cost(turn: Turn, strokes: tuple[Stroke, ...], room: Room, most: float) -> float:
    """Return what a place costs; stops counting above ``most``."""
    arc = next(s for s in strokes if isinstance(s, Arc))
    middle = polar(arc.centre, arc.radius, (arc.from_deg + arc.to_deg) / 2)
    cost = 0.0 if overlap((middle, middle), grow(room.outline, -0.5)) else 20.0
    rays = [s for s in strokes if isinstance(s, Line)]
    for text in (s for s in strokes if isinstance(s, Text)):
        wide = grow(text_room(text), 0.9 if turn.exact else 0.5)
        cost += 30.0 if _straddles(wide, room.outline) else 0.0
        cost += 60.0 * sum(overlap(wide, other) for other in room.boxes)
        cost += 40.0 * sum(crosses(wide, (s.a, s.b)) for s in rays)
        cost += 40.0 * any(crosses(text_room(text), line) for line in _chords(arc))
        if cost >= most:
            return cost
        cost += 40.0 * sum(crosses(wide, line) for line in (*room.segments, *room.extensions, *room.leaders))
        cost += 40.0 * sum(crosses(text_room(text), line) for line in room.edges)
        cost += 15.0 * sum(crosses(wide, line) for line in room.edges)
        cost += 25.0 * sum(meets_circle(wide, centre, radius) for centre, radius in room.circles)
    cost += 60.0 * sum(crosses(box, (ray.a, ray.b)) for ray in rays for box in room.boxes)
    cost += 60.0 * sum(crosses(box, line) for line in _chords(arc) for box in room.boxes)
    if cost >= most:
        return cost
    near = arc.radius * abs(arc.to_deg - arc.from_deg) / 57.3 / 2
    for centre, radius in room.circles:
        cost += 8.0 * sum(_passes(ray, centre, radius) for ray in rays)
        if distance(centre, arc.centre) > 1 and distance(middle, centre) < near + radius:
            cost += 12.0
    return cost


def _chords(arc: Arc) -> list[tuple[Point2, Point2]]:
    """Return four chords that stand for a short arc."""
    angles = [arc.from_deg + (arc.to_deg - arc.from_deg) * k / 4 for k in range(5)]
    points = [polar(arc.centre, arc.radius, angle) for angle in angles]
    return list(pairwise(points))


def _passes(line: Line, centre: Point2, radius: float) -> bool:
    """Tell whether a ray runs through a hole; the pitch circle that it starts from does not count."""
    return radius < 8.0 and distance_to_segment(centre, line.a, line.b) < radius


def _straddles(box: Rect, outline: Rect) -> bool:
    """Tell whether a box lies across the rim of the view."""
    return overlap(box, outline) and not (
        box[0][0] > outline[0][0]
        and box[0][1] > outline[0][1]
        and box[1][0] < outline[1][0]
        and box[1][1] < outline[1][1]
    )


def _take(strokes: tuple[Stroke, ...], room: Room) -> None:
    for stroke in strokes:
        if isinstance(stroke, Text):
            room.boxes.append(text_room(stroke))
        elif isinstance(stroke, Line):
            room.segments.append((stroke.a, stroke.b))
        elif isinstance(stroke, Arc):
            room.boxes.append(stroke_box(stroke))
