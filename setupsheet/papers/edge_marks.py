"""The readings of edges, printed along the left and the lower side of a plan view. Paper mm."""

from __future__ import annotations

from collections.abc import Sequence

from setupsheet.drawing import lettering
from setupsheet.drawing.boxes import Rect
from setupsheet.drawing.ink import Pen, Polyline, Stroke, Text
from setupsheet.drawing.spread import spread_within
from setupsheet.papers.views import Paper
from setupsheet.plan.record import EdgeMark

_HEIGHT = 2.8
_PITCH = 4.0
_ELBOW = 2.5
"""Room between the window and the texts in which a line may step aside."""


def edge_marks(edges: Sequence[EdgeMark], paper: Paper, window: Rect, path: str) -> list[Stroke]:
    """Return the readings of both axes with thin lines to their edges; ``path`` is the setup's pointer."""
    strokes: list[Stroke] = []
    for axis in ("x", "y"):
        marked = [(edge, f"{path}/edges/{i}/shown") for i, edge in enumerate(edges) if edge.axis == axis]
        marked.sort(key=lambda pair: pair[0].value)
        places = [edge.value * paper.scale for edge, _ in marked]
        low, high = (window[0][0], window[1][0]) if axis == "x" else (window[0][1], window[1][1])
        moved = spread_within(places, [_PITCH] * len(places), 0.0, low, high)
        for (edge, pointer), place, to in zip(marked, places, moved, strict=True):
            strokes += _mark(edge, pointer, (place, to), window)
    return strokes


def _mark(edge: EdgeMark, pointer: str, way: tuple[float, float], window: Rect) -> list[Stroke]:
    """Return one reading: a tick across the window's side, an elbow, the text; X readings stand upright."""
    place, to = way
    (x0, y0), _ = window
    if edge.axis == "y":
        line = Polyline(Pen.THIN, ((x0 + 2.0, place), (x0, place), (x0 - _ELBOW, to)))
        at = (x0 - _ELBOW - 0.5, to - _HEIGHT / 2)
        return [line, Text(at, _HEIGHT, edge.shown, "right", path=pointer)]
    line = Polyline(Pen.THIN, ((place, y0 + 2.0), (place, y0), (to, y0 - _ELBOW)))
    at = (to + _HEIGHT / 2, y0 - _ELBOW - 0.5)
    return [line, Text(at, _HEIGHT, edge.shown, "right", 90.0, path=pointer)]


def longest(edges: Sequence[EdgeMark], axis: str) -> float:
    """Return the room that the readings of one axis take across their side."""
    widths = [lettering.width(edge.shown, _HEIGHT) for edge in edges if edge.axis == axis]
    return max(widths, default=0.0) + _ELBOW + 0.5
