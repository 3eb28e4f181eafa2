"""Centre lines: crosses on circles seen end on, pitch circles, axes of round things seen from the side."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from setupsheet.drawing.boxes import Rect
from setupsheet.drawing.ink import DASHES_MM, Circle, Line, Pen, Stroke
from setupsheet.plane import Point2, angle_of, distance, polar

_TWO_PERIODS_MM = 2 * sum(DASHES_MM[Pen.CENTRE])


@dataclass(frozen=True, slots=True)
class Ring:
    """A pitch circle on paper: centre, radius, the centres of its holes."""

    centre: Point2
    radius: float
    holes: tuple[Point2, ...]


def centre_line(a: Point2, b: Point2) -> Line:
    """Return a centre line; a short one is continuous (ISO 128: short centre lines)."""
    return Line(Pen.CENTRE if distance(a, b) >= _TWO_PERIODS_MM else Pen.THIN, a, b)


def crosses_on(circles: Iterable[tuple[Point2, float]], rings: Iterable[Ring], overrun: float) -> list[Stroke]:
    """Return the centre lines of circles (centre, largest radius); holes of a ring get a radial one."""
    rings = list(rings)
    strokes: list[Stroke] = [Circle(Pen.CENTRE, ring.centre, ring.radius) for ring in rings]
    known = largest(circles)
    bare = [ring.centre for ring in rings if all(distance(ring.centre, c) > 1e-3 for c, _ in known)]
    for centre, radius in (*known, *((centre, 0.0) for centre in bare)):
        reach = radius + overrun
        ring_here = next((r for r in rings if any(distance(h, centre) < 1e-4 for h in r.holes)), None)
        if ring_here is not None:
            out = angle_of(ring_here.centre, centre)
            strokes.append(centre_line(polar(centre, -reach, out), polar(centre, reach, out)))
            continue
        x, y = centre
        strokes.append(centre_line((x - reach, y), (x + reach, y)))
        strokes.append(centre_line((x, y - reach), (x, y + reach)))
    return strokes


def slot_axis(ends: tuple[Point2, Point2], half: float, outline: Rect, overrun: float) -> Line | None:
    """Return the axis of a slot on paper, ``half`` its half width; an open end runs out over the view's outline."""
    (x0, y0), (x1, y1) = outline
    start, end = ends
    long_ = distance(start, end)
    if long_ < 1e-6:
        return None
    along = (end[0] - start[0]) / long_, (end[1] - start[1]) / long_
    low, high = -half, long_ + half
    for origin, step, least, most in ((start[0], along[0], x0, x1), (start[1], along[1], y0, y1)):
        if abs(step) > 1e-9:
            near, far = sorted(((least - origin) / step, (most - origin) / step))
            low, high = max(low, near), min(high, far)
    low, high = low - overrun, high + overrun
    a, b = ((start[0] + t * along[0], start[1] + t * along[1]) for t in (low, high))
    return centre_line(a, b)


def largest(circles: Iterable[tuple[Point2, float]]) -> list[tuple[Point2, float]]:
    """Return each centre once, with its largest radius, in the order of first meeting."""
    found: dict[tuple[float, float], tuple[Point2, float]] = {}
    for centre, radius in circles:
        key = (round(centre[0], 4), round(centre[1], 4))
        if key not in found or found[key][1] < radius:
            found[key] = (centre, radius)
    return list(found.values())
