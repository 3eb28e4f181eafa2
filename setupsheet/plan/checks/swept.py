"""Where a cutter goes, as seen from above: distances to boxes, places along its way, what stands beside it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from setupsheet.plan.checks.case import Case, Clamped
from setupsheet.plan.record import ArcMove, Body, Move, Step
from setupsheet.plane import Point2, distance_to_segment, polar

_EVERY_MM, _EVERY_DEG = 6.0, 3.0


def to_box(at: Point2, body: Body) -> float:
    """Return how far a point lies from a body as seen from above; 0 inside it."""
    away_x = max(body.low[0] - at[0], 0.0, at[0] - body.high[0])
    away_y = max(body.low[1] - at[1], 0.0, at[1] - body.high[1])
    return math.hypot(away_x, away_y)


def leg_to_box(a: Point2, b: Point2, body: Body) -> float:
    """Return how near a straight way comes to a body as seen from above."""
    if _crosses(a, b, body):
        return 0.0
    corners = [(x, y) for x in (body.low[0], body.high[0]) for y in (body.low[1], body.high[1])]
    return min(to_box(a, body), to_box(b, body), *(distance_to_segment(corner, a, b) for corner in corners))


def _crosses(a: Point2, b: Point2, body: Body) -> bool:
    """Tell whether a straight way runs through a body."""
    first, last = 0.0, 1.0
    for i in (0, 1):
        step = b[i] - a[i]
        if abs(step) < 1e-12:
            if not body.low[i] < a[i] < body.high[i]:
                return False
            continue
        ends = sorted(((body.low[i] - a[i]) / step, (body.high[i] - a[i]) / step))
        first, last = max(first, ends[0]), min(last, ends[1])
    return first < last


def move_to_box(move: Move, body: Body) -> float:
    """Return how near a move's cutter centre comes to a body as seen from above."""
    legs = list(zip(move.path, move.path[1:], strict=False)) or [(move.path[0], move.path[0])]
    return min(leg_to_box(a, b, body) for a, b in legs)


def arc_way(arc: ArcMove) -> tuple[Point2, ...]:
    """Return the way of the cutter's centre on an arc as places close together, its run-in first."""
    sweep = arc.to_deg - arc.from_deg
    count = max(1, math.ceil(abs(sweep) / _EVERY_DEG))
    turned = [polar(arc.centre, arc.radius, arc.from_deg + sweep * i / count) for i in range(count + 1)]
    return (polar(arc.centre, arc.run_in, arc.from_deg), *turned)


def ways(step: Step) -> tuple[Move, ...]:
    """Return the moves of a step, its arcs on a rotary table as moves of many short legs."""
    arcs = tuple(Move(arc.entry, arc.z, arc.z_clear, arc_way(arc), "rotary_table", arc.why) for arc in step.arcs)
    return (*step.moves, *arcs)


def lowest(step: Step) -> tuple[Move, ...]:
    """Return the moves of a step at its lowest height, each way once."""
    moves = ways(step)
    if not moves:
        return ()
    floor = min(move.z for move in moves)
    return tuple({move.path: move for move in moves if move.z < floor + 1e-6}.values())


def places(move: Move) -> Iterator[Point2]:
    """Yield places along a move, no farther apart than a few millimetres."""
    yield move.path[0]
    for a, b in zip(move.path, move.path[1:], strict=False):
        count = max(1, math.ceil(math.dist(a, b) / _EVERY_MM))
        for i in range(1, count + 1):
            yield a[0] + (b[0] - a[0]) * i / count, a[1] + (b[1] - a[1]) * i / count


def ring(at: Point2, radius: float, count: int = 12) -> list[Point2]:
    """Return places on a circle, the four along the axes among them."""
    return [polar(at, radius, 360.0 * i / count) for i in range(count)]


def may_exceed(case: Case, held: Clamped, step: Step, limit: float) -> bool:
    """Tell whether anything at all can stand higher over the lowest pass than a limit: a cheap first look."""
    tops = [held.laid.box(case.part.stock.box).high[2], *(jaw.high[2] for jaw in held.raised)]
    heights = [*(move.z for move in step.moves), *(arc.z for arc in step.arcs)]
    return bool(heights) and max(tops) - min(heights) > limit


def wall_height(case: Case, held: Clamped, step: Step) -> float:
    """Return how high metal stands beside the cutter over its lowest pass, once the step is done; 0 for none."""
    if step.tool is None:
        return 0.0
    reach, gone, found = step.tool.diameter_mm / 2 + 0.05, held.gone_by(step), 0.0
    for move in lowest(step):
        for at in places(move):
            for beside in ring(at, reach, 8):
                spans = case.metal(held, gone, beside)
                if spans:
                    found = max(found, spans[-1][1] - move.z)
    return found


def highest_under_holder(case: Case, held: Clamped, step: Step, radius: float) -> float:
    """Return how high metal, a jaw or a clamp stands over the lowest pass within the holder's radius."""
    found, gone = 0.0, held.gone_at(step)
    for move in lowest(step):
        for body in held.raised:
            if move_to_box(move, body) < radius:
                found = max(found, body.high[2] - move.z)
    floor = min([*(move.z for move in step.moves), *(arc.z for arc in step.arcs)], default=0.0)
    for near in _under_holder(step, radius):
        spans = case.metal(held, gone, near)
        if spans:
            found = max(found, spans[-1][1] - floor)
    return found


def _under_holder(step: Step, radius: float) -> list[Point2]:
    """Return places under the holder along the lowest pass, those that lie close together only once."""
    found: dict[tuple[int, int], Point2] = {}
    for move in lowest(step):
        for at in places(move):
            for near in (*ring(at, radius * 0.5, 6), *ring(at, radius, 6)):
                found.setdefault((round(near[0] / 3), round(near[1] / 3)), near)
    return list(found.values())
