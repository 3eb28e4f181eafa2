"""Rules across views: cutting planes and their sections, sizes of one feature together, counts that are true."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Callable, Iterator

from setupsheet.drawing.check_record import Case, Fault, bare, dimensions
from setupsheet.drawing.compose import outline_of
from setupsheet.drawing.ink import Arc, Circle, Dimension, Fill, Group, Line, Pen, Text
from setupsheet.drawing.precedence import ruler_of
from setupsheet.drawing.strokes import straights
from setupsheet.plane import Point2, distance

_NEAR_MM = 25.0
"""The arrow of a cutting plane stands no further from its letter."""
_SAME_MM = 0.02
_SECTION_LETTERS = 2
_ALONE = ("x", "y", "z", "start", "note", "count")
"""What may stand apart from a feature's other sizes: places, the start angle of a ring, words, how many."""


def sections_marked(case: Case) -> list[Fault]:
    """C17: a section's letter stands twice at one view, each with an arrow, and both point the same way."""
    faults = []
    for section in (g for g in case.views if _letter(g)):
        marks = _marks(case.all_sheets[0].groups, _letter(section)) or _marks(case.sheet.groups, _letter(section))
        sights = {round(_sight(arrow)) % 360 for _, _, arrow in marks if arrow is not None}
        if len(marks) != _SECTION_LETTERS or any(arrow is None for _, _, arrow in marks) or len(sights) != 1:
            faults.append(
                Fault("section-unmarked", True, f"no cutting plane with two arrows is drawn for {section.name}")
            )
    return faults


def sections_seen_along_arrow(case: Case) -> list[Fault]:
    """C17: what a section shows from left to right is what its arrows look at (ISO 128-3, ASME Y14.3).

    The axes that the section shows upright are looked for among the circles of the main view that it cuts: read in
    the direction of the arrows they lie as drawn, turned round they do not.
    """
    faults = []
    for section in (g for g in case.views if _letter(g)):
        marks = _marks(case.all_sheets[0].groups, _letter(section)) or _marks(case.sheet.groups, _letter(section))
        arrows = [(group, arrow) for group, _, arrow in marks if arrow is not None and group.name == "top"]
        if arrows and _is_turned(section, arrows[0][0], _sight(arrows[0][1])):
            message = f"{section.name} is drawn as seen against its arrows"
            faults.append(Fault("section-against-arrow", True, message))
    return faults


def _letter(group: Group) -> str:
    """Return the letter of a section, '' for any other view."""
    first, _, second = group.name.partition("-")
    return first if len(first) == 1 and first == second else ""


def _marks(groups: tuple[Group, ...], letter: str) -> list[tuple[Group, Text, Fill | None]]:
    """Return the letters of a cutting plane, each with the arrow that is its own."""
    found = []
    for group in groups:
        strokes = bare(group)
        heads = [s for s in strokes if isinstance(s, Fill) and len(s.points) == 3 and not s.grey]
        texts = [s for s in strokes if isinstance(s, Text) and len(s.text) == 1 and s.text.isalpha()]
        own = [(text, _own_head(text, heads, texts)) for text in texts if text.text == letter]
        found += [(group, text, arrow) for text, arrow in own]
    largest = max((text.height for _, text, _ in found), default=0.0)
    return [mark for mark in found if mark[1].height == largest]


def _own_head(letter: Text, heads: list[Fill], letters: list[Text]) -> Fill | None:
    """Return the nearest arrowhead to which no other letter of the same height stands nearer."""
    rivals = [text for text in letters if text.height == letter.height]
    near = [head for head in heads if _apart(head, letter) < _NEAR_MM]
    own = [head for head in near if min(_apart(head, text) for text in rivals) == _apart(head, letter)]
    return min(own, key=lambda head: _apart(head, letter), default=None)


def _apart(head: Fill, letter: Text) -> float:
    """Return how far the middle of an arrowhead stands from the middle of a letter, written about its foot."""
    middle = (sum(x for x, _ in head.points) / 3, sum(y for _, y in head.points) / 3)
    return distance(middle, (letter.at[0], letter.at[1] + letter.height / 2))


def _sight(head: Fill) -> float:
    """Return the direction in which an arrowhead points."""
    tip, a, b = head.points
    return math.degrees(math.atan2(tip[1] - (a[1] + b[1]) / 2, tip[0] - (a[0] + b[0]) / 2)) % 360


def _is_turned(section: Group, main: Group, sight: float) -> bool:
    """Tell whether the section's axes lie among the main view's circles only when read the wrong way round."""
    (x0, y0), (x1, y1) = outline_of(main)
    left = outline_of(section)[0][0]
    axes = {round(x - left, 2) for x in _upright_axes(section)}
    upright = abs((sight % 180) - 90) < 45
    right_way = sight < 180 if upright else 135 < sight < 225
    k = 0 if upright else 1
    low, high = ((x0, x1), (y0, y1))[k]
    centres = {round(s.centre[k], 2) for s in bare(main) if isinstance(s, Circle | Arc)}
    as_seen = {c - low if right_way else high - c for c in centres}
    turned = {high - c if right_way else c - low for c in centres}
    return bool(axes) and not _among(axes, as_seen) and _among(axes, turned)


def _upright_axes(section: Group) -> list[float]:
    """Return where upright axes stand in a section; those of circles that it looks at are none of the plane's."""
    strokes = bare(section)
    looked_at = [s.centre[0] for s in strokes if isinstance(s, Circle)]
    lines = [s for s in strokes if isinstance(s, Line) and s.pen in (Pen.CENTRE, Pen.THIN)]
    upright = [s.a[0] for s in lines if abs(s.a[0] - s.b[0]) < _SAME_MM and abs(s.a[1] - s.b[1]) > 1.0]
    return [x for x in upright if all(abs(x - at) > _SAME_MM for at in looked_at)]


def _among(some: set[float], of: set[float]) -> bool:
    return all(any(abs(a - b) < _SAME_MM for b in of) for a in some)


def sizes_together(case: Case) -> list[Fault]:
    """C7: the sizes of one feature stand in one view, places apart; a detail shows again what a view holds."""
    if case.sheet is not case.all_sheets[0]:
        return []
    found: dict[str, set[str]] = defaultdict(set)
    for sheet in case.all_sheets:
        for group in sheet.groups:
            for dim in dimensions(group):
                if dim.kind in ("table", "turn") or group.name.startswith("detail"):
                    continue
                for feature, what, _ in dim.gives:
                    if feature != "part" and what not in _ALONE:
                        found[feature].add(group.name)
    return [
        Fault("sizes-scattered", False, f"sizes of {feature} stand in {' and '.join(sorted(views))}", feature)
        for feature, views in found.items()
        if len(views) > 1
    ]


def counts_true(case: Case) -> list[Fault]:
    """C11: at least as many circles of a hole's size show in the view as its callout counts."""
    faults = []
    for group in (g for g in case.views if "-" not in g.name):
        rims = [s for s in bare(group) if isinstance(s, Circle | Arc)]
        for dim in (d for d in dimensions(group) if d.kind == "callout"):
            count = next((value for _, what, value in dim.gives if what == "count"), 0.0)
            bore = next((value for _, what, value in dim.gives if what == "diameter"), None)
            if bore is None or not count:
                continue
            seen = {_place(s.centre) for s in rims if abs(s.radius - bore / 2 * group.scale) < _SAME_MM}
            if len(seen) < count:
                message = f"{dim.text!r} counts {count:g}, and {len(seen)} are drawn"
                faults.append(
                    Fault("count-wrong", True, message, dim.feature, found=f"{len(seen)}", allowed=f"{count:g}")
                )
    return faults


def _place(point: Point2) -> Point2:
    return round(point[0], 2), round(point[1], 2)


def extensions_beside_holes(case: Case) -> list[Fault]:
    """D8: no extension line runs through a hole so near its centre that it reads as its axis, and is not."""
    faults = []
    for group in case.views:
        rims = [s for s in bare(group) if isinstance(s, Circle) and s.pen is Pen.VISIBLE]
        for dim in (d for d in dimensions(group) if d.kind in ("linear", "running")):
            axis = 0 if dim.angle_deg == 0.0 else 1
            if any(_runs_through(line, axis, rim) for line in _extensions(dim, axis) for rim in rims):
                message = f"an extension line of {dim.text!r} runs through another hole"
                faults.append(Fault("extension-through-hole", False, message, dim.feature))
    return faults


def _extensions(dim: Dimension, axis: int) -> Iterator[tuple[Point2, Point2]]:
    """Yield the lines of a size that run square to it."""
    for stroke in dim.strokes:
        for a, b in straights(stroke):
            ruler = ruler_of(a, b)
            if ruler and ruler[0] != axis and distance(a, b) > 1.0:
                yield a, b


def _runs_through(line: tuple[Point2, Point2], axis: int, rim: Circle) -> bool:
    """Tell whether a line across ``axis`` cuts a circle beside its centre, but within half of its radius."""
    off = abs(line[0][axis] - rim.centre[axis])
    low, high = sorted((line[0][1 - axis], line[1][1 - axis]))
    through = low < rim.centre[1 - axis] - rim.radius and high > rim.centre[1 - axis] + rim.radius
    return through and 0.05 < off < rim.radius / 2


RULES: tuple[Callable[[Case], list[Fault]], ...] = (
    sections_marked,
    sections_seen_along_arrow,
    sizes_together,
    counts_true,
    extensions_beside_holes,
)
"""The rules of this file."""
