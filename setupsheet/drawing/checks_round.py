"""Rules for round things and line work: two widths, centre lines that end free, pitch circles, threads, leaders."""

from __future__ import annotations

import re
from collections.abc import Callable
from itertools import combinations, pairwise

from setupsheet.drawing.boxes import grow, overlap
from setupsheet.drawing.check_record import Case, Fault, bare, dimensions, texts
from setupsheet.drawing.compose import outline_of
from setupsheet.drawing.ink import WIDTH_MM, Arc, Circle, Dimension, Fill, Line, Pen, Text
from setupsheet.drawing.near import Grid
from setupsheet.drawing.precedence import ruler_of, stretch
from setupsheet.drawing.strokes import straights, stroke_box
from setupsheet.plane import Point2

_PCD = re.compile(r"⌀(?P<size>[\d.,]+) (?:PCD|B\.C\.)")
_OVERRUN_MM = 8.0
"""A centre line that runs further past the view's outline would reach into another view."""
_LEAST_GAP_MM = max(0.7, 2 * WIDTH_MM[Pen.VISIBLE])


def two_widths(case: Case) -> list[Fault]:
    """L1: line work has two widths, one twice the other (ISO 128: 2 to 1)."""
    pens = {s.pen for group in case.views for s in bare(group) if not isinstance(s, Text | Fill)}
    widths = sorted({WIDTH_MM[pen] for pen in pens})
    if len(widths) > 2 or (len(widths) == 2 and not 1.9 <= widths[1] / widths[0] <= 2.1):
        return [
            Fault("line-widths", True, "the views have lines of other widths than wide and narrow", found=f"{widths}")
        ]
    return []


def centre_lines_stay(case: Case) -> list[Fault]:
    """L3 and L5: no two centre lines over one another on one axis; none runs far out of its view."""
    faults = []
    for group in case.views:
        (x0, y0), (x1, y1) = grow(outline_of(group), _OVERRUN_MM)
        rulers: dict[tuple[int, float], list[tuple[float, float]]] = {}
        for line in (s for s in bare(group) if isinstance(s, Line) and s.pen in (Pen.CENTRE, Pen.THIN)):
            if any(not (x0 <= x <= x1 and y0 <= y <= y1) for x, y in (line.a, line.b)):
                faults.append(Fault("centre-line-long", False, f"a centre line runs far out of view {group.name}"))
            if ruler := ruler_of(line.a, line.b):
                rulers.setdefault(ruler, []).append(stretch(ruler, line.a, line.b))
        for spans in rulers.values():
            if any(min(a[1], b[1]) - max(a[0], b[0]) > 0.01 for a, b in combinations(spans, 2)):
                faults.append(Fault("centre-lines-overlap", True, f"centre lines lie on one another in {group.name}"))
    return faults


def edges_apart(case: Case) -> list[Fault]:
    """L7: level or upright edges of a view stand 1 mm (two wide lines) or more apart, or run together on paper."""
    faults = []
    for group in case.views:
        rulers: dict[tuple[int, float], list[tuple[float, float]]] = {}
        for s in bare(group):
            if isinstance(s, Line) and s.pen is Pen.VISIBLE and (ruler := ruler_of(s.a, s.b)):
                rulers.setdefault(ruler, []).append(stretch(ruler, s.a, s.b))
        order = sorted(rulers)
        for (axis, at), (other, after) in pairwise(order):
            close = axis == other and 0.01 < after - at < _LEAST_GAP_MM / 2
            if close and any(
                min(a[1], b[1]) - max(a[0], b[0]) > 1.0 for a in rulers[(axis, at)] for b in rulers[(other, after)]
            ):
                faults.append(Fault("edges-run-together", False, f"two edges of view {group.name} run together"))
                break
    return faults


def rings_drawn(case: Case) -> list[Fault]:
    """C12: a pitch circle that a callout names is drawn, as a chain line of that diameter."""
    faults = []
    for group in case.views:
        drawn = [s.radius for s in bare(group) if isinstance(s, Circle) and s.pen is Pen.CENTRE]
        for dim in dimensions(group):
            wanted = [value for _, what, value in dim.gives if what == "pcd"]
            if any(all(abs(2 * r / group.scale - value) > 0.01 for r in drawn) for value in wanted):
                faults.append(Fault("pitch-circle-missing", True, f"no circle is drawn for {dim.text!r}", dim.feature))
            if wanted and not _PCD.search(dim.text):
                faults.append(Fault("pitch-circle-unsaid", True, f"{dim.text!r} does not say its circle", dim.feature))
    return faults


def threads_drawn(case: Case) -> list[Fault]:
    """C13: at the hole that a thread's callout points at the narrow circle has the thread's diameter, or more.

    It stands further out where the true gap would be too small on paper (ISO 6410-1).
    """
    faults = []
    for group in case.views:
        rims = [s for s in bare(group) if isinstance(s, Arc | Circle) and s.pen in (Pen.THREAD, Pen.HIDDEN)]
        for dim in dimensions(group):
            for _, what, value in dim.gives:
                if what == "thread" and dim.kind == "callout" and not _has_rim(rims, value / 2 * group.scale, dim):
                    message = f"no thread of the size of {dim.text!r} is drawn"
                    faults.append(Fault("thread-not-drawn", True, message, dim.feature, gives=dim.gives))
    return faults


def _has_rim(rims: list[Arc | Circle], radius: float, dim: Dimension) -> bool:
    """Tell whether a rim of a radius, or little more, stands where the leader ends."""
    tip = dim.points[0]
    near = [r for r in rims if ((r.centre[0] - tip[0]) ** 2 + (r.centre[1] - tip[1]) ** 2) ** 0.5 < r.radius + 1.5]
    return any(-0.01 <= r.radius - radius <= _LEAST_GAP_MM for r in near)


def labels_free(case: Case) -> list[Fault]:
    """D1: no edge, centre line or rim through a hole's label."""
    faults = []
    for group in case.views:
        lines: Grid[tuple[Point2, Point2]] = Grid()
        for line in (line for s in bare(group) if _is_edge(s) for line in straights(s)):
            lines.add(stroke_box(Line(Pen.THIN, *line)), line)
        for text, box, dim in texts(group):
            if dim is None and text.height == _LABEL_MM and _is_crossed(box, lines):
                faults.append(Fault("label-on-line", False, f"a line runs through the label {text.text!r}"))
    return faults


_LABEL_MM = 2.5


def _is_edge(stroke: object) -> bool:
    return isinstance(stroke, Line) and stroke.pen is Pen.VISIBLE


def _is_crossed(box: tuple[Point2, Point2], lines: Grid[tuple[Point2, Point2]]) -> bool:
    hang = 0.3 * _LABEL_MM
    body = ((box[0][0], box[0][1] + hang), box[1])
    return any(overlap(body, stroke_box(Line(Pen.THIN, *line))) for line in lines.near(body) if ruler_of(*line))


def pointed_at_centre(case: Case) -> list[Fault]:
    """D11: a leader to a circle, drawn on, would pass its centre within 0.2 mm."""
    faults = []
    for group in case.views:
        rims = [s for s in bare(group) if isinstance(s, Circle | Arc) and s.pen in (Pen.VISIBLE, Pen.THREAD)]
        for dim in dimensions(group):
            if dim.kind == "callout" and dim.points and (missed := _misses(dim, rims)):
                message = f"the leader of {dim.text!r} does not aim at the centre of its circle"
                faults.append(Fault("leader-off-centre", True, message, dim.feature, found=f"{missed:.2f} mm"))
    return faults


def _misses(dim: Dimension, rims: list[Circle | Arc]) -> float:
    """Return by how much a leader misses the nearest centre of the circles that its arrow touches, 0 for none."""
    (x, y), (ex, ey) = dim.points[0], dim.line_at
    length = ((ex - x) ** 2 + (ey - y) ** 2) ** 0.5
    offs = [
        abs((c.centre[0] - x) * (ey - y) - (c.centre[1] - y) * (ex - x)) / length
        for c in rims
        if abs(((c.centre[0] - x) ** 2 + (c.centre[1] - y) ** 2) ** 0.5 - c.radius) < 0.01 and length
    ]
    return min(offs) if offs and min(offs) > 0.2 else 0.0


RULES: tuple[Callable[[Case], list[Fault]], ...] = (
    two_widths,
    centre_lines_stay,
    edges_apart,
    rings_drawn,
    threads_drawn,
    labels_free,
    pointed_at_centre,
)
"""The rules of this file."""
