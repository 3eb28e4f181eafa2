"""Closed loops from the part's flat shapes: rectangles, rounded corners, slots, half planes (mm).

All loops run counter-clockwise. Rounded corners are true arcs, tangent to both sides.
"""

from __future__ import annotations

import math

from setupsheet.part.shape import BoxShape, CircleShape, PolygonShape, Shape, SlotShape
from setupsheet.plane import Point2, distance
from setupsheet.solid.volume import ArcEdge, CircleLoop, EdgeLoop, LineEdge, Loop

_SAME = 1e-9
"""mm; ends nearer than this are one point."""


def rectangle(low: Point2, high: Point2) -> EdgeLoop:
    """Return the rectangle between two opposite corners."""
    return polygon(((low[0], low[1]), (high[0], low[1]), (high[0], high[1]), (low[0], high[1])))


def polygon(corners: tuple[Point2, ...]) -> EdgeLoop:
    """Return a polygon with sharp corners, whichever way round they are given."""
    return chain(tuple(LineEdge(a, b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True)))


def chain(edges: tuple[LineEdge | ArcEdge, ...]) -> EdgeLoop:
    """Return edges that already run end to end as a counter-clockwise loop, without empty edges."""
    kept = tuple(edge for edge in edges if distance(edge.a, edge.b) > _SAME)
    return EdgeLoop(kept if area(EdgeLoop(kept)) > 0 else tuple(_reverse(edge) for edge in reversed(kept)))


def shape_loop(shape: Shape, widen_mm: float = 0.0, *, island: bool = False) -> Loop:
    """Return a shape's loop, each side moved outwards by half of ``widen_mm``.

    A polygon's radius rounds the corners that a cutter works in: the convex ones of an area that is
    cut, the others of an ``island`` that stands.
    """
    grow = widen_mm / 2
    match shape:
        case CircleShape():
            return CircleLoop(shape.centre, shape.diameter_mm / 2 + grow)
        case SlotShape():
            return slot(shape.start, shape.end, shape.width_mm / 2 + grow)
        case BoxShape():
            low = (shape.low[0] - grow, shape.low[1] - grow)
            high = (shape.high[0] + grow, shape.high[1] + grow)
            corners = tuple(edge.a for edge in rectangle(low, high).edges)
            limit = min(high[0] - low[0], high[1] - low[1]) / 2
            return rounded(corners, min(shape.corner_radius_mm, limit), island=False)
        case PolygonShape():
            corners = tuple(edge.a for edge in polygon(shape.corners).edges)
            return rounded(_offset(corners, grow), shape.corner_radius_mm, island=island)


def slot(start: Point2, end: Point2, radius: float) -> Loop:
    """Return the outline of a disc's path from ``start`` to ``end``."""
    length = distance(start, end)
    if length <= _SAME:
        return CircleLoop(start, radius)
    side = (-(end[1] - start[1]) / length * radius, (end[0] - start[0]) / length * radius)
    a, b = (start[0] - side[0], start[1] - side[1]), (end[0] - side[0], end[1] - side[1])
    c, d = (end[0] + side[0], end[1] + side[1]), (start[0] + side[0], start[1] + side[1])
    return chain((LineEdge(a, b), ArcEdge(b, c, end, True), LineEdge(c, d), ArcEdge(d, a, start, True)))


def rounded(corners: tuple[Point2, ...], radius: float, *, island: bool) -> EdgeLoop:
    """Return a counter-clockwise polygon with one radius at its convex corners (island: at the others)."""
    if radius <= _SAME:
        return polygon(corners)
    pieces = [
        _corner(corners[i - 1], corner, corners[(i + 1) % len(corners)], radius, island)
        for i, corner in enumerate(corners)
    ]
    edges: list[LineEdge | ArcEdge] = []
    for i, (_, end, arc) in enumerate(pieces):
        edges += [arc] if arc else []
        edges.append(LineEdge(end, pieces[(i + 1) % len(pieces)][0]))
    return chain(tuple(edges))


def _corner(
    before: Point2, corner: Point2, after: Point2, radius: float, island: bool
) -> tuple[Point2, Point2, ArcEdge | None]:
    """Return where the rounding of a corner starts and ends, and its arc (None where it stays sharp)."""
    u = _unit(corner, before)
    v = _unit(corner, after)
    convex = u[0] * v[1] - u[1] * v[0] < 0
    half = math.acos(max(-1.0, min(1.0, u[0] * v[0] + u[1] * v[1]))) / 2
    if convex == island or half > math.pi / 2 - 1e-9:
        return corner, corner, None
    reach = radius / math.tan(half)
    start = (corner[0] + u[0] * reach, corner[1] + u[1] * reach)
    end = (corner[0] + v[0] * reach, corner[1] + v[1] * reach)
    inward = (v[1], -v[0]) if not convex else (-v[1], v[0])
    centre = (end[0] + inward[0] * radius, end[1] + inward[1] * radius)
    return start, end, ArcEdge(start, end, centre, convex)


def half_plane(line: tuple[Point2, Point2], towards: Point2, low: Point2, high: Point2) -> EdgeLoop | None:
    """Return the part of a rectangle that lies beyond a line on the side ``towards``; None if nothing does."""
    corners = tuple(edge.a for edge in rectangle(low, high).edges)
    beyond = [(p[0] - line[0][0]) * towards[0] + (p[1] - line[0][1]) * towards[1] for p in corners]
    kept: list[Point2] = []
    for i, corner in enumerate(corners):
        j = (i + 1) % len(corners)
        if beyond[i] >= 0:
            kept.append(corner)
        if (beyond[i] > 0 > beyond[j]) or (beyond[i] < 0 < beyond[j]):
            share = beyond[i] / (beyond[i] - beyond[j])
            other = corners[j]
            kept.append((corner[0] + share * (other[0] - corner[0]), corner[1] + share * (other[1] - corner[1])))
    if len(kept) < 3 or max(beyond) <= _SAME:
        return None
    return polygon(tuple(kept))


def area(loop: Loop) -> float:
    """Return the area inside a loop in mm2; negative for edges that run clockwise."""
    if isinstance(loop, CircleLoop):
        return math.pi * loop.radius**2
    total = 0.0
    for edge in loop.edges:
        total += (edge.a[0] * edge.b[1] - edge.b[0] * edge.a[1]) / 2
        if isinstance(edge, ArcEdge):
            sweep = sweep_rad(edge)
            radius = distance(edge.a, edge.centre)
            total += radius**2 * (sweep - math.sin(sweep)) / 2
    return total


def sweep_rad(arc: ArcEdge) -> float:
    """Return the angle that an arc turns through in radians, positive counter-clockwise."""
    start = math.atan2(arc.a[1] - arc.centre[1], arc.a[0] - arc.centre[0])
    end = math.atan2(arc.b[1] - arc.centre[1], arc.b[0] - arc.centre[0])
    return (end - start) % math.tau if arc.ccw else -((start - end) % math.tau)


def bounds(loop: Loop) -> tuple[Point2, Point2]:
    """Return the lowest and highest corner of a box round the loop."""
    if isinstance(loop, CircleLoop):
        (x, y), r = loop.centre, loop.radius
        return (x - r, y - r), (x + r, y + r)
    points = [edge.a for edge in loop.edges]
    for edge in loop.edges:
        if isinstance(edge, ArcEdge):
            points += _extremes(edge)
    xs, ys = zip(*points, strict=True)
    return (min(xs), min(ys)), (max(xs), max(ys))


def _extremes(arc: ArcEdge) -> list[Point2]:
    start = math.atan2(arc.a[1] - arc.centre[1], arc.a[0] - arc.centre[0])
    sweep, radius = sweep_rad(arc), distance(arc.a, arc.centre)
    found = []
    for x, y in ((1, 0), (0, 1), (-1, 0), (0, -1)):
        turned = math.atan2(y, x) - start
        if (turned % math.tau <= sweep) if sweep > 0 else (-turned % math.tau <= -sweep):
            found.append((arc.centre[0] + x * radius, arc.centre[1] + y * radius))
    return found


def _offset(corners: tuple[Point2, ...], grow: float) -> tuple[Point2, ...]:
    """Move each side of a counter-clockwise polygon outwards, mitred."""
    if not grow:
        return corners
    moved = []
    for i, corner in enumerate(corners):
        u, v = _unit(corners[i - 1], corner), _unit(corner, corners[(i + 1) % len(corners)])
        n, m = (u[1], -u[0]), (v[1], -v[0])
        share = grow / (1 + n[0] * m[0] + n[1] * m[1])
        moved.append((corner[0] + (n[0] + m[0]) * share, corner[1] + (n[1] + m[1]) * share))
    return tuple(moved)


def _reverse(edge: LineEdge | ArcEdge) -> LineEdge | ArcEdge:
    if isinstance(edge, LineEdge):
        return LineEdge(edge.b, edge.a)
    return ArcEdge(edge.b, edge.a, edge.centre, not edge.ccw)


def _unit(a: Point2, b: Point2) -> Point2:
    length = distance(a, b)
    return ((b[0] - a[0]) / length, (b[1] - a[1]) / length) if length > _SAME else (0.0, 0.0)
