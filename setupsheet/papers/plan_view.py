"""The plan view of a setup: what the reader sees from above, standing at the machine, to scale.

Chain lines with two dots are what comes and what holds (raw metal, jaws, clamps); wide lines are what is
there when the setup is done; hatched is what its cutters take down. All places come from the plan and from
the bodies' outlines; readings that are printed carry the pointer of their value.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from setupsheet.drawing import lettering
from setupsheet.drawing.boxes import Rect, rect
from setupsheet.drawing.ink import Circle, Fill, Group, Line, Pen, Polyline, Stroke, Text
from setupsheet.papers.edge_marks import edge_marks, longest
from setupsheet.papers.floor_marks import floor_strokes
from setupsheet.papers.known_holes import known_holes
from setupsheet.papers.labels import Label, Places, thinned
from setupsheet.papers.turned import arc_strokes, clipped
from setupsheet.papers.views import Paper, SetupViews, arrow, bounds
from setupsheet.plan.record import Body, Plan, Position, Setup, Step, Witness
from setupsheet.plane import Point2, polar
from setupsheet.solid.frame import apply

SCALES = (5.0, 2.0, 1.0, 0.5, 0.4, 0.2, 0.1, 0.05)
"""Enlarged, full size, reduced (the series of ISO 5455 as far as a page needs it; 0.4 is 1:2.5)."""
_SCALE_WORDS = {
    5.0: "five times full size",
    2.0: "twice full size",
    1.0: "full size",
    0.5: "half size",
    0.4: "two fifths of full size",
    0.2: "one fifth of full size",
    0.1: "a tenth of full size",
    0.05: "a twentieth of full size",
}
_LEAST, _RIGHT, _ABOVE, _FOOT = 8.0, 8.0, 6.0, 5.0
"""Room on paper beside the jaws: for an arrow at least, for the X and Y arrow, for the reader's place."""
_JAW, _OVERHANG = 7.0, 3.0
"""How much of the jaws is shown in front of, behind and beside the part, paper mm."""
_TABLE_SHARE = 0.5
"""A rotary table is shown whole where the picture gets no smaller than this for it."""
_LABEL_MM = 3.0
_WORD_MM = 2.4
_LOOK = "look here first"
_JAW_GREY = 0.88
_ARM_MM, _SMALL_MM = 2.0, 8.0
"""Half a hole's cross; circles smaller than this on paper keep labels off."""


@dataclass(frozen=True, slots=True)
class Frame:
    """The picture's measures: scale, the metal's box in setup mm, window and whole picture in paper mm."""

    paper: Paper
    metal: Rect
    window: Rect
    whole: Rect


def scale_words(scale: float) -> str:
    """Return the scale of a plan view in words."""
    return _SCALE_WORDS[scale]


def plan_view(plan: Plan, index: int, views: SetupViews, room: Point2) -> Group:
    """Return the plan view of setup ``index`` (from 0) in paper mm, no larger than ``room``."""
    setup = plan.setups[index]
    frame = _frame(plan, setup, views, room)
    places = Places(frame.window)
    path = f"/setups/{index}"
    strokes: list[Stroke] = []
    strokes += _holding(setup, frame, places, path)
    strokes += _metal(views, frame)
    strokes += _zero(setup, frame, places)
    strokes += arc_strokes(setup, frame.paper, frame.window)
    places.keep_off(strokes)
    corner = _marked_corner(setup, frame, places)
    strokes += corner
    strokes += _holes(setup, views, frame, places, path)
    strokes += known_holes(plan, setup, [s for s in strokes if isinstance(s, Circle)], frame.paper, places)
    if corner:
        strokes += places.place(Label(_middle(corner[0]), 2.0, setup.mark_label, _LABEL_MM, f"{path}/mark_label"))
    strokes += _touch_place(setup, frame, places)
    strokes += floor_strokes(setup, views.before_from_above or _block(frame.metal), frame.paper, places, path)
    strokes += edge_marks(setup.edges, frame.paper, frame.window, path)
    strokes += _reader(frame)
    return Group(f"setup {setup.number} from above", tuple(strokes), frame.whole, frame.paper.scale)


def stock_box(plan: Plan, setup: Setup) -> Rect:
    """Return where the blank lies in a setup, seen from above."""
    corners = [(x, y, z) for x in (0.0, 1.0) for y in (0.0, 1.0) for z in (0.0, 1.0)]
    size = plan.stock.size_mm
    inside = [(c[0] * size[0], c[1] * size[1], c[2] * size[2]) for c in corners]
    points = [apply(setup.part_to_setup, apply(plan.stock.stock_to_part, point)) for point in inside]
    return rect(
        min(p[0] for p in points), min(p[1] for p in points), max(p[0] for p in points), max(p[1] for p in points)
    )


def view_size(plan: Plan, index: int, views: SetupViews, room: Point2) -> tuple[float, Point2]:
    """Return the scale and the size (paper mm) of the plan view that ``plan_view`` would draw."""
    frame = _frame(plan, plan.setups[index], views, room)
    (x0, y0), (x1, y1) = frame.whole
    return frame.paper.scale, (x1 - x0, y1 - y0)


def _frame(plan: Plan, setup: Setup, views: SetupViews, room: Point2) -> Frame:
    metal = bounds(views.before_from_above) or stock_box(plan, setup)
    bare, whole = _framed(metal, setup, room), _framed(_with_table(metal, setup), setup, room)
    return replace(whole, metal=metal) if whole.paper.scale >= _TABLE_SHARE * bare.paper.scale else bare


def _with_table(metal: Rect, setup: Setup) -> Rect:
    """Return the metal's box, grown to hold the rotary table that it lies on."""
    reach = setup.hold.bodies[0].radius_mm if setup.hold.in_ == "rotary table" else 0.0
    (x0, y0), (x1, y1) = metal
    return rect(min(x0, -reach), min(y0, -reach), max(x1, reach), max(y1, reach)) if reach else metal


def _framed(metal: Rect, setup: Setup, room: Point2) -> Frame:
    wide, deep = metal[1][0] - metal[0][0], metal[1][1] - metal[0][1]
    left, below = (max(_LEAST, longest(setup.edges, axis)) for axis in "yx")
    below += _FOOT
    free = (room[0] - left - _RIGHT - 2 * _OVERHANG, room[1] - below - _ABOVE - 2 * _JAW)
    scale = next((s for s in SCALES if wide * s <= free[0] and deep * s <= free[1]), SCALES[-1])
    low, high = metal
    window = (
        (low[0] * scale - _OVERHANG, low[1] * scale - _JAW),
        (high[0] * scale + _OVERHANG, high[1] * scale + _JAW),
    )
    (x0, y0), (x1, y1) = window
    whole = ((x0 - left, y0 - below), (x1 + _RIGHT, y1 + _ABOVE))
    return Frame(Paper(scale), metal, window, whole)


def _block(metal: Rect) -> tuple[Stroke, ...]:
    (x0, y0), (x1, y1) = metal
    return (Polyline(Pen.PHANTOM, ((x0, y0), (x1, y0), (x1, y1), (x0, y1)), closed=True),)


def _metal(views: SetupViews, frame: Frame) -> list[Stroke]:
    """Return the body as it comes (phantom) under the body when the setup is done (visible)."""
    done = {_key(stroke) for stroke in views.after_from_above}
    coming = [s for s in (views.before_from_above or _block(frame.metal)) if _key(s) not in done]
    strokes = [_penned(s, Pen.PHANTOM) for s in coming] + [_penned(s, Pen.VISIBLE) for s in views.after_from_above]
    return [frame.paper.stroke(stroke) for stroke in strokes]


def _key(stroke: Stroke) -> tuple[object, ...]:
    """Return what makes a stroke the same line on paper, its direction and pen left aside."""
    if isinstance(stroke, Line):
        return ("line", *sorted((_near(stroke.a), _near(stroke.b))))
    if isinstance(stroke, Circle):
        return ("circle", _near(stroke.centre), round(stroke.radius, 3))
    return ("other", repr(_penned(stroke, Pen.VISIBLE)))


def _near(point: Point2) -> Point2:
    return round(point[0], 3) + 0.0, round(point[1], 3) + 0.0


def _penned(stroke: Stroke, pen: Pen) -> Stroke:
    if isinstance(stroke, Fill | Text):
        return stroke
    values = {name: getattr(stroke, name) for name in stroke.__dataclass_fields__}
    return type(stroke)(**{**values, "pen": pen})


def _holding(setup: Setup, frame: Frame, places: Places, path: str) -> list[Stroke]:
    """Return jaws, clamps, stops (phantom) and what lies under the part (hidden), each with its name."""
    rests_at = setup.hold.jaw_top_z - setup.hold.grip_mm
    strokes: list[Stroke] = []
    for number, body in enumerate(setup.hold.bodies):
        under = body.high[2] <= rests_at + 1e-6
        pen = Pen.HIDDEN if under else Pen.PHANTOM
        if body.radius_mm:
            centre = frame.paper.point((body.low[0], body.low[1]))
            strokes += clipped(Circle(pen, centre, body.radius_mm * frame.paper.scale), frame.window)
            continue
        sides, seen = _clipped(body, frame)
        if under and seen and seen[1][1] - seen[0][1] >= frame.window[1][1] - frame.window[0][1] - 1e-6:
            continue  # the bed of the vise or the table: it is everywhere
        strokes += [Line(pen, a, b) for a, b in sides]
        if seen and not under:
            (x0, y0), (x1, y1) = seen
            strokes.append(Fill(((x0, y0), (x1, y0), (x1, y1), (x0, y1)), _JAW_GREY))
            strokes += _named(body, seen, places, f"{path}/hold/bodies/{number}/name")
    return strokes


def _clipped(body: Body, frame: Frame) -> tuple[list[tuple[Point2, Point2]], Rect | None]:
    """Return the sides of a body that lie in the window, and the part of it that is seen."""
    low, high = (frame.paper.point((p[0], p[1])) for p in (body.low, body.high))
    (wx0, wy0), (wx1, wy1) = frame.window
    x0, x1, y0, y1 = max(low[0], wx0), min(high[0], wx1), max(low[1], wy0), min(high[1], wy1)
    if x0 >= x1 or y0 >= y1:
        return [], None
    sides = [((x, y0), (x, y1)) for x in (low[0], high[0]) if wx0 <= x <= wx1]
    sides += [((x0, y), (x1, y)) for y in (low[1], high[1]) if wy0 <= y <= wy1]
    return sides, rect(x0, y0, x1, y1)


def _named(body: Body, seen: Rect, places: Places, path: str) -> list[Stroke]:
    label = Text((0.0, 0.0), _WORD_MM, body.name, "middle", bold=True, path=path)
    (x0, y0), (x1, y1) = seen
    if y1 - y0 < _WORD_MM + 1 or x1 - x0 < lettering.width(lettering.drawable(body.name), _WORD_MM, True):
        return places.place(Label(((x0 + x1) / 2, (y0 + y1) / 2), 0.0, body.name, _WORD_MM, path))
    places.take(rect(x0, y0, x1, y1))
    at = (_beside_axis(body.name, x0, x1), (y0 + y1 - _WORD_MM) / 2)
    return [replace(label, at=at)]


def _beside_axis(name: str, low: float, high: float) -> float:
    """Return the middle of a jaw's name: that of the jaw, or beside the Y axis where the axis would cut the word."""
    half = lettering.width(lettering.drawable(name), _WORD_MM, True) / 2 + 1.5
    middle = (low + high) / 2
    if abs(middle) >= half:
        return middle
    beside = [x for x in (half, -half) if low + half <= x <= high - half]
    return min(beside, key=lambda x: abs(x - middle), default=middle)


def _zero(setup: Setup, frame: Frame, places: Places) -> list[Stroke]:
    """Return the zero mark and the two axes with arrows the way the machine counts."""
    (x0, y0), (x1, y1) = frame.window
    radius = 2.2
    strokes: list[Stroke] = [Circle(Pen.THIN, (0.0, 0.0), radius)]
    for start in (0.0, 180.0):
        pie = tuple(polar((0.0, 0.0), radius, start + step * 15) for step in range(7))
        strokes.append(Fill(((0.0, 0.0), *pie)))
    places.take(rect(-radius, -radius, radius, radius))
    right = setup.counts.get("x", 1) > 0
    away = setup.counts.get("y", 1) > 0
    tip_x = (x1 + 4.0, 0.0) if right else (x0 - 4.0, 0.0)
    tip_y = (0.0, y1 + 4.0) if away else (0.0, y0 - 4.0)
    strokes += [
        Line(Pen.CENTRE, (x0 if right else x1, 0.0), tip_x),
        Line(Pen.CENTRE, (0.0, y0 if away else y1), tip_y),
        arrow(tip_x, (0.0, 0.0)),
        arrow(tip_y, (0.0, 0.0)),
        Text((tip_x[0] + (0.6 if right else -0.6), 1.5), _LABEL_MM, "X+", "right" if right else "left", bold=True),
        Text((1.8, tip_y[1] - (2.2 if away else 0.6)), _LABEL_MM, "Y+", bold=True),
    ]
    return strokes


def _marked_corner(setup: Setup, frame: Frame, places: Places) -> list[Fill]:
    """Return the black corner of the mark and keep its place; its label comes when the holes have theirs."""
    if setup.mark_at is None or not setup.mark_label:
        return []
    x, y = frame.paper.point((setup.mark_at[0], setup.mark_at[1]))
    middle = [(frame.metal[0][i] + frame.metal[1][i]) / 2 * frame.paper.scale for i in (0, 1)]
    inward = (4.0 if x < middle[0] else -4.0, 4.0 if y < middle[1] else -4.0)
    places.take(rect(x, y, x + inward[0], y + inward[1]))
    return [Fill(((x, y), (x + inward[0], y), (x, y + inward[1])))]


def _middle(fill: Fill) -> Point2:
    """Return the middle of the corner's long side."""
    (_, (ax, ay), (bx, by)) = fill.points
    return (ax + bx) / 2, (ay + by) / 2


def _holes(setup: Setup, views: SetupViews, frame: Frame, places: Places, path: str) -> list[Stroke]:
    """Return a cross and a label at each place of hole-like work, and a ring about the witness."""
    strokes: list[Stroke] = []
    found: dict[str, tuple[Position, str]] = {}
    strokes += [line for step in setup.steps if step.operation == "scribe" for line in _pricks(step, frame)]
    for s, step in enumerate(setup.steps):
        if step.method == "by_points" or step.operation == "scribe":
            continue
        for p, position in enumerate(step.positions):
            found.setdefault(position.label, (position, f"{path}/steps/{s}/positions/{p}/label"))
    seen = [frame.paper.stroke(stroke) for stroke in views.after_from_above]
    circles = [stroke for stroke in seen if isinstance(stroke, Circle)]
    for circle in circles:
        if circle.radius < _SMALL_MM:
            places.take(_square(circle.centre, circle.radius))
    labels: list[Label] = []
    widest: dict[Point2, float] = {}
    for circle in circles:
        widest[_spot(circle.centre)] = max(circle.radius, widest.get(_spot(circle.centre), 0.0))
    for label, (position, pointer) in found.items():
        x, y = frame.paper.point((position.x, position.y))
        arm = _ARM_MM
        strokes += [Line(Pen.THIN, (x - arm, y), (x + arm, y)), Line(Pen.THIN, (x, y - arm), (x, y + arm))]
        places.take(_square((x, y), arm))
        labels.append(Label((x, y), max(arm, widest.get(_spot((x, y)), 0.0)), label, _LABEL_MM, pointer))
    for one in thinned(labels, places):
        strokes += places.place(one)
    named = setup.witness is not None and setup.witness.label in found
    return strokes + (_witness(setup.witness, frame, places, "" if named else path) if setup.witness else [])


def _spot(point: Point2) -> Point2:
    """Return a point as the key by which circles about it are found; + 0.0 makes one zero of two."""
    return round(point[0], 2) + 0.0, round(point[1], 2) + 0.0


def _pricks(step: Step, frame: Frame) -> list[Line]:
    """Return a small slanted cross at each point that is scribed; the outline that it lies on says which."""
    strokes = []
    for position in step.positions:
        x, y = frame.paper.point((position.x, position.y))
        strokes += [Line(Pen.THIN, (x - 0.8, y - 0.8), (x + 0.8, y + 0.8))]
        strokes += [Line(Pen.THIN, (x - 0.8, y + 0.8), (x + 0.8, y - 0.8))]
    return strokes


def _touch_place(setup: Setup, frame: Frame, places: Places) -> list[Stroke]:
    """Return a small black triangle where the later cutters find Z again, named where there is room."""
    at = [(step.touch_off.x, step.touch_off.y) for step in setup.steps if step.touch_off]
    if not at:
        return []
    x, y = frame.paper.point(at[-1])
    places.take(rect(x - 1.3, y, x + 1.3, y + 2.4))
    name = places.place(Label((x, y + 1.2), 1.4, "touch Z", _WORD_MM, bold=False), or_on_it=False)
    return [Fill(((x, y), (x - 1.3, y + 2.4), (x + 1.3, y + 2.4))), *name]


def _square(centre: Point2, half: float) -> Rect:
    return rect(centre[0] - half, centre[1] - half, centre[0] + half, centre[1] + half)


def _witness(witness: Witness, frame: Frame, places: Places, path: str) -> list[Stroke]:
    """Return a heavy ring about the hole that is looked at before the first cut, with its label unless it has it."""
    at = frame.paper.point((witness.x, witness.y))
    radius = max(3.0, witness.pin_mm / 2 * frame.paper.scale + 1.2)
    places.take(_square(at, radius))
    text = f"{witness.label}: {_LOOK} " if path else _LOOK
    named = places.place(Label(at, radius, text, _WORD_MM), or_on_it=False)
    if not named:
        path = ""
        named = places.place(Label(at, radius, _LOOK, _WORD_MM), or_on_it=False)
    return [Circle(Pen.CUT, at, radius), *(one for stroke in named for one in _halved(stroke, witness.label, path))]


def _halved(stroke: Stroke, label: str, path: str) -> list[Stroke]:
    """Return 'P1' and ': look here first' as two texts, since only the first is a value of the plan."""
    if not isinstance(stroke, Text) or not path:
        return [stroke]
    x, y = stroke.at
    rest = x + lettering.width(lettering.drawable(label), stroke.height, True)
    words = replace(stroke, at=(rest + 0.05, y), text=f": {_LOOK}", path="")
    return [replace(stroke, text=label, path=f"{path}/witness/label"), words]


def _reader(frame: Frame) -> list[Stroke]:
    """Return the mark that says from which side the reader looks."""
    middle = (frame.window[0][0] + frame.window[1][0]) / 2
    foot = frame.whole[0][1] + 0.8
    tip = (middle - 17.0, foot + 2.6)
    return [
        Fill((tip, (tip[0] - 1.8, foot), (tip[0] + 1.8, foot))),
        Text((middle - 14.0, foot), 2.4, "you stand here", bold=True),
    ]
