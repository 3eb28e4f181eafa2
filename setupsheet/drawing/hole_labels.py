"""Labels at holes, as the hole table names them: small, beside the circle, on nothing else."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from setupsheet.drawing import signs
from setupsheet.drawing.boxes import Rect, crosses, grow, join, meets_circle, overlap
from setupsheet.drawing.dimensions_rules import home
from setupsheet.drawing.frames import seen_at
from setupsheet.drawing.ink import Stroke, Text
from setupsheet.drawing.leaders import Room
from setupsheet.drawing.near import Grid
from setupsheet.drawing.seen import Seen, circles
from setupsheet.drawing.strokes import text_room
from setupsheet.part.feature import Hole
from setupsheet.part.part import Part
from setupsheet.plane import Point2, distance, polar

HEIGHT_MM = 2.5
_SHORT = re.compile(r".{1,4}|[A-Za-z]\d{1,6}")
"""A few characters, or a letter and the hole's number; a longer label is a feature's name: it would hide the view."""
_CORNERS = (45.0, 135.0, 315.0, 225.0)
_ANGLES = (*_CORNERS, *(step * 15.0 for step in range(24) if step * 15.0 not in _CORNERS))
"""Round the circle: the corners between its centre lines first."""
_FURTHER_MM = (0.0, 1.0, 2.0, 3.5)
"""How far off the circle a label may stand beyond its usual 1 mm."""
_CLEAR_MM = 0.7
_NEAR_MM = 1.0
"""A label this much nearer to another hole might be read as that hole's."""
_GOOD_ENOUGH = 8.0
"""Cost up to which no place further off is looked for: one line near the label, none through it."""
_MANY = 200
"""With more circles only the corners are tried: a field of holes has the same room at every one."""
_ON_TEXT = 300.0


Segment = tuple[Point2, Point2]


def has_short_labels(hole: Hole) -> bool:
    """Tell whether every place of a hole carries a short label: one without would stand in no table and no view."""
    return all(_SHORT.fullmatch(spot.label) for spot in hole.spots)


@dataclass
class Around:
    """What labels have to keep clear of, by place."""

    boxes: Grid[Rect]
    lines: Grid[Segment]
    circles: Grid[tuple[Point2, float]]
    many: bool = False


def hole_labels(seen: Seen, part: Part, k: float, room: Room) -> list[Stroke]:
    """Return a label for every hole that this is the view of, each at the first free place round its circle.

    Where holes stand too close for another label on paper, it is left out; the table has the hole's place.
    """
    strokes: list[Stroke] = []
    around = _around(room)
    around.many = len(room.circles) > _MANY
    radii: dict[Point2, float] = {}
    for circle in circles(seen):
        key = _key(circle.centre)
        radii[key] = max(radii.get(key, 0.0), circle.radius)
    for hole in part.features:
        if not isinstance(hole, Hole) or home(hole) is not seen.frame.face:
            continue
        for spot in hole.spots:
            centre = seen_at(spot.at, hole.face, seen.frame)
            if has_short_labels(hole) and _key(centre) in radii:
                at = (centre[0] * k, centre[1] * k)
                label = _label(spot.label, at, radii[_key(centre)] * k, around)
                if label is not None:
                    room.boxes.append(text_room(label))
                    strokes.append(label)
    return strokes


def _key(point: Point2) -> Point2:
    return round(point[0], 3), round(point[1], 3)


def _around(room: Room) -> Around:
    around = Around(Grid(), Grid(), Grid())
    for box in room.boxes:
        around.boxes.add(box, box)
    for line in (*room.segments, *room.extensions, *room.leaders, *room.edges):
        around.lines.add(join([(line[0], line[0]), (line[1], line[1])]), line)
    for centre, radius in room.circles:
        around.circles.add(grow((centre, centre), radius), (centre, radius))
    return around


def _label(text: str, centre: Point2, radius: float, around: Around) -> Text | None:
    """Return the best place of a label, None if every one lies on another text."""
    best: tuple[float, Text] | None = None
    for more in _FURTHER_MM[:1] if around.many else _FURTHER_MM:
        if best is not None and best[0] < _GOOD_ENOUGH:
            break
        for order, angle in enumerate(_CORNERS if around.many else _ANGLES):
            base = (0.1 * order if order < len(_CORNERS) else 1.0 + 0.02 * order) + more
            if best is not None and base >= best[0]:
                continue
            candidate = _at(text, centre, radius + more, angle)
            cost = base + _cost(text_room(candidate), centre, around, best[0] - base if best else math.inf)
            if best is None or cost < best[0]:
                best = cost, candidate
    if best is None or best[0] >= _ON_TEXT:
        return None
    box = text_room(best[1])
    around.boxes.add(box, box)
    return best[1]


def _at(text: str, centre: Point2, radius: float, angle: float) -> Text:
    wide = signs.width(text, HEIGHT_MM)
    near = polar(centre, radius + 1.0, angle)
    along = polar((0.0, 0.0), 1.0, angle)
    x = near[0] + (along[0] - 1.0) / 2 * wide
    y = near[1] + (along[1] - 1.0) / 2 * HEIGHT_MM
    return Text((x, y), HEIGHT_MM, text)


def _cost(box: Rect, centre: Point2, around: Around, most: float) -> float:
    """Return what a place costs; stops counting above ``most``."""
    wide = grow(box, _CLEAR_MM)
    cost = _ON_TEXT * sum(overlap(wide, other) for other in around.boxes.near(wide))
    if cost >= most:
        return cost
    for other, radius in around.circles.near(wide):
        foreign = distance(other, centre) > 1e-3
        if meets_circle(wide, other, radius):
            cost += 20.0 if foreign else 30.0
        elif foreign and meets_circle(grow(wide, _NEAR_MM), other, radius):
            cost += 7.0
    for line in around.lines.near(wide):
        if cost >= most:
            return cost
        cost += 20.0 if crosses(box, line) else 6.0 if crosses(wide, line) else 0.0
    return cost
