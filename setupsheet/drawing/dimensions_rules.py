"""Steps that several rules of dimensioning share: which view, which coordinates, which text."""

from __future__ import annotations

import math
from itertools import product

from setupsheet.drawing.corners import Bounds, coordinates, is_on, round_size, sharp_corners
from setupsheet.drawing.frames import FRAME, lift, project, seen_at
from setupsheet.drawing.needs import AXES, Need
from setupsheet.drawing.virtual_corners import roundings
from setupsheet.drawing.wanted import Callout, Place, Target
from setupsheet.drawing.words import Words
from setupsheet.part.face import Face
from setupsheet.part.feature import Feature, Hole, Pocket, RingGroove, Size, Slot
from setupsheet.part.part import Part
from setupsheet.part.shape import CircleShape, PolygonShape, Shape, SlotShape
from setupsheet.plane import Point2, Point3, direction

LOOKING_ALONG: dict[int, Face] = {0: Face.RIGHT, 1: Face.FRONT, 2: Face.TOP}
"""The usual view of what runs along an axis."""

ELEVATIONS: dict[int, tuple[Face, ...]] = {
    2: (Face.FRONT, Face.RIGHT, Face.LEFT, Face.BACK),
    1: (Face.TOP, Face.RIGHT, Face.LEFT, Face.BOTTOM),
    0: (Face.TOP, Face.FRONT, Face.BOTTOM, Face.BACK),
}
"""Views in which a height along an axis can show as a line, the first choice first."""


def home(feature: Feature) -> Face:
    """Return the face in whose view a feature shows its true shape.

    A plain hole right through from below is drawn with the others, in the main view.
    """
    if isinstance(feature, Hole) and feature.through and feature.face is Face.BOTTOM:
        return Face.BOTTOM if feature.counterbore or feature.countersink else Face.TOP
    return feature.face


def in_view(at: Point2, feature: Feature) -> Point2:
    """Return a feature's own coordinates as coordinates of its view."""
    return seen_at(at, feature.face, FRAME[home(feature)])


def coordinate(axis: int, value: float, feature: Feature, words: Words, text: str = "") -> Place:
    """Return the place of an edge of a feature, seen in the feature's own view."""
    need = Need(feature.id, AXES[axis], value)
    return Place((home(feature),), axis, value, text or words.length(abs(value)), (need,))


def centre(at: Point2, radius: float, feature: Feature, words: Words) -> list[Place]:
    """Return the two places of the centre of a round thing."""
    seen = in_view(at, feature)
    return [
        Place(
            (home(feature),),
            axis,
            value,
            words.length(abs(value)),
            (Need(feature.id, AXES[axis], value),),
            seen,
            radius,
            edge=False,
        )
        for axis, value in zip(feature.face.in_plane, at, strict=True)
    ]


def height(feature: Feature, size: Size, words: Words) -> Place:
    """Return the place of a level surface, seen as a line in an elevation or a section."""
    axis = feature.face.axis
    need = Need(feature.id, AXES[axis], size.nominal_mm)
    text = words.size(size) if size.nominal_mm >= 0 else words.length(abs(size.nominal_mm))
    return Place(ELEVATIONS[axis], axis, size.nominal_mm, text, (need,))


def depth_of(feature: Pocket | Slot | RingGroove) -> Size:
    """Return the depth of an opening with a floor: as the author wrote it, else from the floor and its limits."""
    floor, mouth = feature.floor, feature.mouth_mm
    if feature.depth is not None:
        return feature.depth
    if floor is None:
        raise ValueError(f"{feature.id} goes right through")
    low, high = sorted((abs(mouth - floor.lower_mm), abs(mouth - floor.upper_mm)))
    return Size(abs(mouth - floor.nominal_mm), low, high, "", floor.kind)


def area(shape: Shape, feature: Feature, words: Words, face: Bounds) -> list[Place]:
    """Return the places of the edges of a flat area that lie on its face, or of its centres where it is round."""
    if isinstance(shape, CircleShape):
        return centre(shape.centre, shape.diameter_mm / 2, feature, words)
    if isinstance(shape, SlotShape):
        ends = (shape.start, shape.end)
        return [place for end in ends for place in centre(end, shape.width_mm / 2, feature, words)]
    i = feature.face.in_plane
    return [coordinate(i[axis], value, feature, words) for axis, value in coordinates(shape, face)]


def round_callouts(
    shape: Shape, feature: Feature, words: Words, face: Bounds, width: Size | None = None
) -> list[Callout]:
    """Return the callout of a shape's corner radius, diameter or slot width, none if all is sharp and straight.

    ``width`` is the size with its limits where the author wrote one; corners beyond the ``face`` are not there.
    """
    size = round_size(shape)
    if size is None:
        return []
    what, value = size
    exact = width if width is not None and abs(width.nominal_mm - value) < 1e-6 else _plain(value)
    need = (Need(feature.id, what, value),)
    if isinstance(shape, CircleShape):
        circle = (Target(in_view(shape.centre, feature), value / 2),)
        return [Callout(home(feature), circle, (words.diameter(exact),), need)]
    if isinstance(shape, SlotShape):
        text = f"slot {words.size(exact)} wide"
        ends = end_targets(shape, feature, (shape.start, shape.end))
        return [Callout(home(feature), ends, (text if words.iso else text.upper(),), need)]
    targets = corner_targets(shape, feature, face)
    text = words.times(len(targets), f"R{words.length(value)}")
    return [Callout(home(feature), targets, (text,), need)] if targets else []


def end_targets(shape: SlotShape, feature: Feature, ends: tuple[Point2, ...]) -> tuple[Target, ...]:
    """Return the round ends of a slot as arcs to point at."""
    targets = []
    for point, other in ((shape.end, shape.start), (shape.start, shape.end)):
        if point in ends:
            a, b = in_view(point, feature), in_view(other, feature)
            out = (a[0] - b[0], a[1] - b[1])
            targets.append(Target(a, shape.width_mm / 2, out if out != (0.0, 0.0) else direction(45)))
    return tuple(targets)


def flank_targets(shape: SlotShape, feature: Feature, end: Point2) -> tuple[Target, ...]:
    """Return points on the flanks of a slot that is open at the other end, for leaders that come from the side.

    They lie one and two widths from the round end; whether a view shows the flank there is for the view to say.
    """
    other = shape.start if end == shape.end else shape.end
    length = math.dist(end, other)
    along = (other[0] - end[0]) / length, (other[1] - end[1]) / length
    targets = []
    for back, sign in product((0.5, 1.0, 1.5), (1, -1)):
        out = -along[1] * sign, along[0] * sign
        x, y = (end[k] + along[k] * back * shape.width_mm + out[k] * shape.width_mm / 2 for k in (0, 1))
        at, beyond = in_view((x, y), feature), in_view((x + out[0], y + out[1]), feature)
        targets.append(Target(at, 0.0, (beyond[0] - at[0], beyond[1] - at[1])))
    return tuple(targets)


def corner_targets(shape: Shape, feature: Feature, face: Bounds) -> tuple[Target, ...]:
    """Return the rounded corners of a box or a polygon that lie on its face, as arcs to point at."""
    corners = sharp_corners(shape)
    if isinstance(shape, CircleShape | SlotShape):
        return ()
    on_face = [k for k, corner in enumerate(corners) if is_on(corner, face)]
    return tuple(target for k in on_face if (target := _corner(corners, k, shape.corner_radius_mm, feature)))


def _corner(corners: tuple[Point2, ...], k: int, radius: float, feature: Feature) -> Target | None:
    """Return the arc inside a corner of any angle, None where the polygon turns outwards and stays sharp."""
    starts = roundings(PolygonShape(corners, radius), k)
    if starts is None:
        return None
    here = corners[k]
    chord = (starts[0][0] + starts[1][0]) / 2 - here[0], (starts[0][1] + starts[1][1]) / 2 - here[1]
    near = math.hypot(*chord)
    reach = math.hypot(math.dist(here, starts[0]), radius) / near
    middle = here[0] + reach * chord[0], here[1] + reach * chord[1]
    out = in_view((here[0], here[1]), feature)
    seen = in_view(middle, feature)
    return Target(seen, radius, (out[0] - seen[0], out[1] - seen[1]))


def _plain(value: float) -> Size:
    return Size(value, value, value, "", "basic")


def corner_of(part: Part, face: Face, side: Face, view: Face, inwards: float) -> tuple[Point2, Point2]:
    """Return the point between two envelope faces as a view sees it end on, and the way out of it."""
    middle: list[float] = [(a + b) / 2 for a, b in zip(part.box.low, part.box.high, strict=True)]
    out: list[float] = [0.0, 0.0, 0.0]
    for f in (face, side):
        middle[f.axis] = part.box.at(f) - f.sign * inwards / 2
        out[f.axis] = float(f.sign)
    return project(_three(middle), FRAME[view]), project(_three(out), FRAME[view])


def _three(values: list[float]) -> Point3:
    return values[0], values[1], values[2]


__all__ = [
    "ELEVATIONS",
    "LOOKING_ALONG",
    "area",
    "centre",
    "coordinate",
    "corner_of",
    "corner_targets",
    "end_targets",
    "flank_targets",
    "height",
    "home",
    "in_view",
    "lift",
    "round_callouts",
]
