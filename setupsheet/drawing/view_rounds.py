"""What is round in a view: circles that get centre lines, pitch circles, threads in end view.

The chamfer of a tapped hole is not drawn in its end view (ISO 6410-1), and its minor circle stays wide.
"""

from __future__ import annotations

from dataclasses import dataclass

from setupsheet.drawing import threads
from setupsheet.drawing.centres import Ring
from setupsheet.drawing.frames import seen_at
from setupsheet.drawing.ink import Arc, Circle, Stroke
from setupsheet.drawing.profile import Profile
from setupsheet.drawing.seen import Seen, shows_circle
from setupsheet.part.face import Face
from setupsheet.part.feature import BoltCircle, Hole, Pocket, RoundedEnd, Slot
from setupsheet.part.part import Part
from setupsheet.part.shape import SlotShape
from setupsheet.plane import Point2, distance

_LEAST_GAP_MM = 0.7
"""Least clear distance between parallel lines on paper."""


@dataclass(frozen=True, slots=True)
class Rounds:
    """Edges (view mm, unscaled) without what is left out; circles, rings and threads on paper."""

    edges: tuple[Stroke, ...]
    circles: tuple[tuple[Point2, float], ...]
    rings: tuple[Ring, ...]
    threads: tuple[Stroke, ...]


def rounds_of(seen: Seen, part: Part, k: float, profile: Profile) -> Rounds:
    """Return the round things of a view; of a section none is seen end on through the cut."""
    axis = seen.frame.face.axis
    holes = [f for f in part.features if isinstance(f, Hole) and f.face.axis == axis]
    tapped = [(seen_at(s.at, h.face, seen.frame), h) for h in holes if h.thread for s in h.spots]
    chamfers = {(_key(at), round(c.diameter_mm / 2, 4)) for at, hole in tapped for c in hole.chamfers}
    edges = tuple(s for s in seen.visible if not _is_thread_chamfer(s, chamfers))
    edges = _without_close_rims(edges, k, {(_key(at), round(h.diameter.nominal_mm / 2, 3)) for at, h in tapped})
    full = [s for s in edges if isinstance(s, Circle)]
    circles = [((c.centre[0] * k, c.centre[1] * k), c.radius * k) for c in full]
    circles += _ends(seen, part, k)
    lines: list[Stroke] = []
    radii: dict[Point2, list[float]] = {}
    for c in full:
        radii.setdefault(_key(c.centre), []).append(c.radius)
    for centre, hole in tapped:
        minor = hole.diameter.nominal_mm / 2
        seen_here = any(abs(radius - minor) < 1e-3 for radius in radii.get(_key(centre), ()))
        if seen_here and hole.thread is not None:
            at = (centre[0] * k, centre[1] * k)
            lines.append(threads.end_view(at, minor * k, hole.thread.major_mm / 2 * k, profile))
            circles.append((at, threads.major_radius(minor * k, hole.thread.major_mm / 2 * k)))
    return Rounds(edges, tuple(circles), _rings(seen, holes, full, k), tuple(lines))


def _is_thread_chamfer(stroke: Stroke, chamfers: set[tuple[Point2, float]]) -> bool:
    return isinstance(stroke, Circle | Arc) and (_key(stroke.centre), round(stroke.radius, 4)) in chamfers


def _without_close_rims(edges: tuple[Stroke, ...], k: float, kept: set[tuple[Point2, float]]) -> tuple[Stroke, ...]:
    """Leave out the outer of two circles that stand closer on paper than lines may (a fine chamfer).

    The rims of ``kept`` stay, for a thread is drawn round them: there the inner circle goes.
    """
    radii: dict[Point2, list[float]] = {}
    for edge in edges:
        if isinstance(edge, Circle):
            radii.setdefault(_key(edge.centre), []).append(edge.radius)

    def is_close(edge: Stroke) -> bool:
        if not isinstance(edge, Circle) or (_key(edge.centre), round(edge.radius, 3)) in kept:
            return False
        others = ((radius, edge.radius - radius) for radius in radii[_key(edge.centre)])
        return any(
            1e-6 < (off if (_key(edge.centre), round(radius, 3)) not in kept else abs(off)) * k < _LEAST_GAP_MM
            for radius, off in others
        )

    return tuple(edge for edge in edges if not is_close(edge))


def _key(point: Point2) -> Point2:
    return round(point[0], 3) + 0.0, round(point[1], 3) + 0.0


def _rings(seen: Seen, holes: list[Hole], full: list[Circle], k: float) -> tuple[Ring, ...]:
    """Return the pitch circles whose holes can be seen."""
    rings = []
    for hole in holes:
        if not isinstance(hole.pattern, BoltCircle):
            continue
        places = [seen_at(s.at, hole.face, seen.frame) for s in hole.spots]
        if all(any(distance(c.centre, p) < 1e-3 for c in full) for p in places):
            centre = seen_at(hole.pattern.centre, hole.face, seen.frame)
            on_paper = tuple((x * k, y * k) for x, y in places)
            rings.append(Ring((centre[0] * k, centre[1] * k), hole.pattern.pcd_mm / 2 * k, on_paper))
    return tuple(rings)


def _ends(seen: Seen, part: Part, k: float) -> list[tuple[Point2, float]]:
    """Return the centres of rounded ends and of slots' ends, which are arcs and yet get a cross."""
    found: list[tuple[Point2, float]] = []
    for feature in part.features:
        if isinstance(feature, RoundedEnd) and feature.face.axis == seen.frame.face.axis:
            x, y = seen_at(feature.centre, feature.face, seen.frame)
            found.append(((x * k, y * k), feature.radius.nominal_mm * k))
        if isinstance(feature, Slot | Pocket) and isinstance(feature.shape, SlotShape):
            found += _slot_ends(feature.shape, feature.face, seen, k)
    return found


def _slot_ends(shape: SlotShape, face: Face, seen: Seen, k: float) -> list[tuple[Point2, float]]:
    """Return the round ends of a slot that a view along its axis shows."""
    if face.axis != seen.frame.face.axis:
        return []
    ends = [seen_at(end, face, seen.frame) for end in (shape.start, shape.end)]
    return [((x * k, y * k), shape.width_mm / 2 * k) for x, y in ends if shows_circle(seen, (x, y))]
