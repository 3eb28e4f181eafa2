"""Rules for where dimensions stand: texts free, lines not crossing, distances, directions, arrows."""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import pairwise

from setupsheet.drawing.boxes import Rect, Segment, crosses, grow, overlap, segments_cross
from setupsheet.drawing.check_record import Case, Fault, arrows, bare, dimensions, texts
from setupsheet.drawing.compose import outline_of
from setupsheet.drawing.ink import Dimension, Fill, Line, Pen, Polyline, Text
from setupsheet.drawing.near import Grid
from setupsheet.drawing.strokes import straights, stroke_box

_CLEAR_MM = 0.25
"""Two texts of neighbouring dimensions come no closer; boxes hold the room for hanging letters already."""


def _misplaced(code: str, message: str, dim: Dimension) -> Fault:
    """Return the error of a dimension that stands where it should not."""
    return Fault(code, True, message, dim.feature, gives=dim.gives)


def texts_apart(case: Case) -> list[Fault]:
    """D1: no text on another text, of whatever dimension; a label on a label hides no size, so it is a caution."""
    faults = []
    for group in case.views:
        grid: Grid[tuple[Text, Rect, Dimension | None]] = Grid()
        for text, box, dim in texts(group):
            body = _body(text, box)
            for other, room, owner in grid.near(grow(body, _CLEAR_MM)):
                if (owner is dim and dim is not None) or not overlap(body, room, _CLEAR_MM):
                    continue
                named = dim or owner
                message = f"{other.text!r} and {text.text!r} overlap in view {group.name}"
                bare_labels = Fault("text-on-text", False, message)
                faults.append(_misplaced("text-on-text", message, named) if named else bare_labels)
            grid.add(body, (text, body, dim))
    return faults


def _body(text: Text, box: Rect) -> Rect:
    """Return the box of the capitals alone: the room below the base line is mostly empty."""
    hang = 0.25 * text.height
    if text.angle_deg:
        return (box[0], (box[1][0] - hang, box[1][1]))
    return ((box[0][0], box[0][1] + hang), box[1])


def texts_free(case: Case) -> list[Fault]:
    """D1: no foreign line and no arrowhead through a dimension's text."""
    faults = []
    for group in case.views:
        lines: list[tuple[Segment, Dimension | None]] = [
            (line, None)
            for s in bare(group)
            if not isinstance(s, Text | Fill) and s.pen is not Pen.HATCH
            for line in straights(s)
        ]
        lines += [(line, dim) for dim in dimensions(group) for s in dim.strokes for line in straights(s)]
        heads = [(stroke_box(fill), dim) for fill, dim in arrows(group)]
        for text, box, dim in texts(group):
            if dim is None:
                continue
            body = _body(text, box)
            if any(owner is not dim and crosses(body, line) for line, owner in lines) or any(
                owner is not dim and overlap(body, head) for head, owner in heads
            ):
                message = f"a line runs through {text.text!r} in view {group.name}"
                faults.append(_misplaced("line-through-text", message, dim))
    return faults


def lines_apart(case: Case) -> list[Fault]:
    """D2 and D3: no dimension line across another dimension's line or extension line."""
    faults = []
    for group in case.views:
        dims = [d for d in dimensions(group) if d.kind in ("linear", "drawn", "running")]
        runs = [(line, d) for d in dims for line in _lines(d) if _is_along(line, d.angle_deg)]
        every = [(line, d) for d in dims for line in _lines(d)]
        for (line, a), (other, b) in ((r, e) for r in runs for e in every):
            if a is b or (a.kind == b.kind == "running" and a.angle_deg == b.angle_deg):
                continue
            if segments_cross(line, other):
                message = f"the dimension line of {a.what} {a.text} crosses that of {b.what} {b.text}"
                faults.append(_misplaced("dimension-lines-cross", message, a))
    return faults


def _lines(dim: Dimension) -> list[Segment]:
    return [line for s in dim.strokes if isinstance(s, Line | Polyline) for line in straights(s)]


def _is_along(line: Segment, angle_deg: float) -> bool:
    (ax, ay), (bx, by) = line
    return abs(by - ay) < 1e-6 if angle_deg == 0 else abs(bx - ax) < 1e-6


def first_line_off(case: Case) -> list[Fault]:
    """D4: the first dimension line stands 10 mm or more off the outline, the next ones 7 (6) or more."""
    faults = []
    next_mm = 7.0 if case.profile.iso else 6.0
    for group in case.views:
        (x0, y0), (x1, y1) = outline_of(group)
        levels: dict[tuple[float, bool], set[float]] = {}
        for dim in dimensions(group):
            if dim.kind not in ("linear", "drawn", "running") or (dim.kind == "running" and not case.profile.iso):
                continue
            at = dim.line_at[1] if dim.angle_deg == 0 else dim.line_at[0]
            low, high = (y0, y1) if dim.angle_deg == 0 else (x0, x1)
            off = max(low - at, at - high)
            levels.setdefault((dim.angle_deg, at > high), set()).add(round(off, 3))
            if off < 10.0 - 1e-6:
                message = f"{dim.text} stands {off:.1f} mm off the outline"
                faults.append(_misplaced("dimension-too-near", message, dim))
        for offs in levels.values():
            steps = sorted(offs)
            if any(b - a < next_mm - 1e-6 for a, b in pairwise(steps)):
                faults.append(Fault("dimensions-too-close", True, f"dimension lines crowd in view {group.name}"))
    return faults


def text_upright(case: Case) -> list[Fault]:
    """D10: texts read from below or from the right (ISO), from below alone (ASME)."""
    allowed = {0.0} if case.profile.level_text else {0.0, 90.0}
    return [
        Fault("text-direction", True, f"{text.text!r} cannot be read from below or from the right", dim.feature)
        for group in case.views
        for text, _, dim in texts(group)
        if dim is not None and text.angle_deg not in allowed
    ]


def arrows_alike(case: Case) -> list[Fault]:
    """D9: one size of arrowhead on the sheet."""
    sizes = set()
    for group in case.views:
        for fill, dim in arrows(group):
            if len(fill.points) == 3 and dim.kind != "callout":
                sizes.add(round(max(math.dist(fill.points[0], p) for p in fill.points), 2))
    return [Fault("arrow-sizes", True, f"arrowheads of several sizes on {case.sheet.name}")] if len(sizes) > 1 else []


def leaders_slanted(case: Case) -> list[Fault]:
    """D11: no leader level or upright within 5 degrees."""
    faults = []
    for group in case.views:
        for dim in dimensions(group):
            if dim.kind != "callout":
                continue
            tip, elbow = dim.points[0], dim.line_at
            angle = math.degrees(math.atan2(elbow[1] - tip[1], elbow[0] - tip[0])) % 90
            if min(angle, 90 - angle) < 5:
                faults.append(_misplaced("leader-level", f"the leader of {dim.text!r} lies level", dim))
    return faults


def texts_clear_of_view(case: Case) -> list[Fault]:
    """D7: callouts and sizes stand outside the outline; angles at a pitch circle may stand inside."""
    faults = []
    for group in case.views:
        outline = grow(outline_of(group), -0.5)
        for text, box, dim in texts(group):
            if dim is not None and dim.kind != "turn" and overlap(box, outline):
                faults.append(Fault("text-in-view", False, f"{text.text!r} stands inside the view", dim.feature))
    return faults


RULES: tuple[Callable[[Case], list[Fault]], ...] = (
    texts_apart,
    texts_free,
    lines_apart,
    first_line_off,
    text_upright,
    arrows_alike,
    leaders_slanted,
    texts_clear_of_view,
)
"""The rules of this file."""
