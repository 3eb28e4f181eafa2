"""A view before it has a scale: strokes and cut areas in part millimetres along the paper's axes.

``seen_of`` (views.py) makes it from the kernel's outlines; everything later reads only this.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from setupsheet.drawing.boxes import Rect
from setupsheet.drawing.frames import Frame
from setupsheet.drawing.ink import Arc, Circle, Ellipse, Fill, Line, Polyline, Stroke
from setupsheet.drawing.strokes import straights
from setupsheet.plane import Point2, distance

Outline = tuple[Point2, ...]
"""A closed chain of points."""


@dataclass(frozen=True, slots=True)
class Area:
    """A cut area: its rim, the openings in it, all as closed chains fine enough for hatching."""

    rim: Outline
    openings: tuple[Outline, ...] = ()


@dataclass(frozen=True, slots=True)
class CutPath:
    """A cutting plane that stands on paper-right of the main view, with steps.

    ``levels`` are (from, to, at): between ``from`` and ``to`` along the part axis ``along`` the plane
    stands at ``at`` along the axis ``across``. The section is seen from the view's face.
    """

    along: int
    across: int
    levels: tuple[tuple[float, float, float], ...]

    def at(self, place: float) -> float:
        """Return where the plane stands at a place along it."""
        for low, high, level in self.levels:
            if low - 1e-9 <= place <= high + 1e-9:
                return level
        return self.levels[-1][2]


@dataclass(frozen=True, slots=True)
class Seen:
    """What a view shows. ``letter`` is '' for a plain view; ``cut`` is None for a view without a cut."""

    name: str
    frame: Frame
    box: Rect
    visible: tuple[Stroke, ...]
    hidden: tuple[Stroke, ...] = ()
    areas: tuple[Area, ...] = ()
    cut: CutPath | None = None
    letter: str = ""
    is_picture: bool = False
    scale_words: str = field(default="")
    window: tuple[Point2, float] | None = None
    """The circle that a detail shows of its view, None for a whole view."""


def scaled(stroke: Stroke, by: float) -> Stroke:
    """Return a stroke of a view at a scale."""
    if isinstance(stroke, Line):
        return Line(stroke.pen, _times(stroke.a, by), _times(stroke.b, by))
    if isinstance(stroke, Circle | Arc):
        return replace(stroke, centre=_times(stroke.centre, by), radius=stroke.radius * by)
    if isinstance(stroke, Ellipse):
        return replace(stroke, centre=_times(stroke.centre, by), major=_times(stroke.major, by))
    if isinstance(stroke, Polyline | Fill):
        return replace(stroke, points=tuple(_times(p, by) for p in stroke.points))
    return replace(stroke, at=_times(stroke.at, by))


def _times(point: Point2, by: float) -> Point2:
    return point[0] * by, point[1] * by


def lines_at(seen: Seen, across: int, value: float) -> list[tuple[float, float]]:
    """Return the extents of all visible straight strokes that lie at a coordinate.

    ``across`` 0: upright lines at that paper X (extents along Y); 1: level lines at that paper Y.
    """
    found = []
    for stroke in seen.visible:
        for a, b in straights(stroke):
            if abs(a[across] - value) < 1e-4 and abs(b[across] - value) < 1e-4:
                ends = sorted((a[1 - across], b[1 - across]))
                if ends[1] - ends[0] > 1e-4:
                    found.append((ends[0], ends[1]))
    return found


def corners_at(seen: Seen, across: int, value: float) -> list[float]:
    """Return where visible strokes have an end at a coordinate (corners of slanted edges)."""
    found = []
    for stroke in seen.visible:
        for a, b in straights(stroke):
            found += [p[1 - across] for p in (a, b) if abs(p[across] - value) < 1e-4]
    return found


def circles(seen: Seen) -> list[Circle]:
    """Return the visible full circles of a view."""
    return [stroke for stroke in seen.visible if isinstance(stroke, Circle)]


def shows_circle(seen: Seen, centre: Point2) -> bool:
    """Tell whether any visible circle or arc stands about a point."""
    return any(isinstance(stroke, Circle | Arc) and distance(stroke.centre, centre) < 1e-3 for stroke in seen.visible)
