"""Cuts on the rotary table: their readings as lines of a step, and their ways in the plan view. Paper mm."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from setupsheet.drawing.boxes import Rect
from setupsheet.drawing.ink import Arc, Circle, Pen, Stroke
from setupsheet.papers.said import NOTHING, Said, shown
from setupsheet.papers.views import Paper, arrow
from setupsheet.plan.record import ArcMove, Setup, Step
from setupsheet.plane import Point2, polar

_EVERY_DEG = 2.0
_WHOLE = 360.0
_ARROW_DEG = 4.0


@dataclass(frozen=True, slots=True)
class Turned:
    """The arcs of a step between the same two angles: the last X reading, those before it, the table's two angles.

    ``to`` is nothing where the table makes a whole turn.
    """

    reading: Said
    rough: tuple[Said, ...]
    way: Said
    start: Said
    to: Said


def turned(step: Step, path: str) -> tuple[Turned, ...]:
    """Return the settings of a step's arcs in their order, each reading once; the last pass by its own angles."""
    found = []
    numbered = [(i, arc) for i, arc in enumerate(step.arcs)]
    for _, group in groupby(numbered, key=lambda pair: (pair[1].from_deg, pair[1].to_deg)):
        rows = list(group)
        readings = {shown(arc.shown, "radius", f"{path}/arcs/{i}/shown").text: (i, arc) for i, arc in reversed(rows)}
        said = [
            shown(arc.shown, "radius", f"{path}/arcs/{i}/shown") for i, arc in sorted(readings.values(), key=_place)
        ]
        i, arc = rows[-1]
        whole = abs(arc.to_deg - arc.from_deg) >= _WHOLE - 1e-6
        way, start, to = (shown(arc.shown, key, f"{path}/arcs/{i}/shown") for key in ("turn", "from", "to"))
        found.append(Turned(said[-1], tuple(said[:-1]), way, start, NOTHING if whole else to))
    return tuple(found)


def _place(pair: tuple[int, ArcMove]) -> int:
    return pair[0]


def arc_strokes(setup: Setup, paper: Paper, window: Rect) -> list[Stroke]:
    """Return the way of the cutter's centre on the last pass of each turned step, its head the way it goes."""
    strokes: list[Stroke] = []
    for step in setup.steps:
        for arc in (arc for arc in step.arcs if arc.why == "last"):
            centre, radius = paper.point(arc.centre), arc.radius * paper.scale
            low, high = sorted((arc.from_deg, arc.to_deg))
            strokes += clipped(Arc(Pen.CENTRE, centre, radius, low, high), window)
            back = _ARROW_DEG if arc.to_deg < arc.from_deg else -_ARROW_DEG
            tip = polar(centre, radius, arc.to_deg)
            if _inside(tip, window):
                strokes.append(arrow(tip, polar(centre, radius, arc.to_deg + back)))
    return strokes


def clipped(circle: Circle | Arc, window: Rect) -> list[Stroke]:
    """Return what of a circle or an arc lies in a window, as arcs; a circle that lies in it wholly stays one."""
    low, high = (circle.from_deg, circle.to_deg) if isinstance(circle, Arc) else (0.0, _WHOLE)
    runs = list(_runs(circle.centre, circle.radius, (low, high), window))
    if isinstance(circle, Circle) and runs == [(0.0, _WHOLE)]:
        return [circle]
    return [Arc(circle.pen, circle.centre, circle.radius, a, b) for a, b in runs if b - a > _EVERY_DEG]


def _runs(centre: Point2, radius: float, span: tuple[float, float], window: Rect) -> Iterator[tuple[float, float]]:
    """Yield the angles over which a circle lies in a window, to the nearest few degrees."""
    count = max(1, round((span[1] - span[0]) / _EVERY_DEG))
    angles = [span[0] + (span[1] - span[0]) * i / count for i in range(count + 1)]
    start: float | None = None
    last = span[0]
    for angle in angles:
        if _inside(polar(centre, radius, angle), window):
            start = angle if start is None else start
            last = angle
        elif start is not None:
            yield start, last
            start = None
    if start is not None:
        yield start, last


def _inside(point: Point2, window: Rect) -> bool:
    return all(window[0][i] <= point[i] <= window[1][i] for i in (0, 1))
