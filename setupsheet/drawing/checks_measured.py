"""Rules for what dimensions are tied to: seen edges and axes, lines of their own, one zero, a growing stack."""

from __future__ import annotations

import itertools
import math
from collections import defaultdict
from collections.abc import Callable, Iterable

from setupsheet.drawing.check_record import Case, Fault, bare, dimensions
from setupsheet.drawing.compose import outline_of
from setupsheet.drawing.ink import Arc, Circle, Dimension, Ellipse, Fill, Group, Line, Pen, Polyline, Text
from setupsheet.drawing.precedence import ruler_of, stretch
from setupsheet.drawing.strokes import straights
from setupsheet.plane import Point2

_SAME_MM = 2e-3
_LONGEST_MM = 60.0
"""An extension line longer than this is hard to follow (digest of practice, D8)."""
_SEEN = (Pen.VISIBLE, Pen.CENTRE, Pen.THIN, Pen.THREAD)


def measures_what_shows(case: Case) -> list[Fault]:
    """C5 and C6: each measured coordinate is that of an edge or an axis which the view shows, and not hidden."""
    faults = []
    for group in case.views:
        for axis in (0, 1):
            dims = [d for d in dimensions(group) if _axis(d) == axis]
            if not dims:
                continue
            seen = _coordinates(group, axis, _SEEN)
            behind = _coordinates(group, axis, (Pen.HIDDEN,))
            for dim in dims:
                faults += [
                    _unseen(dim, point[axis], group, behind) for point in dim.points if not _is_in(point[axis], seen)
                ]
    return faults


def _is_in(at: float, places: set[float]) -> bool:
    return any(round(at + off, 2) in places for off in (0.0, -0.01, 0.01))


def _unseen(dim: Dimension, at: float, group: Group, hidden: set[float]) -> Fault:
    """Return the fault of a dimension that is measured to a coordinate at which its view shows nothing."""
    of = f"{dim.text!r} in view {group.name} is measured to"
    if _is_in(at, hidden):
        return Fault("dimension-to-hidden", True, f"{of} a hidden edge", dim.feature, gives=dim.gives)
    return Fault("dimension-to-nothing", True, f"{of} nothing that this view shows", dim.feature, gives=dim.gives)


def _axis(dim: Dimension) -> int | None:
    """Return the paper axis that a dimension measures along, None for other kinds."""
    if dim.kind not in ("linear", "drawn", "running"):
        return None
    return 0 if dim.angle_deg == 0.0 else 1


def _coordinates(group: Group, axis: int, pens: tuple[Pen, ...]) -> set[float]:
    """Return where the strokes of some pens have an edge, an axis, an end or a rim along a paper axis."""
    found: set[float] = set()
    for stroke in bare(group):
        if isinstance(stroke, Text | Fill) or stroke.pen not in pens:
            continue
        if isinstance(stroke, Circle | Arc | Ellipse):
            reach = math.hypot(*stroke.major) if isinstance(stroke, Ellipse) else stroke.radius
            found |= {round(stroke.centre[axis] + off, 2) for off in (-reach, 0.0, reach)}
        for a, b in straights(stroke):
            found |= {round(a[axis], 2), round(b[axis], 2)}
    return found


def lines_of_their_own(case: Case) -> list[Fault]:
    """D12: no dimension line lies on a centre line or an edge."""
    faults = []
    for group in case.views:
        others: dict[tuple[int, float], list[tuple[float, float]]] = defaultdict(list)
        for stroke in bare(group):
            if isinstance(stroke, Line | Polyline) and stroke.pen in _SEEN:
                for a, b in straights(stroke):
                    if ruler := ruler_of(a, b):
                        others[ruler].append(stretch(ruler, a, b))
        for dim in dimensions(group):
            for a, b in _dimension_line(dim):
                ruler = ruler_of(a, b)
                if ruler and any(_share(stretch(ruler, a, b), other) for other in others.get(ruler, ())):
                    message = f"the dimension line of {dim.text!r} lies on another line"
                    faults.append(Fault("dimension-line-on-line", True, message, dim.feature, gives=dim.gives))
    return faults


def _dimension_line(dim: Dimension) -> Iterable[tuple[Point2, Point2]]:
    axis = _axis(dim)
    if axis is None:
        return []
    lines = [line for s in dim.strokes if isinstance(s, Line) for line in straights(s)]
    return [(a, b) for a, b in lines if (ruler := ruler_of(a, b)) and ruler[0] == axis]


def _share(a: tuple[float, float], b: tuple[float, float]) -> bool:
    return min(a[1], b[1]) - max(a[0], b[0]) > 0.1


def stacks_grow(case: Case) -> list[Fault]:
    """D5: in a stack of single sizes the larger stands further out; D6: values of near lines are staggered."""
    faults = []
    for group in case.views:
        (x0, y0), (x1, y1) = outline_of(group)
        stacks: dict[tuple[int, bool], list[tuple[float, Dimension]]] = defaultdict(list)
        for dim in dimensions(group):
            if dim.kind in ("linear", "drawn"):
                axis = 0 if dim.angle_deg == 0.0 else 1
                low, high = ((y0, y1), (x0, x1))[axis]
                at = dim.line_at[1 - axis]
                stacks[(axis, at > high)].append((max(low - at, at - high), dim))
        for stack in stacks.values():
            stack.sort(key=lambda item: item[0])
            for (near, a), (far, b) in itertools.pairwise(stack):
                if a.value > b.value + 1e-9 and _over(a, b):
                    message = f"{a.text!r} stands nearer to the view than the smaller {b.text!r}"
                    faults.append(Fault("stack-order", True, message, a.feature))
                if far - near < 2 * case.profile.text_mm and abs(a.line_at[0] - b.line_at[0]) < 1.0:
                    faults.append(Fault("values-in-a-row", False, f"{a.text!r} and {b.text!r} stand in a row"))
    return faults


def _over(a: Dimension, b: Dimension) -> bool:
    axis = 0 if a.angle_deg == 0.0 else 1
    first, second = (sorted(p[axis] for p in dim.points) for dim in (a, b))
    return min(first[1], second[1]) - max(first[0], second[0]) > 1e-6


def extensions_short(case: Case) -> list[Fault]:
    """D8: no extension line is longer than 60 mm."""
    faults = []
    for group in case.views:
        for dim in dimensions(group):
            axis = _axis(dim)
            for a, b in (line for s in dim.strokes for line in straights(s)):
                ruler = ruler_of(a, b)
                if axis is not None and ruler and ruler[0] != axis and math.dist(a, b) > _LONGEST_MM:
                    message = f"the extension line of {dim.text!r} is {math.dist(a, b):.0f} mm long"
                    faults.append(Fault("extension-long", False, message, dim.feature))
    return faults


def one_zero(case: Case) -> list[Fault]:
    """C15: the running dimensions of a view start at one zero in each direction."""
    faults = []
    for group in case.views:
        zeros: dict[int, set[float]] = defaultdict(set)
        for dim in dimensions(group):
            if dim.kind == "running":
                axis = 0 if dim.angle_deg == 0.0 else 1
                zeros[axis].add(round(dim.points[0][axis], 2))
        if any(len(found) > 1 for found in zeros.values()):
            faults.append(Fault("two-zeros", False, f"view {group.name} counts from two zeros in one direction"))
    return faults


RULES: tuple[Callable[[Case], list[Fault]], ...] = (
    measures_what_shows,
    lines_of_their_own,
    stacks_grow,
    extensions_short,
    one_zero,
)
"""The rules of this file."""
