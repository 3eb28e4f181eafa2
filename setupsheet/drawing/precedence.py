"""Lines that lie on one another: centre lines join into one, and end the extension lines that they serve.

A centre line may serve as extension line (ISO 129-1), so a narrow line is not drawn over a chain line: dashes of
two lines in one place fill each other's gaps and read as neither.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace

from setupsheet.drawing.centres import centre_line
from setupsheet.drawing.ink import Dimension, Line, Pen, Polyline, Stroke
from setupsheet.plane import Point2

_JOIN_MM = 1.5
"""Two centre lines on one axis with less than this between them are drawn as one."""
_SCRAP_MM = 0.5
"""Shorter rests of an extension line are left out."""
_SAME_MM = 1e-6

Ruler = tuple[int, float]
"""The axis that a line runs along (0 level, 1 upright), and where it stands across it, to a micrometre."""
Stretch = tuple[float, float]
Item = Stroke | Dimension


def tidy(items: Sequence[Item], gap_mm: float) -> list[Item]:
    """Return the strokes of a view with one line where several centre and extension lines lay on one another."""
    lines: dict[Ruler, list[Line]] = defaultdict(list)
    others: list[Item] = []
    for item in items:
        ruler = ruler_of(item.a, item.b) if isinstance(item, Line) and item.pen in (Pen.CENTRE, Pen.THIN) else None
        if isinstance(item, Line) and ruler is not None:
            lines[ruler].append(item)
        else:
            others.append(item)
    joined = {ruler: _joined(ruler, many) for ruler, many in lines.items()}
    taken = {ruler: [stretch(ruler, line.a, line.b) for line in many] for ruler, many in joined.items()}
    kept = [_served(item, taken, gap_mm) if isinstance(item, Dimension) else item for item in others]
    return [*(line for many in joined.values() for line in many), *kept]


def ruler_of(a: Point2, b: Point2) -> Ruler | None:
    """Return the axis and the place of a level or upright line, None for a slanted one."""
    if abs(a[1] - b[1]) < _SAME_MM:
        return 0, round(a[1], 3) + 0.0
    if abs(a[0] - b[0]) < _SAME_MM:
        return 1, round(a[0], 3) + 0.0
    return None


def stretch(ruler: Ruler, a: Point2, b: Point2) -> Stretch:
    """Return where a line starts and ends along its axis."""
    low, high = sorted((a[ruler[0]], b[ruler[0]]))
    return low, high


def _joined(ruler: Ruler, lines: list[Line]) -> list[Line]:
    axis = ruler[0]
    across = lines[0].a[1 - axis]
    found: list[Stretch] = []
    for low, high in sorted(stretch(ruler, line.a, line.b) for line in lines):
        if found and low <= found[-1][1] + _JOIN_MM:
            found[-1] = (found[-1][0], max(high, found[-1][1]))
        else:
            found.append((low, high))
    return [centre_line(_point(axis, low, across), _point(axis, high, across)) for low, high in found]


def _point(axis: int, along: float, across: float) -> Point2:
    return (along, across) if axis == 0 else (across, along)


def _served(dim: Dimension, taken: dict[Ruler, list[Stretch]], gap_mm: float) -> Dimension:
    """Return a dimension whose extension lines start where the centre lines on the same axis end."""
    if dim.kind not in ("linear", "drawn", "running"):
        return dim
    strokes: list[Stroke] = []
    for stroke in dim.strokes:
        if isinstance(stroke, Line) and stroke.pen is Pen.DIM:
            strokes += _pieces(stroke.a, stroke.b, dim, taken, gap_mm)
        elif isinstance(stroke, Polyline) and not stroke.closed and len(stroke.points) == 3:
            *first, last = _pieces(stroke.points[0], stroke.points[1], dim, taken, gap_mm) or (None,)
            strokes += [piece for piece in first if piece is not None]
            strokes.append(
                Polyline(stroke.pen, (last.a, *stroke.points[1:]))
                if last is not None and last.b == stroke.points[1]
                else replace(stroke, points=stroke.points[1:])
            )
        else:
            strokes.append(stroke)
    return replace(dim, strokes=tuple(strokes))


def _pieces(a: Point2, b: Point2, dim: Dimension, taken: dict[Ruler, list[Stretch]], gap_mm: float) -> list[Line]:
    """Return what is left of an extension line from ``a`` to ``b``, in that direction."""
    ruler = ruler_of(a, b)
    along = 0 if dim.angle_deg == 0.0 else 1
    if ruler is None or ruler[0] == along or ruler not in taken:
        return [Line(Pen.DIM, a, b)]
    axis = ruler[0]
    rest = [stretch(ruler, a, b)]
    for low, high in taken[ruler]:
        rest = [part for one in rest for part in _without(one, (low - gap_mm, high + gap_mm))]
    forward = a[axis] <= b[axis]
    across = a[1 - axis]
    found = []
    for low, high in sorted(rest, reverse=not forward):
        ends = (low, high) if forward else (high, low)
        start, end = (
            p if abs(p[axis] - v) < _SAME_MM else _point(axis, v, across) for p, v in zip((a, b), ends, strict=True)
        )
        if high - low > _SCRAP_MM:
            found.append(Line(Pen.DIM, start, end))
    return found


def _without(whole: Stretch, gone: Stretch) -> list[Stretch]:
    """Return what is left of a stretch when another is taken out of it."""
    if gone[1] <= whole[0] or gone[0] >= whole[1]:
        return [whole]
    return [part for part in ((whole[0], gone[0]), (gone[1], whole[1])) if part[1] > part[0]]
