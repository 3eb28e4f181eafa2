"""What the pages see of the bodies: plain strokes, still in mm of the part or the setup, not on paper."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

from setupsheet.drawing.boxes import Rect, join
from setupsheet.drawing.ink import Arc, Circle, Ellipse, Fill, Line, Polyline, Stroke, Text
from setupsheet.plane import Point2, angle_of, polar

Strokes = tuple[Stroke, ...]


@dataclass(frozen=True, slots=True)
class SetupViews:
    """One setup's bodies: from above in the setup frame, and obliquely for the two small pictures.

    ``before`` is the metal as it comes, ``after`` what is left when the setup is done; hidden lines are
    not in any of them. ``fewer_holes``: the small pictures show the first hole of every pattern alone.
    """

    before_from_above: Strokes = ()
    after_from_above: Strokes = ()
    before_oblique: Strokes = ()
    after_oblique: Strokes = ()
    fewer_holes: bool = False


@dataclass(frozen=True, slots=True)
class Views:
    """The finished part seen obliquely, and the views of every setup in order."""

    finished: Strokes
    setups: tuple[SetupViews, ...]


def bounds(strokes: Iterable[Stroke]) -> Rect | None:
    """Return the box round the strokes, or None where there are none; bows count as polylines."""
    boxes: list[Rect] = [(point, point) for stroke in strokes for point in chain(stroke)]
    return join(boxes) if boxes else None


def chain(stroke: Stroke, step_deg: float = 10.0) -> tuple[Point2, ...]:
    """Return points along a stroke, near enough for boxes and crossings (a text has none)."""
    if isinstance(stroke, Line):
        return stroke.a, stroke.b
    if isinstance(stroke, Polyline | Fill):
        return (*stroke.points, stroke.points[0]) if isinstance(stroke, Fill) or stroke.closed else stroke.points
    if isinstance(stroke, Text):
        return ()
    return _bow_points(stroke, step_deg)


def _bow_points(stroke: Arc | Circle | Ellipse, step_deg: float) -> tuple[Point2, ...]:
    start, sweep = 0.0, 360.0
    if not isinstance(stroke, Circle):
        start = stroke.from_deg
        sweep = (stroke.to_deg - stroke.from_deg) % 360 or 360.0
    count = max(2, math.ceil(sweep / step_deg))
    angles = [start + sweep * i / count for i in range(count + 1)]
    if isinstance(stroke, Ellipse):
        (mx, my), (cx, cy) = stroke.major, stroke.centre
        across = (-my * stroke.ratio, mx * stroke.ratio)
        pairs = [(math.cos(math.radians(a)), math.sin(math.radians(a))) for a in angles]
        return tuple((cx + c * mx + s * across[0], cy + c * my + s * across[1]) for c, s in pairs)
    return tuple(polar(stroke.centre, stroke.radius, a) for a in angles)


@dataclass(frozen=True, slots=True)
class Paper:
    """How mm of a view come onto paper: times ``scale``, then moved so that ``origin`` lies at ``at``."""

    scale: float
    origin: Point2 = (0.0, 0.0)
    at: Point2 = (0.0, 0.0)

    def point(self, point: Point2) -> Point2:
        """Return a point on paper."""
        x, y = (self.at[i] + (point[i] - self.origin[i]) * self.scale for i in (0, 1))
        return x, y

    def back(self, point: Point2) -> Point2:
        """Return the place in mm of a point on paper."""
        x, y = ((point[i] - self.at[i]) / self.scale + self.origin[i] for i in (0, 1))
        return x, y

    def stroke(self, stroke: Stroke) -> Stroke:
        """Return a stroke on paper; its pen keeps its width, a text its height."""
        if isinstance(stroke, Line):
            return replace(stroke, a=self.point(stroke.a), b=self.point(stroke.b))
        if isinstance(stroke, Polyline | Fill):
            return replace(stroke, points=tuple(self.point(p) for p in stroke.points))
        if isinstance(stroke, Text):
            return replace(stroke, at=self.point(stroke.at))
        if isinstance(stroke, Ellipse):
            major = (stroke.major[0] * self.scale, stroke.major[1] * self.scale)
            return replace(stroke, centre=self.point(stroke.centre), major=major)
        return replace(stroke, centre=self.point(stroke.centre), radius=stroke.radius * self.scale)


def arrow(tip: Point2, tail: Point2, length: float = 3.5) -> Fill:
    """Return a filled arrowhead at ``tip`` that points away from ``tail`` (15 degrees, paper mm)."""
    back = angle_of(tip, tail)
    return Fill((tip, polar(tip, length, back - 12), polar(tip, length, back + 12)))
