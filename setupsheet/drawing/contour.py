"""Join loose pieces of outline into contours: closed where they close, circles kept as circles.

Who cuts from a file needs one closed line and not four lines whose ends happen to meet.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from setupsheet.drawing.chains import MEET_MM, Piece, chains
from setupsheet.drawing.ink import Arc, Circle, Ellipse, Line, Pen, Polyline
from setupsheet.drawing.junctions import cut_at_ends
from setupsheet.plane import Point2, distance, polar
from setupsheet.solid import flat
from setupsheet.solid.flat import Outlines

Outline = Line | Circle | Arc | Ellipse | Polyline

_SAGITTA_MM = 0.005
"""How far a polyline that stands for a part of an ellipse may leave it."""


@dataclass(frozen=True, slots=True)
class Contour:
    """A chain of points with bulges (tangent of a quarter of the arc's angle, + counter-clockwise).

    The bulge belongs to the piece that starts at its point. ``round_`` is a circle or a whole ellipse
    instead.
    """

    pen: Pen
    points: tuple[Point2, ...] = ()
    bulges: tuple[float, ...] = ()
    closed: bool = False
    round_: Circle | Ellipse | None = None

    def reach(self) -> list[Point2]:
        """Return points that bound the contour; a bulge is bounded by its whole circle's part."""
        if self.round_ is not None:
            return _reach_of_round(self.round_)
        found = list(self.points)
        for index, bulge in enumerate(self.bulges):
            if bulge and (self.closed or index + 1 < len(self.points)):
                found += _extremes(self.points[index], self.points[(index + 1) % len(self.points)], bulge)
        return found


def contours(strokes: Iterable[Outline], unit_mm: float = 1.0) -> list[Contour]:
    """Return the contours of outline strokes (mm) in units of ``unit_mm``; pens stay apart."""
    by_pen: dict[Pen, list[Outline]] = {}
    for stroke in dict.fromkeys(strokes):
        by_pen.setdefault(stroke.pen, []).append(stroke)
    found: list[Contour] = []
    for pen in Pen:
        found += [_in_unit(contour, unit_mm) for contour in _of_pen(pen, by_pen.get(pen, []))]
    return found


def seen(outlines: Outlines) -> list[Outline]:
    """Return the visible edges of a view as strokes at full size."""
    return [_as_ink(edge) for edge in outlines.visible]


def _as_ink(edge: flat.Flat) -> Outline:
    pen = Pen.VISIBLE
    match edge:
        case flat.Line():
            return Line(pen, edge.a, edge.b)
        case flat.Circle():
            return Circle(pen, edge.centre, edge.radius)
        case flat.Arc():
            return Arc(pen, edge.centre, edge.radius, edge.from_deg, edge.to_deg)
        case flat.Ellipse():
            return Ellipse(pen, edge.centre, edge.major, edge.ratio, edge.from_deg, edge.to_deg)
        case flat.Polyline():
            return Polyline(pen, edge.points, edge.closed)


def hull(points: Iterable[Point2]) -> tuple[Point2, Point2]:
    """Return the lower left and upper right corner of the box round points; the origin for none."""
    many = list(points) or [(0.0, 0.0)]
    xs, ys = zip(*many, strict=True)
    return (min(xs), min(ys)), (max(xs), max(ys))


def reach(stroke: Outline) -> list[Point2]:
    """Return points that bound one stroke exactly (a part of an ellipse within 0.005 mm)."""
    whole = _whole(stroke)
    if whole:
        return _reach_of_round(whole)
    piece = _piece(stroke)
    return Contour(stroke.pen, piece.points, (*piece.bulges, 0.0)).reach()


def _of_pen(pen: Pen, strokes: Sequence[Outline]) -> list[Contour]:
    whole = [Contour(pen, closed=True, round_=round_) for stroke in strokes if (round_ := _whole(stroke))]
    ready = [_closed_polyline(stroke) for stroke in strokes if isinstance(stroke, Polyline) and stroke.closed]
    pieces = [_piece(stroke) for stroke in strokes if not _whole(stroke) and not _is_closed_polyline(stroke)]
    return whole + ready + [_named(pen, chain) for chain in chains(cut_at_ends([p for p in pieces if _has_length(p)]))]


def _whole(stroke: Outline) -> Circle | Ellipse | None:
    """Return the circle or ellipse that a stroke is all round, else None."""
    if isinstance(stroke, Circle):
        return stroke
    if isinstance(stroke, Arc | Ellipse) and abs(stroke.to_deg - stroke.from_deg) >= 360 - 1e-7:
        return Circle(stroke.pen, stroke.centre, stroke.radius) if isinstance(stroke, Arc) else stroke
    return None


def _is_closed_polyline(stroke: Outline) -> bool:
    return isinstance(stroke, Polyline) and stroke.closed


def _closed_polyline(stroke: Polyline) -> Contour:
    return Contour(stroke.pen, stroke.points, (0.0,) * len(stroke.points), closed=True)


def _piece(stroke: Outline) -> Piece:
    if isinstance(stroke, Line):
        return Piece((stroke.a, stroke.b), (0.0,))
    if isinstance(stroke, Arc):
        sweep = (stroke.to_deg - stroke.from_deg) % 360
        ends = (
            polar(stroke.centre, stroke.radius, stroke.from_deg),
            polar(stroke.centre, stroke.radius, stroke.to_deg),
        )
        return Piece(ends, (math.tan(math.radians(sweep) / 4),))
    points = stroke.points if isinstance(stroke, Polyline) else _flat(stroke)
    return Piece(points, (0.0,) * (len(points) - 1))


def _has_length(piece: Piece) -> bool:
    return len(piece.points) > 1 and (
        len(piece.points) > 2 or distance(piece.points[0], piece.points[1]) > MEET_MM or abs(piece.bulges[0]) > 1
    )


def _flat(ellipse: Ellipse | Circle) -> tuple[Point2, ...]:
    """Return points along a part of an ellipse, close enough that chords stay within the sagitta."""
    if isinstance(ellipse, Circle):
        return ()
    long_ = math.hypot(*ellipse.major) * max(1.0, ellipse.ratio)
    step = 2 * math.acos(max(0.0, 1 - _SAGITTA_MM / max(long_, _SAGITTA_MM)))
    sweep = math.radians((ellipse.to_deg - ellipse.from_deg) % 360)
    count = max(2, math.ceil(sweep / step))
    (cx, cy), (mx, my) = ellipse.centre, ellipse.major
    points = []
    for index in range(count + 1):
        at = math.radians(ellipse.from_deg) + sweep * index / count
        along, up = math.cos(at), math.sin(at) * ellipse.ratio
        points.append((cx + along * mx - up * my, cy + along * my + up * mx))
    return tuple(points)


def _named(pen: Pen, chain: Piece) -> Contour:
    """Return a chain as a contour; a ring of arcs of one circle is that circle."""
    if not chain.closed:
        return Contour(pen, chain.points, (*chain.bulges, 0.0))
    circle = _circle_of(pen, chain)
    if circle:
        return Contour(pen, closed=True, round_=circle)
    return Contour(pen, chain.points[:-1], chain.bulges, closed=True)


def _circle_of(pen: Pen, chain: Piece) -> Circle | None:
    if not all(chain.bulges):
        return None
    found = [_centre(chain.points[i], chain.points[i + 1], bulge) for i, bulge in enumerate(chain.bulges)]
    (centre, radius), *others = found
    if any(distance(centre, c) > MEET_MM or abs(radius - r) > MEET_MM for c, r in others):
        return None
    turned = sum(4 * math.atan(bulge) for bulge in chain.bulges)
    return Circle(pen, centre, radius) if abs(abs(turned) - math.tau) < 1e-6 else None


def _centre(a: Point2, b: Point2, bulge: float) -> tuple[Point2, float]:
    """Return centre and radius of the arc from a to b."""
    up = (1 - bulge * bulge) / (4 * bulge)
    centre = (a[0] + b[0]) / 2 - (b[1] - a[1]) * up, (a[1] + b[1]) / 2 + (b[0] - a[0]) * up
    return centre, distance(centre, a)


def _extremes(a: Point2, b: Point2, bulge: float) -> list[Point2]:
    """Return the outermost points of an arc along the axes that lie on it."""
    centre, radius = _centre(a, b, bulge)
    start, end = (a, b) if bulge > 0 else (b, a)
    first = math.degrees(math.atan2(start[1] - centre[1], start[0] - centre[0]))
    sweep = (math.degrees(math.atan2(end[1] - centre[1], end[0] - centre[0])) - first) % 360
    return [polar(centre, radius, angle) for angle in (0, 90, 180, 270) if (angle - first) % 360 <= sweep]


def _reach_of_round(round_: Circle | Ellipse) -> list[Point2]:
    (cx, cy) = round_.centre
    if isinstance(round_, Circle):
        wide = high = round_.radius
    else:
        (mx, my), ratio = round_.major, round_.ratio
        wide, high = math.hypot(mx, ratio * my), math.hypot(my, ratio * mx)
    return [(cx - wide, cy - high), (cx + wide, cy + high)]


def _in_unit(contour: Contour, unit_mm: float) -> Contour:
    def shrunk(point: Point2) -> Point2:
        return point[0] / unit_mm, point[1] / unit_mm

    round_ = contour.round_
    if isinstance(round_, Circle):
        round_ = replace(round_, centre=shrunk(round_.centre), radius=round_.radius / unit_mm)
    elif isinstance(round_, Ellipse):
        round_ = replace(round_, centre=shrunk(round_.centre), major=shrunk(round_.major))
    return replace(contour, points=tuple(shrunk(point) for point in contour.points), round_=round_)
