"""Rules for lines: no doubles, centre lines on what is round, dashes long enough, threads, hatching."""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Callable

from setupsheet.drawing.boxes import grow
from setupsheet.drawing.check_record import Case, Fault, bare
from setupsheet.drawing.ink import DASHES_MM, WIDTH_MM, Arc, Circle, Group, Line, Pen, Stroke
from setupsheet.drawing.near import Grid
from setupsheet.drawing.strokes import stroke_box
from setupsheet.plane import Point2, distance, distance_to_segment

_GAP_MM = max(0.7, 2 * WIDTH_MM[Pen.VISIBLE])


def no_doubles(case: Case) -> list[Fault]:
    """L3: no stroke twice."""
    faults = []
    for group in case.views:
        counted = Counter(_key(s) for s in bare(group) if isinstance(s, Line | Circle | Arc))
        if any(count > 1 for count in counted.values()):
            faults.append(Fault("line-twice", True, f"a line is drawn twice in view {group.name}"))
    return faults


def _key(stroke: Line | Circle | Arc) -> tuple[object, ...]:
    if isinstance(stroke, Line):
        return (stroke.pen, *sorted((_point(stroke.a), _point(stroke.b))))
    ends = (round(stroke.from_deg, 3), round(stroke.to_deg, 3)) if isinstance(stroke, Arc) else ()
    return (stroke.pen, _point(stroke.centre), round(stroke.radius, 4), ends)


def _point(point: Point2) -> Point2:
    return round(point[0], 4), round(point[1], 4)


def centres_marked(case: Case) -> list[Fault]:
    """L4: every visible circle has two centre lines through its centre that run 2 to 6 mm past it."""
    faults = []
    for group in case.views:
        strokes = bare(group)
        lines = [s for s in strokes if isinstance(s, Line) and s.pen in (Pen.CENTRE, Pen.THIN)]
        rings = [s for s in strokes if isinstance(s, Circle) and s.pen is Pen.CENTRE]
        widest: dict[Point2, float] = defaultdict(float)
        for s in strokes:
            if isinstance(s, Circle) and s.pen is Pen.VISIBLE:
                widest[_point(s.centre)] = max(widest[_point(s.centre)], s.radius)
        grid: Grid[Line] = Grid()
        for line in lines:
            grid.add(stroke_box(line), line)
        for centre, radius in widest.items():
            through = [line for line in grid.near(grow((centre, centre), 0.1)) if _passes(line, centre, radius)]
            on_ring = any(abs(distance(r.centre, centre) - r.radius) < 1e-3 for r in rings)
            if len(through) + on_ring < 2:
                faults.append(Fault("no-centre-lines", True, f"a circle in view {group.name} has no centre lines"))
    return faults


def _passes(line: Line, centre: Point2, radius: float) -> bool:
    near = distance_to_segment(centre, line.a, line.b) < 1e-3
    return near and min(distance(line.a, centre), distance(line.b, centre)) >= radius + 2.0 - 1e-6


def dashes_long(case: Case) -> list[Fault]:
    """L6: a dashed line is at least one whole dash and gap and dash long, a chain line two periods."""
    faults = []
    for group in case.views:
        for s in bare(group):
            if isinstance(s, Line) and s.pen is Pen.CENTRE and distance(s.a, s.b) < 2 * sum(DASHES_MM[s.pen]) - 1e-6:
                faults.append(Fault("chain-line-short", False, f"a chain line in view {group.name} is too short"))
    return faults[:1]


def threads_right(case: Case) -> list[Fault]:
    """L9: the narrow thread arc spans 240 to 290 degrees, clear of the wide circle, its ends off the axes."""
    faults = []
    for group in case.views:
        strokes = bare(group)
        wide = [s for s in strokes if isinstance(s, Circle) and s.pen is Pen.VISIBLE]
        for arc in (s for s in strokes if isinstance(s, Arc) and s.pen is Pen.THREAD):
            inner = [c.radius for c in wide if c.radius < arc.radius and distance(c.centre, arc.centre) < 1e-3]
            sweep = (arc.to_deg - arc.from_deg) % 360
            off = min(min(a % 90, 90 - a % 90) for a in (arc.from_deg, arc.to_deg))
            if not 240 <= sweep <= 290 or off < 3 or not inner or arc.radius - max(inner) < _GAP_MM - 1e-6:
                faults.append(Fault("thread-end-view", True, f"a thread in view {group.name} is drawn wrongly"))
    return faults


def hatch_even(case: Case) -> list[Fault]:
    """L10: one hatch angle per section, and it is none of the edges'."""
    faults = []
    for group in case.views:
        lines = [s for s in bare(group) if isinstance(s, Line) and s.pen is Pen.HATCH]
        angles = {round(_angle(s), 1) for s in lines}
        if len(angles) > 1:
            faults.append(Fault("hatch-angles", True, f"section {group.name} is hatched at several angles"))
        edges = [_angle(s) for s in bare(group) if _is_edge(s)]
        if angles and any(abs((next(iter(angles)) - e + 90) % 180 - 90) < 10 for e in edges):
            faults.append(Fault("hatch-along-edge", True, f"the hatching of {group.name} runs along an edge"))
    return faults


def _is_edge(stroke: Stroke) -> bool:
    return isinstance(stroke, Line) and stroke.pen is Pen.VISIBLE and distance(stroke.a, stroke.b) > 2.0


def _angle(stroke: Stroke) -> float:
    assert isinstance(stroke, Line)
    return math.degrees(math.atan2(stroke.b[1] - stroke.a[1], stroke.b[0] - stroke.a[0])) % 180


def no_hidden_in_sections(case: Case) -> list[Fault]:
    """L8: a section shows no hidden lines."""
    return [
        Fault("hidden-in-section", False, f"section {group.name} shows hidden lines")
        for group in case.views
        if _is_section(group) and any(isinstance(s, Line) and s.pen is Pen.HIDDEN for s in bare(group))
    ]


def _is_section(group: Group) -> bool:
    return "-" in group.name


RULES: tuple[Callable[[Case], list[Fault]], ...] = (
    no_doubles,
    centres_marked,
    dashes_long,
    threads_right,
    hatch_even,
    no_hidden_in_sections,
)
"""The rules of this file."""
