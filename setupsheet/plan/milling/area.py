"""Areas in the plane: where metal stands, and where a cutter's centre may go.

With passes.py and rim_ways.py the only file that knows the polygon library. A ``Region`` is opaque to everybody else.
All coordinates are setup X, Y in mm.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from itertools import pairwise
from typing import Any

from shapely import affinity
from shapely.geometry import LineString, MultiPolygon, Point, Polygon, box
from shapely.geometry.polygon import orient
from shapely.ops import unary_union

from setupsheet.part.shape import BoxShape, CircleShape, PolygonShape, Shape
from setupsheet.plane import Point2, polar
from setupsheet.solid.volume import ArcEdge, CircleLoop, EdgeLoop, LineEdge, Loop

Region = Any
"""A polygon or several; made and read only here."""

FAR_MM = 1000.0
"""Beyond any part that fits a bench machine: stands for 'out into the open'."""

_EDGE = 1e-6
_AREA = 1e-4


def nothing() -> Region:
    """Return the empty region."""
    return Polygon()


def rectangle(low: Point2, high: Point2) -> Region:
    """Return an axis-parallel rectangle."""
    return box(low[0], low[1], high[0], high[1])


def of_shape(shape: Shape) -> Region:
    """Return a shape as a region; round outlines as polygons drawn about them (never too small)."""
    if isinstance(shape, BoxShape):
        return rectangle(shape.low, shape.high)
    if isinstance(shape, CircleShape):
        return _about_circle(shape.centre, shape.diameter_mm / 2)
    if isinstance(shape, PolygonShape):
        return Polygon(shape.corners)
    return LineString([shape.start, shape.end]).buffer(shape.width_mm / 2, quad_segs=64)


def ring(centre: Point2, inner: float, outer: float) -> Region:
    """Return the area between two circles."""
    return _about_circle(centre, outer).difference(_about_circle(centre, inner))


def discs(circles: Iterable[tuple[Point2, float]]) -> Region:
    """Return many circles (centre, radius) as one region, each drawn about with few corners: 1 % too wide at most."""
    return unary_union([Point(centre).buffer(radius * 1.01, quad_segs=6) for centre, radius in circles])


def of_loop(loop: Loop, islands: Iterable[Loop] = ()) -> Region:
    """Return the area inside a loop less its islands; one may lie across it, as a boss on a level's edge."""
    rims = [_corners(island) for island in islands]
    made = Polygon(_corners(loop), rims)
    return made if made.is_valid else Polygon(_corners(loop)).difference(unary_union([Polygon(rim) for rim in rims]))


def union(regions: Iterable[Region]) -> Region:
    """Return everything that lies in any of the regions."""
    return unary_union(list(regions))


def without(region: Region, taken: Region) -> Region:
    """Return a region less another."""
    return region.difference(taken)


def common(a: Region, b: Region) -> Region:
    """Return the area that two regions share; edges along which they only touch are no area."""
    shared = a.intersection(b)
    return shared if isinstance(shared, Polygon | MultiPolygon) else MultiPolygon(polygons(shared))


def is_empty(region: Region) -> bool:
    """Tell whether nothing to speak of (under 1e-4 mm2) is left of a region."""
    return bool(region.area < _AREA)


def bounds(region: Region) -> tuple[Point2, Point2]:
    """Return the lower left and upper right corner of a region."""
    x0, y0, x1, y1 = region.bounds
    return (x0, y0), (x1, y1)


def covers(region: Region, other: Region) -> bool:
    """Tell whether a region holds another but for slivers."""
    return bool(other.difference(region).area < _AREA)


def distance_to_edge(region: Region, at: Point2) -> float:
    """Return how far a point lies inside a region from its nearest edge; negative if outside."""
    point = Point(at)
    inside = region.contains(point)
    return float(region.boundary.distance(point)) * (1 if inside else -1)


def distance(region: Region, at: Point2) -> float:
    """Return the distance from a point to a region, 0 inside."""
    return float(region.distance(Point(at))) if not region.is_empty else math.inf


def farthest(region: Region, at: Point2) -> float:
    """Return how far a region reaches from a point, 0 for none."""
    return 0.0 if region.is_empty else float(region.hausdorff_distance(Point(at)))


def run_out(region: Region, envelope: tuple[Point2, Point2]) -> Region:
    """Return a region that touches sides of the envelope, drawn out over those sides into the open."""
    (x0, y0), (x1, y1) = envelope
    pieces = [region]
    sides = [((x0, 0.0), (-1, 0)), ((x1, 0.0), (1, 0)), ((0.0, y0), (0, -1)), ((0.0, y1), (0, 1))]
    for (x, y), (dx, dy) in sides:
        strip = box(x - 1e-3, -FAR_MM, x + 1e-3, FAR_MM) if dx else box(-FAR_MM, y - 1e-3, FAR_MM, y + 1e-3)
        for piece in polygons(unary_union(pieces).intersection(strip)):
            px0, py0, px1, py1 = piece.bounds
            far = [px0 + min(0, dx) * FAR_MM, py0 + min(0, dy) * FAR_MM]
            pieces.append(box(far[0], far[1], px1 + max(0, dx) * FAR_MM, py1 + max(0, dy) * FAR_MM))
    return unary_union(pieces)


def squared(region: Region) -> Region:
    """Return a region in which every piece with slanted or round edges is replaced by its bounding box."""
    return unary_union([p if _is_square(p) else box(*p.bounds) for p in polygons(region)])


def directed(line: LineString, a: Point2, b: Point2) -> tuple[Point2, Point2]:
    """Return the ends of a line in the order in which a way from a to b meets them."""
    ends = [tuple(line.coords[0]), tuple(line.coords[-1])]
    ends.sort(key=lambda p: (p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1]))
    return ends[0], ends[1]


def polygons(region: Region) -> list[Polygon]:
    """Return the pieces of a region, their outsides counter-clockwise."""
    if isinstance(region, Polygon):
        return [] if region.is_empty else [orient(region)]
    parts = list(region.geoms) if hasattr(region, "geoms") else []
    return [orient(part) for part in parts if isinstance(part, Polygon) and not part.is_empty]


def lines(geometry: Any) -> list[LineString]:
    """Return the lines of a geometry."""
    if isinstance(geometry, LineString):
        return [] if geometry.is_empty else [geometry]
    return [part for part in getattr(geometry, "geoms", ()) if isinstance(part, LineString)]


def _is_square(polygon: Polygon) -> bool:
    for ring in (polygon.exterior, *polygon.interiors):
        corners = list(ring.coords)
        for a, b in pairwise(corners):
            if min(abs(a[0] - b[0]), abs(a[1] - b[1])) > 1e-6:
                return False
    return True


def _about_circle(centre: Point2, radius: float) -> Polygon:
    count = 256
    outer = radius / math.cos(math.pi / count)
    return Polygon([polar(centre, outer, 360 * i / count) for i in range(count)])


def _corners(loop: Loop) -> list[Point2]:
    if isinstance(loop, CircleLoop):
        return list(_about_circle(loop.centre, loop.radius).exterior.coords)
    corners: list[Point2] = []
    for edge in loop.edges:
        corners.append(edge.a)
        if isinstance(edge, ArcEdge):
            corners += _along_arc(edge)
    return corners


def _along_arc(edge: ArcEdge) -> list[Point2]:
    radius = math.dist(edge.a, edge.centre)
    start = math.degrees(math.atan2(edge.a[1] - edge.centre[1], edge.a[0] - edge.centre[0]))
    end = math.degrees(math.atan2(edge.b[1] - edge.centre[1], edge.b[0] - edge.centre[0]))
    sweep = (end - start) % 360 if edge.ccw else -((start - end) % 360)
    count = max(2, math.ceil(4 * abs(sweep)))
    return [polar(edge.centre, radius, start + sweep * i / count) for i in range(1, count)]


def carried(region: Region, flat: Callable[[Point2], Point2]) -> Region:
    """Return a region moved by a map of the plane that turns, mirrors and shifts only."""
    (ox, oy), (ax, ay), (bx, by) = flat((0.0, 0.0)), flat((1.0, 0.0)), flat((0.0, 1.0))
    return affinity.affine_transform(region, (ax - ox, bx - ox, ay - oy, by - oy, ox, oy))


def grown(region: Region, by: float) -> Region:
    """Return a region with its edges moved outward, corners kept sharp."""
    wider = region.buffer(by, join_style="mitre", mitre_limit=2.0)
    return unary_union([orient(polygon) for polygon in polygons(wider)])


def rounded_out(region: Region, by: float) -> Region:
    """Return a region with its edges moved outward, corners rounded."""
    return region.buffer(by, quad_segs=64)


def rounded_within(region: Region, radius: float) -> Region:
    """Return a region with its outward corners rounded: what a round cutter sweeps inside it."""
    return region.buffer(-radius, join_style="mitre").buffer(radius, quad_segs=64)


def unreached(target: Region, keep: Region, radius: float) -> Region:
    """Return what a cutter that keeps clear of ``keep`` cannot reach: gaps too narrow, inside corners."""
    if target.is_empty:
        return target
    free = box(*target.buffer(4 * radius).bounds).difference(grown(keep, radius))
    left = target.difference(free.buffer(radius + _EDGE, quad_segs=32)).difference(keep)
    return unary_union([p for p in polygons(left) if p.area > _AREA * 10])


def size(region: Region) -> float:
    """Return the area of a region, mm2."""
    return float(region.area)


def loops_of(region: Region) -> list[tuple[EdgeLoop, tuple[EdgeLoop, ...]]]:
    """Return a region with straight edges as loops with their islands."""
    found = []
    for polygon in (piece for piece in polygons(region) if piece.area > _AREA):
        rings = [_loop(ring) for ring in (polygon.exterior, *(_ccw(i) for i in polygon.interiors))]
        found.append((rings[0], tuple(rings[1:])))
    return found


def _ccw(ring: Any) -> Any:
    """Return a ring counter-clockwise."""
    return Polygon(ring).exterior if ring.is_ccw else Polygon(list(ring.coords)[::-1]).exterior


def _loop(ring: Any) -> EdgeLoop:
    corners = [(float(x), float(y)) for x, y in ring.simplify(_EDGE).coords]
    return EdgeLoop(tuple(LineEdge(a, b) for a, b in pairwise(corners)))


def chord(a: Point2, b: Point2, region: Region) -> tuple[Point2, Point2] | None:
    """Return the part of the line through a and b that lies in a region, in the direction from a to b."""
    length = math.dist(a, b)
    way = ((b[0] - a[0]) / length, (b[1] - a[1]) / length)
    line = LineString([(p[0] + s * FAR_MM * way[0], p[1] + s * FAR_MM * way[1]) for p, s in ((a, -1), (b, 1))])
    pieces = [piece for piece in lines(line.intersection(region)) if piece.length > _EDGE]
    return directed(pieces[0], a, b) if pieces else None
