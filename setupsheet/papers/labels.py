"""Find free places for labels on a picture: near their point, never on each other. Paper mm."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from setupsheet.drawing import lettering
from setupsheet.drawing.boxes import Rect, inside, rect
from setupsheet.drawing.ink import Line, Pen, Stroke, Text
from setupsheet.papers.grid import Grid
from setupsheet.papers.views import chain
from setupsheet.plane import Point2, distance, polar

_DIRECTIONS = (45.0, 0.0, 315.0, 135.0, 180.0, 225.0, 90.0, 270.0, 22.5, 337.5, 157.5, 202.5, 67.5, 112.5, 247.5, 292.5)
_REACHES = (0.6, 2.5, 4.0, 6.0, 8.0, 10.5, 13.5, 17.0, 21.0, 26.0, 32.0)
"""Gaps between a point's circle and its label that are tried, the nearest first."""
_NEAR = _REACHES[:6]
"""Gaps at which a place without lines is looked for."""
_LEADER_FROM = 2.0
"""A label further off than this gets a thin line to its point."""
_CLEAR = 0.5
MANY = 30
"""Up to so many labels are all placed, near or far."""


@dataclass(frozen=True, slots=True)
class Label:
    """A text that belongs to a round thing of ``radius`` at ``point``."""

    point: Point2
    radius: float
    text: str
    height: float
    path: str = ""
    bold: bool = True


@dataclass(slots=True)
class Places:
    """The picture's frame and what is taken on it; grows while labels are placed.

    Lines are crossed by a label only where no place near its point is free of them.
    """

    frame: Rect
    grid: Grid = field(default_factory=Grid)

    def free(self, box: Rect) -> bool:
        """Tell whether a box lies inside the frame and touches nothing."""
        return inside(box, self.frame) and not self.grid.touches(box, _CLEAR)

    def clear(self, box: Rect) -> bool:
        """Tell whether a free box crosses no line either."""
        return self.free(box) and not self.grid.crossed(box)

    def keep_off(self, strokes: Iterable[Stroke]) -> None:
        """Keep labels off strokes (paper mm) where there is room beside them."""
        for stroke in strokes:
            for line in itertools.pairwise(chain(stroke)):
                self.grid.add_line(line)

    def take(self, box: Rect) -> None:
        """Keep a box for good."""
        self.grid.add_box(box)

    def place(self, label: Label, *, or_on_it: bool = True) -> list[Stroke]:
        """Return the strokes of a label at the nearest free place; the last resort is on its point, or none at all."""
        wide = lettering.width(lettering.drawable(label.text), label.height, label.bold)
        for reaches, good in ((_NEAR, self.clear), (_REACHES, self.free)):
            for reach in reaches:
                for angle in _DIRECTIONS:
                    box = _box_beside(label, wide, angle, reach)
                    if good(box):
                        self.take(box)
                        return _strokes(label, box, reach)
        if not or_on_it:
            return []
        box = _box_beside(label, wide, 0.0, -wide / 2 - label.radius)
        self.take(box)
        return _strokes(label, box, 0.0)


def thinned(labels: Sequence[Label], places: Places) -> list[Label]:
    """Return the labels that a picture has room for: all, or of many holes in rows those at the ends of the rows.

    Labels come in the order of the work; between two ends the holes follow each other in that order.
    """
    if len(labels) <= MANY or len(_fitting(labels, places, whole=True)) == len(labels):
        return list(labels)
    ways = [_way(a.point, b.point) for a, b in itertools.pairwise(labels)]
    inner = [False, *(one == other for one, other in itertools.pairwise(ways)), False]
    return _fitting([label for label, between in zip(labels, inner, strict=True) if not between], places)


def _fitting(labels: Sequence[Label], places: Places, *, whole: bool = False) -> list[Label]:
    """Return the labels that find a place near their points, in order; where the ``whole`` counts, up to a miss."""
    trial = Places(places.frame, places.grid.copy())
    fitting: list[Label] = []
    for label in labels:
        wide = lettering.width(lettering.drawable(label.text), label.height, label.bold)
        boxes = (_box_beside(label, wide, angle, reach) for reach in _NEAR for angle in _DIRECTIONS)
        box = next((box for box in boxes if trial.free(box)), None)
        if box is not None:
            trial.take(box)
            fitting.append(label)
        elif whole:
            break
    return fitting


def _way(a: Point2, b: Point2) -> Point2:
    """Return in which direction the next hole lies, to a degree or so."""
    far = distance(a, b) or 1.0
    return round((b[0] - a[0]) / far, 2), round((b[1] - a[1]) / far, 2)


def _box_beside(label: Label, wide: float, angle: float, reach: float) -> Rect:
    """Return the text's box on one side of the point, ``reach`` away from its circle."""
    near = polar(label.point, label.radius + reach, angle)
    along, up = polar((0.0, 0.0), 1.0, angle)
    x = near[0] + wide / 2 * _side(along) - wide / 2
    y = near[1] + label.height / 2 * _side(up) - label.height / 2
    return rect(x, y, x + wide, y + label.height)


def _side(value: float) -> int:
    return 1 if value > 0.1 else -1 if value < -0.1 else 0


def _strokes(label: Label, box: Rect, reach: float) -> list[Stroke]:
    text = Text(box[0], label.height, label.text, bold=label.bold, halo=True, path=label.path)
    if reach < _LEADER_FROM:
        return [text]
    corner = (
        min(max(label.point[0], box[0][0]), box[1][0]),
        min(max(label.point[1], box[0][1]), box[1][1]),
    )
    length = distance(label.point, corner)
    if length <= label.radius:
        return [text]
    share = label.radius / length
    start = tuple(p + share * (c - p) for p, c in zip(label.point, corner, strict=True))
    return [Line(Pen.THIN, (start[0], start[1]), corner), text]
