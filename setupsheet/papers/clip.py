"""Cut strokes off at a box: what a sheet of several shows of a drawing."""

from __future__ import annotations

from itertools import pairwise

from setupsheet.drawing import lettering
from setupsheet.drawing.boxes import Rect
from setupsheet.drawing.ink import Fill, Line, Stroke, Text
from setupsheet.papers.views import chain
from setupsheet.plane import Point2

_NEAR = 1e-9


def clipped(stroke: Stroke, box: Rect) -> list[Stroke]:
    """Return what of a stroke lies in a box; texts and filled areas are there whole or not at all."""
    if isinstance(stroke, Text):
        wide = lettering.width(lettering.drawable(stroke.text), stroke.height, stroke.bold)
        far = (stroke.at[0] + wide, stroke.at[1] + stroke.height)
        return [stroke] if _inside(stroke.at, box) and _inside(far, box) else []
    points = stroke.points if isinstance(stroke, Fill) else chain(stroke)
    if all(_inside(point, box) for point in points):
        return [stroke]
    if isinstance(stroke, Fill):
        return []
    runs = [run for a, b in pairwise(points) if (run := _run(a, b, box))]
    return [Line(stroke.pen, a, b) for a, b in runs]


def _inside(point: Point2, box: Rect) -> bool:
    return all(box[0][i] - _NEAR <= point[i] <= box[1][i] + _NEAR for i in (0, 1))


def _run(a: Point2, b: Point2, box: Rect) -> tuple[Point2, Point2] | None:
    """Return the part of a straight line that lies in a box: what its four sides leave of it."""
    low, high = 0.0, 1.0
    for axis in (0, 1):
        way = b[axis] - a[axis]
        if abs(way) < _NEAR:
            if not box[0][axis] <= a[axis] <= box[1][axis]:
                return None
            continue
        ends = sorted(((box[0][axis] - a[axis]) / way, (box[1][axis] - a[axis]) / way))
        low, high = max(low, ends[0]), min(high, ends[1])
    if low >= high:
        return None
    start, end = ((a[0] + s * (b[0] - a[0]), a[1] + s * (b[1] - a[1])) for s in (low, high))
    return start, end
