"""What is dimensioned: from each feature the places, sizes and callouts that its kind wants.

One function a kind (``RULES``); ``wants`` puts them together for a whole part, each place once. Where a
want stands on paper is decided later (``running.py``, ``leaders.py``).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from setupsheet.drawing.corners import bounds_of
from setupsheet.drawing.dimensions_outline import corner_radius, edge_chamfer, edge_cut, rounded_end
from setupsheet.drawing.dimensions_round import hole, mark, ring_groove, round_boss
from setupsheet.drawing.dimensions_rules import (
    ELEVATIONS,
    LOOKING_ALONG,
    area,
    centre,
    coordinate,
    depth_of,
    end_targets,
    flank_targets,
    height,
    home,
    in_view,
    round_callouts,
)
from setupsheet.drawing.frames import FRAME, lift, project
from setupsheet.drawing.needs import AXES, Need, face_needs, toleranced_side
from setupsheet.drawing.number_format import auxiliary
from setupsheet.drawing.signs import DEPTH
from setupsheet.drawing.texture import is_texture
from setupsheet.drawing.wanted import Callout, Flag, Place, Span, Want
from setupsheet.drawing.words import Words, frame_of, spoken, surface, texture_of, words_of
from setupsheet.part.face import Face
from setupsheet.part.feature import EdgeCut, Feature, Level, Pocket, RoundedEnd, Slot
from setupsheet.part.part import Part
from setupsheet.part.shape import BoxShape, PolygonShape
from setupsheet.plane import Point2


def wants(part: Part) -> tuple[Want, ...]:
    """Return all that is to be dimensioned, in the order of the part's features; places only once."""
    words = words_of(part)
    found: list[Want] = []
    for feature in part.features:
        found += _spoken(feature, RULES[feature.kind](feature, part, words.of(feature.id)), words)
    found += _overall(part, words)
    found += _flags(part)
    found += _faces(part, words)
    return tuple(_gathered(_once(found), words))


def _spoken(feature: Feature, found: list[Want], words: Words) -> list[Want]:
    """Give the feature's first leader its finish and its note, unless its rule did so already."""
    leader = next((want for want in found if isinstance(want, Callout)), None)
    if leader is None:
        return found
    more = tuple(text for text in spoken(feature, words) if text not in leader.lines)
    fuller = replace(leader, lines=(*leader.lines, *more), texture=texture_of(feature, words))
    return [fuller if want is leader else want for want in found]


def without_leader(part: Part) -> tuple[str, ...]:
    """Return what is said of features that have no leader of their own, each with the feature's name."""
    words, found = words_of(part), []
    for feature in part.features:
        said = spoken(feature, words)
        if said and not _has_leader(feature, part, words):
            found.append(f"{feature.id}: {', '.join(said)}")
    return tuple(found)


def textures_without_leader(part: Part) -> tuple[tuple[str, str], ...]:
    """Return feature and value of each surface symbol that finds no leader: the notes draw it."""
    words = words_of(part)
    asked = ((feature, texture_of(feature, words)) for feature in part.features)
    return tuple((feature.id, value) for feature, value in asked if value and not _has_leader(feature, part, words))


def _has_leader(feature: Feature, part: Part, words: Words) -> bool:
    return any(isinstance(want, Callout) for want in RULES[feature.kind](feature, part, words))


def _once(found: list[Want]) -> list[Want]:
    """Join places with equal coordinates, and drop those that the origin or a distance already fixes."""
    fixed = {(need.what, round(need.value, 6)) for want in found if isinstance(want, Span) for need in want.needs}
    places: dict[tuple[int, float], Place] = {}
    rest: list[Want] = []
    for want in found:
        if not isinstance(want, Place):
            rest.append(want)
            continue
        key = (want.axis, round(want.value, 6))
        if abs(want.value) < 1e-9 or (AXES[want.axis], key[1]) in fixed:
            continue
        places[key] = _joined(places[key], want) if key in places else want
    return [*places.values(), *rest]


def _gathered(found: list[Want], words: Words) -> list[Want]:
    """Give equal features one callout with their count: four like slots are said once."""
    out: list[Want] = []
    groups: dict[tuple[object, ...], list[Callout]] = {}
    for want in found:
        if isinstance(want, Callout) and _can_join(want):
            what = tuple(need.what for need in want.needs)
            groups.setdefault((want.face, want.lines, want.texture, what), []).append(want)
        else:
            out.append(want)
    return out + [_as_one(group, words) for group in groups.values()]


def _can_join(callout: Callout) -> bool:
    counted = any(need.what == "count" for need in callout.needs)
    few = len(callout.targets) <= 2 or callout.needs[0].what == "width"
    return few and not (callout.frames or callout.datum or counted or callout.needs[0].what == "note")


def _as_one(group: list[Callout], words: Words) -> Callout:
    first = group[0]
    if len(group) == 1:
        return first
    lines = (words.times(len(group), first.lines[0]), *first.lines[1:])
    needs = tuple(need for callout in group for need in callout.needs)
    return replace(first, targets=tuple(t for c in group for t in c.targets), lines=lines, needs=needs)


def _joined(a: Place, b: Place) -> Place:
    """Return one place for two things at one coordinate: the longer text carries the tolerance.

    The one in the main view is kept, an edge before a centre, a round thing before a bare pitch circle.
    """
    kept, other = sorted((a, b), key=lambda place: (Face.TOP not in place.faces, place.ring, not place.edge))
    text = a.text if len(a.text) >= len(b.text) else b.text
    others = (*kept.others, replace(other, others=()), *other.others)
    return replace(kept, text=text, needs=a.needs + b.needs, others=others)


def _overall(part: Part, words: Words) -> list[Want]:
    """Return the three overall sizes: the far end of the running dimensions."""
    found: list[Want] = []
    for axis in range(3):
        low, high = part.box.low[axis], part.box.high[axis]
        far = high if abs(low) < 1e-9 else low
        needs = (Need("part", f"overall {AXES[axis]}", high - low), Need("part", AXES[axis], far))
        text = words.size(size) if (size := _envelope_size(part, axis)) else words.length(high - low)
        if _is_worked_out(part, axis, far):
            text = auxiliary(text)
        faces = (Face.TOP,) if axis < 2 else ELEVATIONS[2]
        found.append(Place(faces, axis, far, text, needs))
    return found


def _envelope_size(part: Part, axis: int) -> Any:
    return next((size for face, size in part.envelope.items() if face.axis == axis and face.sign > 0), None)


def _is_worked_out(part: Part, axis: int, far: float) -> bool:
    """Tell whether the far face is a rounded end or a cut measured from a feature: then the overall size follows."""
    ends = (f for f in part.features if isinstance(f, RoundedEnd) and f.side.axis == axis)
    if any(abs(part.box.at(end.side) - far) < 1e-6 for end in ends):
        return True
    return any(
        isinstance(cut, EdgeCut)
        and cut.distance is not None
        and cut.side is not None
        and cut.side.axis == axis
        and abs(part.box.at(cut.side) - far) < 1e-6
        for cut in part.features
    )


def _flags(part: Part) -> list[Want]:
    """Return the flags of datums that are faces; datums that are axes stand at their callouts."""
    found: list[Want] = []
    for datum in part.datums:
        if datum.face is not None:
            view = Face.FRONT if datum.face.axis == 2 else Face.TOP
            found.append(Flag(view, datum.face, datum.letter))
    return found


def _faces(part: Part, words: Words) -> list[Want]:
    """Return a leader to each outer face that has a finish or a geometrical tolerance of its own."""
    found: list[Want] = []
    for asked in part.faces:
        view = Face.FRONT if asked.face.axis == 2 else Face.TOP
        needs = face_needs(asked)
        texture = surface(asked.finish, words) if is_texture(asked.finish) else ""
        lines = (asked.finish,) if asked.finish and not texture else ()
        frames = tuple(frame_of(geometry, words) for geometry in asked.geometry)
        found.append(Callout(view, (), lines, needs, frames, texture=texture, side=asked.face))
    return found


def _level(level: Level, part: Part, words: Words) -> list[Want]:
    found: list[Want] = [height(level, level.height, words)]
    shapes = [level.area] if level.area is not None else []
    shapes += [keep.shape for keep in level.leave if not keep.feature]
    for shape in shapes:
        found += area(shape, level, words, bounds_of(part, level.face))
        found += round_callouts(shape, level, words, bounds_of(part, level.face))
    return found


def _pocket(pocket: Pocket, part: Part, words: Words) -> list[Want]:
    face = bounds_of(part, pocket.face)
    found: list[Want] = [*area(pocket.shape, pocket, words, face)]
    datum = next((d.letter for d in part.datums if d.feature == pocket.id), "")
    found += [replace(c, datum=datum) for c in round_callouts(pocket.shape, pocket, words, face, pocket.width)]
    for keep in pocket.leave:
        if not keep.feature:
            found += [*area(keep.shape, pocket, words, face), *round_callouts(keep.shape, pocket, words, face)]
    side = toleranced_side(pocket)
    if side is not None:
        found.append(_side(pocket, side, words))
    if pocket.floor is not None:
        found.append(height(pocket, pocket.floor, words))
    return said_as_depth(found, pocket, words)


def _side(pocket: Pocket, side: int, words: Words) -> Span:
    """Return the width of a box pocket with its limits; it also places the far side."""
    width, shape = pocket.width, pocket.shape
    assert isinstance(shape, BoxShape)
    assert width is not None
    low, far = shape.low, shape.high
    b = (far[0], low[1]) if side == 0 else (low[0], far[1])
    axis = pocket.face.in_plane[side]
    needs = (Need(pocket.id, "width", width.nominal_mm), Need(pocket.id, AXES[axis], far[side]))
    return Span(home(pocket), axis, in_view(low, pocket), in_view(b, pocket), words.size(width), needs)


def said_as_depth(found: list[Want], feature: Pocket | Slot, words: Words) -> list[Want]:
    """Give a floor as a depth at the feature's leader where the author wrote a depth and there is a leader."""
    callout = next((w for w in found if isinstance(w, Callout)), None)
    if feature.depth is None or feature.floor is None or callout is None:
        return found
    floor = next(w for w in found if isinstance(w, Place) and w.axis == feature.face.axis)
    deeper = with_depth(callout, depth_words(feature, words), floor.needs)
    return [deeper if w is callout else w for w in found if w is not floor]


def with_depth(callout: Callout, depth: str, needs: tuple[Need, ...]) -> Callout:
    """Return a callout with a depth as its last line."""
    return replace(callout, lines=(*callout.lines, depth), needs=callout.needs + needs)


def depth_words(feature: Pocket | Slot, words: Words) -> str:
    """Return the depth of an opening; at a corner radius it says that it is the pocket's."""
    sign = f"{DEPTH}{words.size(depth_of(feature))}"
    if isinstance(feature, Slot) or not isinstance(feature.shape, BoxShape | PolygonShape):
        return sign
    return f"{'pocket' if words.iso else 'POCKET'} {sign}"


def _slot(slot: Slot, part: Part, words: Words) -> list[Want]:
    """Return the centres of a slot's closed ends, its width where that shows, and its floor."""
    found: list[Want] = []
    start, end = slot.shape.start, slot.shape.end
    closed = [p for p in (start, end) if _is_inside(p, slot, part)]
    across = 1 if abs(end[0] - start[0]) > abs(end[1] - start[1]) else 0
    radius = slot.width.nominal_mm / 2
    for point in closed:
        found += centre(point, radius, slot, words)
    if not closed:
        axis = slot.face.in_plane[across]
        place = coordinate(axis, start[across], slot, words)
        found.append(replace(place, centre=in_view(start, slot), radius=radius, edge=False))
    if slot.floor is not None:
        found.append(height(slot, slot.floor, words))
    if closed or slot.floor is None:
        return said_as_depth([*found, _width_at_end(slot, closed, words)], slot, words)
    return [*found, _width_across(slot, across, words)]


def _is_inside(point: Point2, slot: Slot, part: Part) -> bool:
    i = slot.face.in_plane
    return all(part.box.low[i[k]] < point[k] < part.box.high[i[k]] for k in (0, 1))


def _width_across(slot: Slot, across: int, words: Words) -> Span:
    """Return the width between the flanks of a slot that is open at both ends, in the view along it."""
    i = slot.face.in_plane
    view = LOOKING_ALONG[i[1 - across]]
    ends = []
    for sign in (-1, 1):
        point: list[float] = list(slot.shape.start)
        point[across] += sign * slot.width.nominal_mm / 2
        ends.append(project(lift((point[0], point[1]), slot.face, slot.mouth_mm), FRAME[view]))
    needs = (Need(slot.id, "width", slot.width.nominal_mm),)
    return Span(view, i[across], ends[0], ends[1], words.size(slot.width), needs)


def _width_at_end(slot: Slot, closed: list[Point2], words: Words) -> Callout:
    """Return the width at a leader to a round end, or to a flank of a slot that has one such end only."""
    targets = end_targets(slot.shape, slot, tuple(closed) or (slot.shape.start, slot.shape.end))
    targets += flank_targets(slot.shape, slot, closed[0]) if len(closed) == 1 else ()
    words_ = f"slot {words.size(slot.width)} wide"
    line = (words_ if words.iso else words_.upper()) + ("" if slot.floor is not None else words.through)
    return Callout(home(slot), targets, (line,), (Need(slot.id, "width", slot.width.nominal_mm),))


RULES: dict[str, Callable[[Any, Part, Words], list[Want]]] = {
    "hole": hole,
    "level": _level,
    "round boss": round_boss,
    "pocket": _pocket,
    "slot": _slot,
    "edge cut": edge_cut,
    "corner radius": corner_radius,
    "rounded end": rounded_end,
    "ring groove": ring_groove,
    "edge chamfer": edge_chamfer,
    "mark": mark,
}
"""One row a kind of feature."""
