"""One view with everything that belongs to it, at a scale: edges, centre lines, hatch, dimensions, callouts.

Paper coordinates here are the view's own: the part's origin times the scale. ``arrange.py`` moves the
finished group to its place on the sheet.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from setupsheet.drawing import centres
from setupsheet.drawing.assign import ViewWants
from setupsheet.drawing.boxes import Rect, crosses, grow, join, overlap
from setupsheet.drawing.callout_text import datum_flag
from setupsheet.drawing.clip import Round, clipped
from setupsheet.drawing.detail_mark import detail_circle
from setupsheet.drawing.frames import seen_at
from setupsheet.drawing.hatch import hatch
from setupsheet.drawing.hole_labels import hole_labels
from setupsheet.drawing.ink import Arc, Circle, Dimension, Fill, Group, Line, Pen, Stroke, Text
from setupsheet.drawing.leaders import Room, place_callout
from setupsheet.drawing.precedence import tidy
from setupsheet.drawing.profile import Profile
from setupsheet.drawing.section_marks import Mark, cutting_plane, sight_arrow
from setupsheet.drawing.section_round import cut_rounds, side_axes, without_fine_chamfers
from setupsheet.drawing.seen import Area, Seen, lines_at, scaled
from setupsheet.drawing.stacks import Stack, stack_dimensions
from setupsheet.drawing.strokes import items_box, straights, stroke_box, text_room
from setupsheet.drawing.turns import turn_dimension
from setupsheet.drawing.view_rounds import Rounds, rounds_of
from setupsheet.drawing.wanted import Callout, Flag, Target, Want
from setupsheet.part.feature import Slot
from setupsheet.part.part import Part
from setupsheet.plane import Point2, distance_to_segment

_TRIES = 4
_CROSSES = 14.0
_FAR = 60.0
"""From these costs of crossings (two extension lines), and in all, a leader is worth another try."""
_ON_LINE_MM = 0.01
_MARK_MM = 14.0
"""Room of the end of a cutting plane outside everything else."""


@dataclass(frozen=True, slots=True)
class Job:
    """A view to be drawn: what it shows, what it has to say, which marks it carries."""

    seen: Seen
    wants: ViewWants
    part: Part
    profile: Profile
    scale: float
    marks: tuple[Mark, ...] = ()
    labels: bool = False
    room: Point2 | None = None
    """Width and height within which callouts have to stay, None for any."""
    details: tuple[tuple[str, Round], ...] = ()
    """Letters and circles of the places that details show larger."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """A finished view, the box of its edges alone, and what found no place."""

    group: Group
    outline: Rect
    left_over: tuple[Want, ...] = ()


def compose(job: Job) -> Drawn:
    """Return the view as ink."""
    k, seen, profile = job.scale, job.seen, job.profile
    outline = _scaled_box(seen.box, k)
    if seen.cut is not None and seen.window is None:
        seen = without_fine_chamfers(seen, job.part, k)
    rounds = rounds_of(seen, job.part, k, profile)
    edges = [scaled(s, k) for s in (*rounds.edges, *seen.hidden)]
    if seen.is_picture:
        return Drawn(Group(seen.name, tuple(edges), outline, k), outline)
    lines = [
        *edges,
        *rounds.threads,
        *_axes(job),
        *_slots(job, outline),
        *centres.crosses_on(rounds.circles, rounds.rings, profile.overrun_mm),
    ]
    lines = _windowed(lines, job)
    room = _room(outline, rounds, job)
    room.edges += [seg for s in lines if not isinstance(s, Text) for seg in straights(s)]
    dims = list(stack_dimensions(Stack(seen, outline, k, profile, _flagged(job)), job.wants.places, job.wants.spans))
    _take(dims, room)
    furniture: list[Stroke] = []
    for mark in job.marks:
        furniture += _section_mark(mark, job, room, [*lines, *dims])
    furniture += _flags(job, outline, room)
    for letter, (centre, radius) in job.details:
        furniture += detail_circle(letter, _scaled_round((centre, radius), k), room, profile)
    angles, asked = _angles(job, room)
    dims += angles
    if job.labels:
        furniture += hole_labels(seen, job.part, k, room)
    callouts, left_over = _callouts(job, asked, room)
    dims += callouts
    items = tidy([*lines, *_hatching(job, dims), *furniture, *dims], profile.gap_mm)
    items += _title(job, items)
    name = f"view {seen.letter}" if seen.letter and seen.cut is None and seen.window is None else seen.name
    return Drawn(Group(name, tuple(items), items_box(tuple(items)), k), outline, tuple(left_over))


def _scaled_round(window: Round, k: float) -> Round:
    (x, y), radius = window
    return (x * k, y * k), radius * k


def _windowed(lines: list[Stroke], job: Job) -> list[Stroke]:
    """Return what a detail shows of the lines, and its narrow rim; all lines for a whole view."""
    if job.seen.window is None:
        return lines
    window = _scaled_round(job.seen.window, job.scale)
    return [*clipped(lines, window), Circle(Pen.THIN, *window)]


def _scaled_box(box: Rect, k: float) -> Rect:
    return (box[0][0] * k, box[0][1] * k), (box[1][0] * k, box[1][1] * k)


def _axes(job: Job) -> list[Stroke]:
    if job.seen.cut is not None:
        return cut_rounds(job.seen, job.part, job.scale, job.profile)
    return side_axes(job.seen, job.part, job.scale, job.profile)


def _slots(job: Job, outline: Rect) -> list[Stroke]:
    """Return the axes of the slots that this view shows in their true shape."""
    k, face, found = job.scale, job.seen.frame.face, []
    for slot in (f for f in job.part.features if isinstance(f, Slot) and f.face.axis == face.axis):
        if job.seen.cut is None and (slot.face is face or slot.floor is None):
            a, b = (seen_at(end, slot.face, job.seen.frame) for end in (slot.shape.start, slot.shape.end))
            ends = (a[0] * k, a[1] * k), (b[0] * k, b[1] * k)
            found.append(centres.slot_axis(ends, slot.width.nominal_mm / 2 * k, outline, job.profile.overrun_mm))
    return [axis for axis in found if axis is not None]


def _room(outline: Rect, rounds: Rounds, job: Job) -> Room:
    """Return what leaders and texts have to keep clear of inside the view, and how far out they may stand."""
    k = job.scale
    circles = list(rounds.circles)
    for stroke in rounds.edges:
        if isinstance(stroke, Circle | Arc):
            circles.append(((stroke.centre[0] * k, stroke.centre[1] * k), stroke.radius * k))
    circles += [(ring.centre, ring.radius) for ring in rounds.rings]
    return Room(outline, circles=circles, limit=_limit(outline, job))


def _limit(outline: Rect, job: Job) -> Rect | None:
    """Return the box in which callouts have to stay, with room at two sides for the marks of cutting planes."""
    if job.room is None:
        return None
    marks = [len(mark.path) > 1 and abs(mark.sight_deg - 90) < 1 for mark in job.marks]
    wide = job.room[0] - (2 * _MARK_MM if any(marks) else 0.0)
    tall = job.room[1] - (2 * _MARK_MM if not all(marks) else 0.0)
    (x, y) = (outline[0][0] + outline[1][0]) / 2, (outline[0][1] + outline[1][1]) / 2
    return (x - wide / 2, y - tall / 2), (x + wide / 2, y + tall / 2)


def _take(dims: list[Dimension], room: Room) -> None:
    for dim in dims:
        for stroke in dim.strokes:
            if isinstance(stroke, Text):
                room.boxes.append(text_room(stroke))
            elif isinstance(stroke, Fill):
                room.boxes.append(stroke_box(stroke))
            else:
                for line in straights(stroke):
                    (room.segments if _runs_along(line, dim.angle_deg) else room.extensions).append(line)


def _runs_along(line: tuple[Point2, Point2], angle_deg: float) -> bool:
    """Tell a dimension line from an extension line."""
    (ax, ay), (bx, by) = line
    return abs(by - ay) < 1e-9 if angle_deg == 0.0 else abs(bx - ax) < 1e-9


def _section_mark(mark: Mark, job: Job, room: Room, before: list[Stroke | Dimension]) -> list[Stroke]:
    k = job.scale
    path = tuple((x * k, y * k) for x, y in mark.path)
    drawn = [stroke for item in before for stroke in (item.strokes if isinstance(item, Dimension) else (item,))]
    taken = [room.outline, *(items_box((stroke,)) for stroke in drawn), *room.boxes]
    if len(path) == 1:
        strokes = sight_arrow(path[0], mark, join(taken), job.profile)
    else:
        strokes = cutting_plane(path, mark, taken, job.profile)
    for stroke in strokes:
        if isinstance(stroke, Line) and stroke.pen in (Pen.CENTRE, Pen.THIN):
            room.edges.append((stroke.a, stroke.b))
        elif isinstance(stroke, Line):
            room.boxes.append(grow(stroke_box(stroke), 0.6))
        else:
            room.boxes.append(stroke_box(stroke))
    return strokes


def _flags(job: Job, outline: Rect, room: Room) -> list[Stroke]:
    """Return the datum triangles of faces that this view shows edge on."""
    strokes: list[Stroke] = []
    for flag in job.wants.flags:
        strokes += _flag(flag, job, outline, room)
    return strokes


def _edge_of(flag: Flag, job: Job) -> tuple[bool, int]:
    """Return whether the flagged edge is level, and on which side of the view it lies (+1 above or right)."""
    frame, axis, sign = job.seen.frame, flag.side.axis, flag.side.sign
    upright = axis == frame.v_axis
    return upright, sign * (frame.v_sign if upright else frame.u_sign)


def _flagged(job: Job) -> tuple[str, ...]:
    names = {(True, 1): "above", (True, -1): "below", (False, 1): "right", (False, -1): "left"}
    return tuple(names[_edge_of(flag, job)] for flag in job.wants.flags)


def _flag(flag: Flag, job: Job, outline: Rect, room: Room) -> list[Stroke]:
    upright, out = _edge_of(flag, job)
    away = (90.0 if out > 0 else 270.0) if upright else (0.0 if out > 0 else 180.0)
    (x0, y0), (x1, y1) = outline
    edge = (y1 if out > 0 else y0) if upright else (x1 if out > 0 else x0)
    low, high = (x0, x1) if upright else (y0, y1)
    for share in (0.12, 0.88, *(0.04 + 0.92 * step / 24 for step in range(25))):
        along = low + share * (high - low)
        foot = (along, edge) if upright else (edge, along)
        strokes = datum_flag(flag.letter, foot, away, job.profile)
        box = grow(items_box(tuple(strokes)), 0.8)
        if _is_free(box, room):
            room.boxes.append(box)
            return strokes
    return strokes


def _is_free(box: Rect, room: Room) -> bool:
    return not any(overlap(box, other) for other in room.boxes) and not any(
        crosses(box, s) for s in (*room.segments, *room.extensions)
    )


def _angles(job: Job, room: Room) -> tuple[list[Dimension], list[Callout]]:
    """Return the start angles that have room, and the callouts: one says the angle that has none."""
    k = job.scale
    found: list[Dimension] = []
    callouts = list(job.wants.callouts)
    for turn in job.wants.turns:
        moved = replace(turn, centre=(turn.centre[0] * k, turn.centre[1] * k), radius=turn.radius * k)
        dim = turn_dimension(moved, room, k, job.profile)
        if dim is not None:
            found.append(dim)
            continue
        for n, callout in enumerate(callouts):
            if callout.needs[0].feature == turn.needs[0].feature:
                lines, needs = (*callout.lines, turn.said), callout.needs + turn.needs
                callouts[n] = replace(callout, lines=lines, needs=needs)
    return found, callouts


def _callouts(job: Job, asked: list[Callout], room: Room) -> tuple[list[Dimension], list[Want]]:
    """Place the callouts: those with one target first, wide blocks before narrow ones.

    One that finds no place goes first in a further try: it has the fewest places of all. So does the one that
    stands far off, or whose leader crosses much; the best try is taken.
    """
    asked = [_that_show(_at_edge(callout, job), job.seen) for callout in asked]
    order = sorted(asked, key=lambda c: (len(c.targets), -max((len(line) for line in c.lines), default=0)))
    best = _in_order(order, job, room)
    tried, last = [order], best
    for _ in range((_TRIES if job.room is None else 2) - 1):
        first = last.left_over or last.worst
        order = [*first, *(callout for callout in order if callout not in first)]
        if not first or order in tried:
            break
        last = _in_order(order, job, room)
        tried.append(order)
        best = min(best, last, key=lambda one: (len(one.left_over), one.cost))
    return best.found, list(best.left_over)


@dataclass(frozen=True, slots=True)
class _Try:
    """Callouts placed in one order: their dimensions, what found no place, the one that stands worst, the cost."""

    found: list[Dimension]
    left_over: list[Callout]
    worst: list[Callout]
    cost: float


def _in_order(order: list[Callout], job: Job, room: Room) -> _Try:
    """Place callouts in an order, in the room as it is before all of them."""
    room = replace(room, boxes=list(room.boxes), leaders=list(room.leaders), costs=[])
    found: list[Dimension] = []
    left_over: list[Callout] = []
    placed: list[Callout] = []
    for callout in order:
        need = callout.needs[0]
        value = need.value if need.what in ("count", "note") else job.profile.shown(need.value)
        dim = place_callout(_on_paper(callout, job.scale), room, value, job.scale, job.profile)
        if dim is None:
            left_over.append(callout)
        else:
            found.append(dim)
            placed.append(callout)
    bad = [k for k, (cost, crossing) in enumerate(room.costs) if crossing >= _CROSSES or cost >= _FAR]
    worst = [placed[max(bad, key=lambda k: room.costs[k])]] if bad else []
    return _Try(found, left_over, worst, sum(cost for cost, _ in room.costs))


def _that_show(callout: Callout, seen: Seen) -> Callout:
    """Return a callout without the points on edges that the view does not show there; all if it shows none."""
    lines = [line for stroke in seen.visible for line in straights(stroke)]
    shown = tuple(
        t
        for t in callout.targets
        if t.radius > 0 or t.towards is None or any(distance_to_segment(t.at, *line) < _ON_LINE_MM for line in lines)
    )
    return replace(callout, targets=shown or callout.targets)


def _at_edge(callout: Callout, job: Job) -> Callout:
    """Return a callout of an outer face with its targets: places along the edge that the view shows of it."""
    if callout.side is None:
        return callout
    frame, side = job.seen.frame, callout.side
    across = 0 if frame.u_axis == side.axis else 1
    sign = frame.u_sign if across == 0 else frame.v_sign
    at, out = job.part.box.at(side) * sign, (side.sign * sign * (1.0 - across), side.sign * sign * float(across))
    low, high = job.seen.box[0][1 - across], job.seen.box[1][1 - across]
    spans = lines_at(job.seen, across, at) or [((low + high) / 2, (low + high) / 2)]
    along = [a + share * (b - a) for a, b in spans for share in (0.3, 0.5, 0.7, 0.2, 0.8)]
    points = [(at, place) if across == 0 else (place, at) for place in along]
    return replace(callout, targets=tuple(Target(point, 0.0, out) for point in dict.fromkeys(points)))


def _on_paper(callout: Callout, k: float) -> Callout:
    targets = tuple(
        replace(target, at=(target.at[0] * k, target.at[1] * k), radius=target.radius * k) for target in callout.targets
    )
    return replace(callout, targets=targets)


def _hatching(job: Job, dims: list[Dimension]) -> tuple[Line, ...]:
    if not job.seen.areas:
        return ()
    k = job.scale
    areas = [
        Area(tuple((x * k, y * k) for x, y in a.rim), tuple(tuple((x * k, y * k) for x, y in o) for o in a.openings))
        for a in job.seen.areas
    ]
    holes = [grow(text_room(s), 1.0) for dim in dims for s in dim.strokes if isinstance(s, Text)]
    lines = hatch(areas, holes)
    if job.seen.window is None:
        return lines
    inside = clipped(lines, _scaled_round(job.seen.window, k))
    return tuple(line for line in inside if isinstance(line, Line))


def _title(job: Job, items: list[Stroke | Dimension]) -> list[Stroke]:
    """Return the name of a section, or of a view that stands out of line: above (ISO) or below (ASME)."""
    seen, profile = job.seen, job.profile
    if not seen.letter:
        return []
    kind = "DETAIL" if seen.window else "SECTION" if seen.cut else "VIEW"
    words = seen.letter if profile.iso else f"{kind} {seen.letter}"
    if seen.scale_words:
        words += f" ({seen.scale_words})" if profile.iso else f"  SCALE {seen.scale_words}"
    box = items_box(tuple(items))
    middle = (seen.box[0][0] + seen.box[1][0]) / 2 * job.scale
    y = box[1][1] + 3.0 if profile.iso else box[0][1] - 3.0 - profile.letter_mm
    return [Text((middle, y), profile.letter_mm, words, "middle")]


def outline_of(group: Group) -> Rect:
    """Return the box of the visible edges of a finished view."""
    edges = [s for s in group.items if not isinstance(s, Dimension | Text | Fill) and s.pen is Pen.VISIBLE]
    return items_box(tuple(edges)) if edges else group.box
