"""Running dimensions on one side of a view: every place from one zero, values pushed apart.

ISO: one dimension line with a circle at the zero and an arrow at each place, the value at the extension
line. ASME: extension lines alone, the value at their end, all texts level. The order along the side is
kept, so kinked extension lines never cross.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from setupsheet.drawing import signs
from setupsheet.drawing.ink import Circle, Dimension, Fill, Line, Pen, Polyline, Stroke, Text
from setupsheet.drawing.needs import Need, given
from setupsheet.drawing.profile import Profile
from setupsheet.drawing.sides import Side
from setupsheet.drawing.spread import spread
from setupsheet.drawing.strokes import arrowhead
from setupsheet.plane import Point2, polar

_ORIGIN_RADIUS_MM = 0.65
"""Half of 5 narrow lines: the origin circle of ISO 129-1 as textbooks give it."""
_DOT_RADIUS_MM = 0.5
"""A dot stands for an arrow where there is no room (ISO 129-1); a little larger than 3 narrow lines."""
_BETWEEN_MM = 1.2
"""Clear between neighbouring values."""


@dataclass(frozen=True, slots=True)
class Mark:
    """A place on the ruler: where its extension line starts (depth inside the side), text, sizes.

    ``measured`` is the paper point that is measured; ``value`` the size in drawing units.
    """

    s: float
    depth: float
    text: str
    value: float
    needs: tuple[Need, ...]
    measured: Point2


@dataclass(frozen=True, slots=True)
class Run:
    """All marks of one side, the ruler place of the zero, the distance of the line, the view's scale."""

    side: Side
    zero: float
    zero_depth: float
    marks: tuple[Mark, ...]
    at: float
    scale: float


def run_dimensions(run: Run, profile: Profile) -> tuple[Dimension, ...]:
    """Return one dimension a mark; the zero is drawn with the first one."""
    marks = sorted(run.marks, key=lambda m: m.s)
    zero = Mark(run.zero, run.zero_depth, "0", 0.0, (), run.side.at(run.zero, -run.zero_depth))
    every = sorted([zero, *marks], key=lambda m: m.s)
    rooms = [_room(mark.text, run.side, profile) for mark in every]
    places = spread([mark.s for mark in every], rooms, _between(run.side, profile))
    kink = _kink([(m.s, p) for m, p in zip(every, places, strict=True)])
    found: list[Dimension] = []
    zero_strokes: tuple[Stroke, ...] = ()
    for mark, place in zip(every, places, strict=True):
        strokes = _extension(run, mark, place, kink, profile)
        if mark is zero:
            zero_strokes = (*strokes, *_line(run, marks, profile))
        else:
            if profile.iso:
                strokes = (*strokes, _arrow(run, mark, every, profile))
            found.append(_dimension(run, mark, strokes))
    if found:
        found[0] = replace(found[0], strokes=(*zero_strokes, *found[0].strokes))
    return tuple(found)


def reach(run: Run, profile: Profile) -> float:
    """Return how far from the outline the whole row of values reaches."""
    marks = [*run.marks, Mark(run.zero, 0.0, "0", 0.0, (), (0.0, 0.0))]
    every = sorted(marks, key=lambda m: m.s)
    rooms = [_room(m.text, run.side, profile) for m in every]
    places = spread([m.s for m in every], rooms, _between(run.side, profile))
    kink = _kink([(m.s, p) for m, p in zip(every, places, strict=True)])
    longest = max(_length(m.text, run.side, profile) for m in every)
    return run.at + _lead(profile) + kink + 1.0 + longest


def _lead(profile: Profile) -> float:
    return profile.past_mm if profile.iso else 0.0


def _room(text: str, side: Side, profile: Profile) -> float:
    """Return the room of a value along the ruler."""
    if side.runs_across and profile.level_text:
        return signs.width(text, profile.text_mm)
    return profile.text_mm


def _between(side: Side, profile: Profile) -> float:
    """Return the clear room between neighbouring values: more where they stand one behind the other."""
    return 2.2 if side.runs_across and profile.level_text else _BETWEEN_MM


def _length(text: str, side: Side, profile: Profile) -> float:
    """Return the room of a value away from the view."""
    if side.runs_across and profile.level_text:
        return profile.text_mm
    return signs.width(text, profile.text_mm)


def _kink(pairs: list[Point2]) -> float:
    """Return the length of the slanted part of the extension lines: one for all, at most 45 degrees."""
    most = max((abs(place - s) for s, place in pairs), default=0.0)
    return 0.0 if most < 1e-6 else max(2.0, min(most, 9.0))


def _extension(run: Run, mark: Mark, place: float, kink: float, profile: Profile) -> tuple[Stroke, ...]:
    """Return a mark's extension line and its value."""
    side = run.side
    near = run.at + _lead(profile)
    points = [side.at(mark.s, profile.gap_mm - mark.depth), side.at(mark.s, near)]
    if kink:
        points.append(side.at(place, near + kink))
    line = Line(Pen.DIM, *points) if len(points) == 2 else Polyline(Pen.DIM, tuple(points))
    if kink and abs(place - mark.s) < 1e-6:
        line = Line(Pen.DIM, points[0], points[2])
    return (line, *signs.line(_value(side, place, near + kink + 1.0, mark.text, profile)))


def _value(side: Side, s: float, t: float, text: str, profile: Profile) -> Text:
    h = profile.text_mm
    if side.runs_across and profile.level_text:
        foot = side.at(s, t)
        return Text((foot[0], foot[1] - (h if side.outward < 0 else 0.0)), h, text, "middle")
    if side.runs_across:
        at = side.at(s + h / 2, t)
        return Text(at, h, text, "right" if side.outward < 0 else "left", 90.0)
    at = side.at(s - h / 2, t)
    return Text(at, h, text, "right" if side.outward < 0 else "left")


def _line(run: Run, marks: list[Mark], profile: Profile) -> tuple[Stroke, ...]:
    """Return the dimension line with its origin circle (ISO); ASME has neither."""
    if not profile.iso or not marks:
        return ()
    centre = run.side.at(run.zero, run.at)
    strokes: list[Stroke] = [Circle(Pen.DIM, centre, _ORIGIN_RADIUS_MM)]
    for far in (min(m.s for m in marks), max(m.s for m in marks)):
        beyond = far - run.zero
        if (far == marks[0].s and beyond < -1e-6) or (far == marks[-1].s and beyond > 1e-6):
            start = run.zero + (_ORIGIN_RADIUS_MM if beyond > 0 else -_ORIGIN_RADIUS_MM)
            strokes.append(Line(Pen.DIM, run.side.at(start, run.at), run.side.at(far, run.at)))
    return tuple(strokes)


def _arrow(run: Run, mark: Mark, every: list[Mark], profile: Profile) -> Stroke:
    """Return the arrow at a mark, or a dot where the mark before it is nearer than an arrow is long."""
    tip = run.side.at(mark.s, run.at)
    between = [abs(m.s - mark.s) for m in every if m is not mark and abs(m.s - run.zero) <= abs(mark.s - run.zero)]
    if min(between) < profile.arrow_mm + 0.3:
        return Fill(tuple(polar(tip, _DOT_RADIUS_MM, step * 30.0) for step in range(12)))
    along = run.side.along_deg if mark.s > run.zero else run.side.along_deg + 180
    return arrowhead(tip, along, profile.arrow_mm)


def _dimension(run: Run, mark: Mark, strokes: tuple[Stroke, ...]) -> Dimension:
    first = mark.needs[0]
    zero = run.side.at(run.zero, -run.zero_depth)
    return Dimension(
        "running",
        first.feature,
        first.what,
        mark.value,
        mark.text,
        (zero, mark.measured),
        run.side.at(run.zero, run.at),
        run.side.along_deg,
        strokes,
        run.scale,
        given(mark.needs),
    )
