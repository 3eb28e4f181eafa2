"""Templates at full size, to lay on the metal or to prick through, with a cross to check the print."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from setupsheet.drawing.boxes import Rect
from setupsheet.drawing.ink import Circle, Group, Line, Pen, Stroke, Text
from setupsheet.papers.clip import clipped
from setupsheet.papers.labels import Label, Places, thinned
from setupsheet.papers.said import Said
from setupsheet.papers.setup_page import face_up
from setupsheet.papers.views import Paper, SetupViews, Strokes, bounds
from setupsheet.plan.record import Plan, Setup
from setupsheet.plane import Point2

CROSS_MM = 100.0
"""Length of each arm of the cross that checks the print."""
_PAGE = (188.0, 216.0)
_BORDER = 12.0
"""Room left and below for the cross; the drawing stands right of it and above it."""
_OVERLAP = 10.0
_PAPER, _HEAD, _WORDS = 250.0, 16.0, 12.0
"""Height of a page's area, of a template's heading with the room around it, and of the words at the first one."""
_LAID_OUT = ("spot", "centre drill", "scribe", "layout", "drill")


@dataclass(frozen=True, slots=True)
class LayoutPage:
    """One template or tile: which setup, which tile of how many, and the drawing at full size.

    ``bare`` is the drawing without the cross; one that ``shares`` stands so under the template before it.
    """

    anchor: str
    setup: Said
    up: str
    tile: int
    tiles: int
    picture: Group
    bare: Group
    shares: bool = False


def layout_pages(plan: Plan, index: int, views: SetupViews) -> tuple[LayoutPage, ...]:
    """Return the template of setup ``index``, tiled where it is larger than a page; () where it has no holes."""
    setup = plan.setups[index]
    labels = _labels(setup, f"/setups/{index}")
    outline = views.after_from_above
    box = bounds(outline)
    if not labels or box is None:
        return ()
    drawing = _drawing(labels, outline, box)
    tiles = _tiles(box)
    drawing += _match_marks(tiles)
    return tuple(
        LayoutPage(
            f"template-{setup.number}-{number}",
            Said(str(setup.number), f"/setups/{index}/number"),
            face_up(setup),
            number,
            len(tiles),
            _tile(setup, drawing, tile),
            _bare(setup, drawing, tile),
        )
        for number, tile in enumerate(tiles, 1)
    )


def shared(pages: Iterable[LayoutPage]) -> tuple[LayoutPage, ...]:
    """Return the templates with those marked that fit under the one before: one cross checks both."""
    marked: list[LayoutPage] = []
    used = _PAPER
    for page in pages:
        under = used + _high(page.bare) + _HEAD
        if page.tiles == 1 and marked and marked[-1].tiles == 1 and under <= _PAPER:
            marked.append(replace(page, picture=page.bare, shares=True))
            used = under
        else:
            marked.append(page)
            used = _high(page.picture) + _HEAD + _WORDS
    return tuple(marked)


def _high(picture: Group) -> float:
    return picture.box[1][1] - picture.box[0][1]


def _labels(setup: Setup, path: str) -> dict[Point2, tuple[str, str]]:
    """Return the label and its pointer at each place that is spotted in this setup; a scribed point has no label."""
    found: dict[Point2, tuple[str, str]] = {}
    for s, step in enumerate(setup.steps):
        if step.operation in _LAID_OUT:
            for p, position in enumerate(step.positions):
                label = "" if step.operation == "scribe" else position.label
                found.setdefault((position.x, position.y), (label, f"{path}/steps/{s}/positions/{p}/label"))
    return found


def _drawing(labels: dict[Point2, tuple[str, str]], outline: Strokes, box: Rect) -> tuple[Stroke, ...]:
    """Return outline, crosses and labels in setup mm, which is paper mm here."""
    places = Places(box)
    strokes: list[Stroke] = list(outline)
    circles = [stroke for stroke in outline if isinstance(stroke, Circle)]
    for x, y in labels:
        places.take(((x - 3, y - 3), (x + 3, y + 3)))
        strokes += [Line(Pen.THIN, (x - 3, y), (x + 3, y)), Line(Pen.THIN, (x, y - 3), (x, y + 3))]
    named = [
        Label(point, _radius(point, circles), label, 3.0, pointer)
        for point, (label, pointer) in labels.items()
        if label
    ]
    for one in thinned(named, places):
        strokes += places.place(one)
    strokes += [
        Line(Pen.CENTRE, (box[0][0], 0.0), (box[1][0], 0.0)),
        Line(Pen.CENTRE, (0.0, box[0][1]), (0.0, box[1][1])),
    ]
    return tuple(strokes)


def _radius(point: Point2, circles: Sequence[Circle]) -> float:
    """Return how far a label keeps off its point: the widest circle about it, or its cross."""
    return max([2.0, *(c.radius for c in circles if math.dist(c.centre, point) < 0.01)])


def _tiles(box: Rect) -> list[Rect]:
    """Return the boxes (setup mm) that a page can hold, left to right, then up; they overlap a little."""
    room = (_PAGE[0] - _BORDER - 2, _PAGE[1] - _BORDER - 2)
    spans: list[list[tuple[float, float]]] = []
    for axis in (0, 1):
        size = box[1][axis] - box[0][axis]
        count = max(1, math.ceil((size - _OVERLAP) / (room[axis] - _OVERLAP)))
        pitch = room[axis] - _OVERLAP
        starts = [box[0][axis] + i * pitch for i in range(count)]
        spans.append([(start, min(start + room[axis], box[1][axis])) for start in starts])
    return [((x0, y0), (x1, y1)) for y0, y1 in spans[1] for x0, x1 in spans[0]]


def _match_marks(tiles: list[Rect]) -> tuple[Stroke, ...]:
    """Return marks in the middle of each seam of two tiles, near its ends; both tiles show them, with a letter."""
    places: list[Point2] = []
    for low, high in itertools.combinations(tiles, 2):
        (x0, y0), (x1, y1) = (
            (max(low[0][0], high[0][0]), max(low[0][1], high[0][1])),
            (
                min(low[1][0], high[1][0]),
                min(low[1][1], high[1][1]),
            ),
        )
        wide, deep = x1 - x0, y1 - y0
        if min(wide, deep) <= 0 or max(wide, deep) <= _OVERLAP:
            continue  # no neighbours, or neighbours across a corner
        inset = min(1.5 * _OVERLAP, max(wide, deep) / 4)
        middle = ((x0 + x1) / 2, (y0 + y1) / 2)
        upright = deep > wide
        places += [(middle[0], y) if upright else (y, middle[1]) for y in _ends(upright, (x0, y0), (x1, y1), inset)]
    strokes: list[Stroke] = []
    for number, (x, y) in enumerate(places):
        letter = Text((x + 1.2, y + 1.2), 2.2, chr(ord("a") + number % 26), bold=True, halo=True)
        strokes += [Circle(Pen.THIN, (x, y), 2.5), Line(Pen.CUT, (x - 4, y), (x + 4, y))]
        strokes += [Line(Pen.CUT, (x, y - 4), (x, y + 4)), letter]
    return tuple(strokes)


def _ends(upright: bool, low: Point2, high: Point2, inset: float) -> tuple[float, float]:
    axis = 1 if upright else 0
    return low[axis] + inset, high[axis] - inset


def _tile(setup: Setup, drawing: tuple[Stroke, ...], tile: Rect) -> Group:
    """Return one tile with the cross left and below."""
    paper = Paper(1.0, tile[0], (_BORDER, _BORDER))
    strokes = [paper.stroke(piece) for stroke in drawing for piece in clipped(stroke, _reaching(tile))]
    wide, high = tile[1][0] - tile[0][0], tile[1][1] - tile[0][1]
    strokes += _cross()
    box = ((0.0, 0.0), (max(_BORDER + wide, _BORDER + CROSS_MM) + 2, max(_BORDER + high, _BORDER + CROSS_MM) + 2))
    return Group(f"template of setup {setup.number}", tuple(strokes), box)


def _reaching(tile: Rect) -> Rect:
    """Return a tile's box with room for the ends of centre lines and of marks."""
    return (tile[0][0] - 1.0, tile[0][1] - 1.0), (tile[1][0] + 1.0, tile[1][1] + 1.0)


def _bare(setup: Setup, drawing: tuple[Stroke, ...], tile: Rect) -> Group:
    """Return one tile without the cross."""
    paper = Paper(1.0, tile[0], (_BORDER, 1.0))
    box = ((0.0, 0.0), (_BORDER + tile[1][0] - tile[0][0] + 2.0, tile[1][1] - tile[0][1] + 2.0))
    return Group(f"template of setup {setup.number}", tuple(paper.stroke(stroke) for stroke in drawing), box)


def _cross() -> list[Stroke]:
    """Return two arms of 100 mm that cross at the lower left, with a tick at each end and in the middle."""
    low, at = 4.0, 4.0
    strokes: list[Stroke] = [
        Line(Pen.VISIBLE, (low, at), (low + CROSS_MM, at)),
        Line(Pen.VISIBLE, (at, low), (at, low + CROSS_MM)),
    ]
    for place in (0.0, CROSS_MM / 2, CROSS_MM):
        strokes += [
            Line(Pen.VISIBLE, (low + place, at - 2.5), (low + place, at + 2.5)),
            Line(Pen.VISIBLE, (at - 2.5, low + place), (at + 2.5, low + place)),
        ]
    return strokes
