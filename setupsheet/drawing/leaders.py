"""Leaders: where the text of a callout stands round a view, and how its line runs to the feature.

For each callout the places round the view are tried, near ones first, and the cheapest is taken: no
text on anything, no leader across another leader, never level or upright, always through the centre of
the circle it points at; crossing foreign circles and lines costs.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import product

from setupsheet.drawing import texture
from setupsheet.drawing.boxes import Rect, Segment, crosses, grow, inside, meets_circle, overlap, segments_cross
from setupsheet.drawing.callout_text import block, block_size, level
from setupsheet.drawing.ink import Dimension, Fill, Pen, Polyline, Stroke
from setupsheet.drawing.needs import given
from setupsheet.drawing.profile import Profile
from setupsheet.drawing.strokes import arrowhead
from setupsheet.drawing.wanted import Callout, Target
from setupsheet.plane import Point2, distance, distance_to_segment, polar

_SHOULDER_MM = 3.0
_DOT_RADIUS_MM = 0.75
_STEP_MM = 5.0
_TARGETS_TRIED = 12
_BESIDE_MM = 1.5
_PER_MM = 0.8
"""Cost of a millimetre of leader; a millimetre that a text stands off the view costs 1."""
_LEADERS_APART_MM = 2.0
_CORNER_MM = 1.5


@dataclass
class Room:
    """What already stands round a view: text boxes, lines, circles, and the leaders placed so far."""

    outline: Rect
    boxes: list[Rect] = field(default_factory=list)
    segments: list[Segment] = field(default_factory=list)
    extensions: list[Segment] = field(default_factory=list)
    circles: list[tuple[Point2, float]] = field(default_factory=list)
    leaders: list[Segment] = field(default_factory=list)
    edges: list[Segment] = field(default_factory=list)
    """Edges and centre lines of the view: leaders may cross them, texts inside the view may not."""
    limit: Rect | None = None
    costs: list[tuple[float, float]] = field(default_factory=list)
    """Of each leader placed so far: what it costs, and how much of that for what it crosses."""


@dataclass(frozen=True, slots=True)
class Spot:
    """A candidate: lower left corner of the text block, and whether the leader comes from its left end."""

    box: Rect
    from_left: bool
    elbow: Point2
    tip: Point2
    cost: float
    crossing: float = 0.0


def place_callout(callout: Callout, room: Room, value: float, scale: float, profile: Profile) -> Dimension | None:
    """Return the callout with its leader at the best free place, and take that room; None if there is none.

    The callout's targets are paper points already.
    """
    best: Spot | None = None
    for rings, strict in ((range(7), True), (range(7, 16), True), (range(16), False)):
        best = _search(callout, rings, strict, room, profile)
        if best is not None:
            break
    best = best or _search_inside(callout, room, profile)
    if best is None:
        return None
    pointed = all(t.radius > 0 or t.towards is not None for t in callout.targets)
    strokes = _leader(callout, best, pointed, profile) + block(callout, best, profile)
    shoulder = _shoulder_end(callout, best, profile)
    room.leaders += [(best.tip, best.elbow), (best.elbow, shoulder)]
    room.boxes.append(_claim(best.box, best.from_left))
    room.costs.append((best.cost, best.crossing))
    first = callout.needs[0]
    return Dimension(
        "callout",
        first.feature,
        first.what,
        value,
        "; ".join(callout.lines or filter(None, (callout.texture, *map(" ".join, callout.frames)))),
        (best.tip,),
        best.elbow,
        0.0,
        tuple(strokes),
        scale,
        given(callout.needs),
    )


def _search(callout: Callout, rings: range, strict: bool, room: Room, profile: Profile) -> Spot | None:
    """Return the cheapest place in some rings; ``strict`` forbids leaders across leaders."""
    best: Spot | None = None
    for bound, box, from_left in _cheapest_first(callout, rings, room, profile):
        if best is not None and bound >= best.cost:
            break
        if not _free(_claim(box, from_left), room):
            continue
        spot = _best_leader(callout, (box, from_left), strict, room, profile)
        if spot is not None and (best is None or spot.cost < best.cost):
            best = spot
    return best


def _search_inside(callout: Callout, room: Room, profile: Profile) -> Spot | None:
    """Return a place on bare metal inside the view, for a view that is walled in by values on all sides."""
    wide, tall = block_size(callout, profile)
    (x0, y0), (x1, y1) = room.outline
    best: Spot | None = None
    lines = (*room.segments, *room.extensions, *room.leaders, *room.edges)
    for row in range(int((y1 - y0 - tall) / 3.0) + 1):
        for column in range(int((x1 - x0 - wide) / 3.0) + 1):
            low = (x0 + 3.0 * column, y0 + 3.0 * row)
            box = (low, (low[0] + wide, low[1] + tall))
            for from_left in (True, False):
                if best is not None and _least_cost(callout, box, from_left, profile) >= best.cost:
                    continue
                claim = grow(_claim(box, from_left), 0.8)
                if any(overlap(claim, other) for other in room.boxes) or any(crosses(claim, line) for line in lines):
                    continue
                if any(meets_circle(claim, centre, radius) for centre, radius in room.circles):
                    continue
                spot = _best_leader(callout, (box, from_left), False, room, profile)
                if spot is not None and (best is None or spot.cost < best.cost):
                    best = spot
    return best


def _places(block: Point2, rings: range, room: Room) -> Iterator[tuple[Rect, bool]]:
    """Yield text blocks right, left, above and below the view, in rings going outwards."""
    width, height = block
    (x0, y0), (x1, y1) = room.outline
    for ring in rings:
        away = 9.0 + 7.0 * ring
        y = y0 - away
        while y + height <= y1 + away + height:
            for x, from_left in ((x1 + away, True), (x0 - away - width, False)):
                yield ((x, y), (x + width, y + height)), from_left
            y += _STEP_MM
        x = x0 - away
        while x <= x1 + away:
            for low in (y1 + away, y0 - away - height):
                yield ((x, low), (x + width, low + height)), True
                yield ((x - width, low), (x, low + height)), False
            x += _STEP_MM * 1.5


def _cheapest_first(callout: Callout, rings: range, room: Room, profile: Profile) -> list[tuple[float, Rect, bool]]:
    """Return the candidates with the least that each can cost, the least first."""
    places = _places(block_size(callout, profile), rings, room)
    found = [
        (_far(box, room.outline) + _least_cost(callout, box, from_left, profile), box, from_left)
        for box, from_left in places
    ]
    return sorted(found, key=lambda item: item[0])


def _least_cost(callout: Callout, box: Rect, from_left: bool, profile: Profile) -> float:
    """Return what the leader to the nearest target costs at least."""
    elbow = _elbow(box, from_left, level(callout, profile))
    return _PER_MM * min(math.dist(t.at, elbow) - t.radius for t in callout.targets[:_TARGETS_TRIED])


def _elbow(box: Rect, from_left: bool, level: float) -> Point2:
    y = box[1][1] - level
    return (box[0][0] - _SHOULDER_MM, y) if from_left else (box[1][0] + _SHOULDER_MM, y)


def _claim(box: Rect, from_left: bool) -> Rect:
    """Return the room of a text block with its shoulder, and some more at its sides than above and below."""
    shoulder = _SHOULDER_MM + 0.5
    left, right = (shoulder, _BESIDE_MM) if from_left else (_BESIDE_MM, shoulder)
    return (box[0][0] - left, box[0][1]), (box[1][0] + right, box[1][1])


def _far(box: Rect, outline: Rect) -> float:
    """Return a floor for the cost: how far a block stands from the view."""
    dx = max(outline[0][0] - box[1][0], box[0][0] - outline[1][0], 0.0)
    dy = max(outline[0][1] - box[1][1], box[0][1] - outline[1][1], 0.0)
    return dx + dy


def _free(box: Rect, room: Room) -> bool:
    if room.limit is not None and not inside(box, room.limit):
        return False
    wide = grow(box, 1.2)
    if overlap(wide, grow(room.outline, 3.0)):
        return False
    if any(overlap(wide, other) for other in room.boxes):
        return False
    lines = room.segments + room.extensions + room.leaders
    return not any(crosses(wide, line) for line in lines)


def _best_leader(callout: Callout, place: tuple[Rect, bool], strict: bool, room: Room, profile: Profile) -> Spot | None:
    box, from_left = place
    elbow = _elbow(box, from_left, level(callout, profile))
    far = _far(box, room.outline)
    best: Spot | None = None
    for target in callout.targets[:_TARGETS_TRIED]:
        tip = _tip(target, elbow)
        if tip is None:
            continue
        line = (tip, elbow)
        cost = far + _PER_MM * distance(tip, elbow)
        if (best is not None and cost >= best.cost) or not _allowed(line, box, strict, room):
            continue
        crossing = _crossing_cost(line, target, room)
        if best is None or cost + crossing < best.cost:
            best = Spot(box, from_left, elbow, tip, cost + crossing, crossing)
    return best


def _tip(target: Target, elbow: Point2) -> Point2 | None:
    """Return the point that the arrow touches; None when the leader could not aim at the centre."""
    reach = distance(target.at, elbow)
    if reach <= target.radius + 4.0:
        return None
    along = math.degrees(math.atan2(elbow[1] - target.at[1], elbow[0] - target.at[0]))
    if target.towards is not None:
        out = math.degrees(math.atan2(target.towards[1], target.towards[0]))
        if abs((along - out + 180) % 360 - 180) > 40:
            return None
    return polar(target.at, target.radius, along)


def _allowed(line: Segment, box: Rect, strict: bool, room: Room) -> bool:
    dx, dy = line[1][0] - line[0][0], line[1][1] - line[0][1]
    angle = abs(math.degrees(math.atan2(dy, dx))) % 180
    if min(angle, 180 - angle, abs(angle - 90)) < 8:
        return False
    if crosses(box, line) or any(crosses(other, line) and not _holds(other, line[0]) for other in room.boxes):
        return False
    return not (strict and any(segments_cross(line, other) for other in room.leaders))


def _holds(box: Rect, point: Point2) -> bool:
    """Tell whether a box holds a point: what is pointed at may lie in another's room."""
    return box[0][0] <= point[0] <= box[1][0] and box[0][1] <= point[1] <= box[1][1]


def _crossing_cost(line: Segment, target: Target, room: Room) -> float:
    cost = 0.0
    for centre, radius in room.circles:
        same = distance(centre, target.at) < 1e-6
        if same:
            cost += 6.0 if radius > target.radius + 0.5 else 0.0
        elif distance_to_segment(centre, *line) < radius + 0.5:
            cost += 45.0
    cost += 22.0 * sum(segments_cross(line, other) for other in room.segments)
    cost += 8.0 * sum(segments_cross(line, other) for other in room.extensions)
    cost += 14.0 * sum(_beside(line, other) for other in room.leaders)
    return cost + 8.0 * _meets_corner(line, room.outline)


def _meets_corner(line: Segment, outline: Rect) -> bool:
    """Tell whether a leader leaves the view by a corner, where it reads as one of the part's own lines."""
    (x0, y0), (x1, y1) = outline
    return any(distance_to_segment((x, y), *line) < _CORNER_MM for x, y in product((x0, x1), (y0, y1)))


def _beside(a: Segment, b: Segment) -> bool:
    """Tell whether two leaders come so close that the eye loses which is which."""
    ends = (*((p, b) for p in a), *((p, a) for p in b))
    return any(distance_to_segment(point, *line) < _LEADERS_APART_MM for point, line in ends)


def _shoulder_end(callout: Callout, spot: Spot, profile: Profile) -> Point2:
    """Return where the shoulder ends: before words, at a frame, under the whole of a symbol."""
    gap = 1.0 if callout.lines else 0.0
    if callout.texture and not callout.lines:
        gap = -texture.width(callout.texture, profile.text_mm, profile.iso)
    x = spot.box[0][0] - gap if spot.from_left else spot.box[1][0] + gap
    return x, spot.elbow[1]


def _leader(callout: Callout, spot: Spot, pointed: bool, profile: Profile) -> list[Stroke]:
    """Return line and terminator: an arrow on an outline, a dot within a surface."""
    dx, dy = spot.tip[0] - spot.elbow[0], spot.tip[1] - spot.elbow[1]
    along = math.degrees(math.atan2(dy, dx))
    line = Polyline(Pen.DIM, (spot.tip, spot.elbow, _shoulder_end(callout, spot, profile)))
    if pointed:
        return [line, arrowhead(spot.tip, along, profile.arrow_mm)]
    return [line, Fill(tuple(polar(spot.tip, _DOT_RADIUS_MM, step * 30.0) for step in range(12)))]
