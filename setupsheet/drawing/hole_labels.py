"""Labels at holes, as the hole table names them: small, beside the circle, on nothing else."""

from __future__ import annotations

from setupsheet.drawing import signs
from setupsheet.drawing.boxes import Rect, crosses, grow, overlap
from setupsheet.drawing.frames import seen_at
from setupsheet.drawing.ink import Stroke, Text
from setupsheet.drawing.leaders import Room
from setupsheet.drawing.seen import Seen, circles, shows_circle
from setupsheet.drawing.strokes import text_room
from setupsheet.part.feature import Hole
from setupsheet.part.part import Part
from setupsheet.plane import Point2, distance, polar

HEIGHT_MM = 2.5
LONGEST = 4
"""Characters; a longer label is a feature's name, which would hide the view."""
_ANGLES = (45.0, 135.0, 315.0, 225.0, 20.0, 160.0, 340.0, 200.0, 70.0, 110.0, 250.0, 290.0)


def hole_labels(seen: Seen, part: Part, k: float, room: Room) -> list[Stroke]:
    """Return a label for every hole that the view shows, each at the first free place round its circle."""
    strokes: list[Stroke] = []
    for hole in part.features:
        if not isinstance(hole, Hole) or hole.face.axis != seen.frame.face.axis:
            continue
        for spot in hole.spots:
            centre = seen_at(spot.at, hole.face, seen.frame)
            if 0 < len(spot.label) <= LONGEST and shows_circle(seen, centre):
                radii = [c.radius * k for c in circles(seen) if distance(c.centre, centre) < 1e-3]
                at = (centre[0] * k, centre[1] * k)
                strokes.append(_label(spot.label, at, max(radii, default=1.0), room))
    return strokes


def _label(text: str, centre: Point2, radius: float, room: Room) -> Text:
    best: tuple[float, Text] | None = None
    for more in (0.0, 1.5):
        for order, angle in enumerate(_ANGLES):
            candidate = _at(text, centre, radius + more, angle)
            cost = _cost(text_room(candidate), centre, room) + 0.1 * order + more
            if best is None or cost < best[0]:
                best = cost, candidate
    assert best is not None
    room.boxes.append(text_room(best[1]))
    return best[1]


def _at(text: str, centre: Point2, radius: float, angle: float) -> Text:
    wide = signs.width(text, HEIGHT_MM)
    near = polar(centre, radius + 1.0, angle)
    along = polar((0.0, 0.0), 1.0, angle)
    x = near[0] + (along[0] - 1.0) / 2 * wide
    y = near[1] + (along[1] - 1.0) / 2 * HEIGHT_MM
    return Text((x, y), HEIGHT_MM, text)


def _cost(box: Rect, centre: Point2, room: Room) -> float:
    wide = grow(box, 0.5)
    cost = 50.0 * sum(overlap(wide, other) for other in room.boxes)
    cost += 8.0 * sum(crosses(wide, line) for line in (*room.segments, *room.extensions, *room.leaders, *room.edges))
    for other, radius in room.circles:
        near = distance(other, _nearest(other, wide))
        far = max(distance(other, c) for c in _corners(wide))
        if near < radius + 0.3 and far > radius - 0.3:
            cost += 20.0 if distance(other, centre) > 1e-3 else 30.0
    return cost


def _nearest(point: Point2, box: Rect) -> Point2:
    return min(max(point[0], box[0][0]), box[1][0]), min(max(point[1], box[0][1]), box[1][1])


def _corners(box: Rect) -> tuple[Point2, ...]:
    (x0, y0), (x1, y1) = box
    return (x0, y0), (x1, y0), (x1, y1), (x0, y1)
