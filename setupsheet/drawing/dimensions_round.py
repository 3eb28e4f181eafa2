"""Rules of dimensioning for round things: holes and their patterns, bosses, ring grooves, marks."""

from __future__ import annotations

from dataclasses import replace

from setupsheet.drawing.dimensions_rules import centre, depth_of, height, home, in_view
from setupsheet.drawing.needs import Need, geometry_needs
from setupsheet.drawing.signs import DEPTH, DIAMETER, POSITION
from setupsheet.drawing.wanted import Callout, Target, Turn, Want
from setupsheet.drawing.words import Words, frame_of, hole_lines, spoken
from setupsheet.part.feature import BoltCircle, Hole, Mark, RingGroove, RoundBoss
from setupsheet.part.part import Part


def hole(feature: Hole, part: Part, words: Words) -> list[Want]:
    """Return the places, the callout and, on a pitch circle, the start angle of a hole feature."""
    radius = mouth_radius(feature)
    targets = tuple(Target(in_view(spot.at, feature), radius) for spot in feature.spots)
    frames = tuple(frame_of(geometry, words) for geometry in feature.geometry)
    if feature.position:
        zone = f"{DIAMETER}{words.length(feature.position.zone_mm)}"
        frames = ((POSITION, zone, *feature.position.datums.split()), *frames)
    datum = next((d.letter for d in part.datums if d.feature == feature.id), "")
    lines, needs = hole_lines(feature, words), hole_sizes(feature)
    found: list[Want] = [Callout(home(feature), targets, lines, needs, frames, datum)]
    circle = feature.pattern
    if isinstance(circle, BoltCircle):
        middle = centre(circle.centre, circle.pcd_mm / 2, feature, words)
        found += [replace(place, ring=True) for place in middle]
        found.append(_start(feature, circle, words))
        return found
    for spot in feature.spots:
        found += centre(spot.at, radius, feature, words)
    return found


def mouth_radius(hole_: Hole) -> float:
    """Return the radius of the largest circle that a hole shows in its view."""
    radii = [hole_.thread.major_mm / 2 if hole_.thread else hole_.diameter.nominal_mm / 2]
    if hole_.counterbore:
        radii.append(hole_.counterbore.diameter.nominal_mm / 2)
    if hole_.countersink and hole_.countersink.end == "mouth":
        radii.append(hole_.countersink.diameter.nominal_mm / 2)
    if not hole_.thread:
        radii += [c.diameter_mm / 2 for c in hole_.chamfers if c.end == "mouth"]
    return max(radii)


def hole_sizes(hole_: Hole) -> tuple[Need, ...]:
    """Return the sizes that a hole's callout gives, the main one first."""
    id_ = hole_.id
    thread = hole_.thread
    found = [
        Need(id_, "thread", thread.major_mm) if thread else Need(id_, "diameter", hole_.diameter.nominal_mm),
    ]
    if len(hole_.spots) > 1:
        found.append(Need(id_, "count", len(hole_.spots)))
    if not hole_.through:
        found.append(Need(id_, "depth", hole_.depth_mm or 0.0))
        if thread and hole_.drill_depth_mm:
            found.append(Need(id_, "drill depth", hole_.drill_depth_mm))
    if hole_.counterbore:
        found.append(Need(id_, "counterbore diameter", hole_.counterbore.diameter.nominal_mm))
        found.append(Need(id_, "counterbore depth", hole_.counterbore.depth_mm))
    if hole_.countersink:
        found.append(Need(id_, "countersink diameter", hole_.countersink.diameter.nominal_mm))
        found.append(Need(id_, "countersink angle", hole_.countersink.angle_deg))
    found += [Need(id_, f"chamfer {c.end}", c.diameter_mm) for c in hole_.chamfers]
    if hole_.position:
        found.append(Need(id_, "position", hole_.position.zone_mm))
    found += geometry_needs(hole_)
    if isinstance(hole_.pattern, BoltCircle):
        found.append(Need(id_, "pcd", hole_.pattern.pcd_mm))
    return tuple(found)


def _start(hole_: Hole, circle: BoltCircle, words: Words) -> Turn:
    """Return the angle from +X to the first hole, as the hole's own view shows it."""
    start = circle.start_deg % 360
    seen, axis = in_view(circle.centre, hole_), in_view((1.0, 0.0), hole_)
    up = in_view((0.0, 1.0), hole_)
    mirrored = axis[0] * up[1] - axis[1] * up[0] < 0
    zero = 0.0 if axis[0] > 0.5 else 180.0
    to = zero - start if mirrored else zero + start
    needs = (Need(hole_.id, "start", start),)
    exact = hole_.position is not None
    turn = Turn(home(hole_), seen, circle.pcd_mm / 2, zero, to, words.angle(start), needs, exact)
    said = f"first hole at {words.angle(start)} from +X"
    return replace(turn, alike=_alike(circle, zero, to), said=said if words.iso else said.upper())


def _alike(circle: BoltCircle, zero: float, to: float) -> tuple[tuple[float, float], ...]:
    """Return the other axes from which a hole of an even ring stands at the same angle as the first one."""
    if circle.skipped or abs(circle.arc_deg) != 360 or abs(to - zero) >= 45:
        return ()
    step = 360.0 / circle.count
    holes = [(to + k * step) % 360 for k in range(circle.count)]
    found = []
    for axis in (90.0, 180.0, 270.0):
        for hole_deg in holes:
            off = (hole_deg - zero - axis + 180) % 360 - 180
            if abs(abs(off) - abs(to - zero)) < 1e-6:
                found.append((zero + axis, zero + axis + off))
    return tuple(found)


def round_boss(feature: RoundBoss, part: Part, words: Words) -> list[Want]:
    """Return centre, diameter and height of a boss."""
    radius = feature.diameter.nominal_mm / 2
    datum = next((d.letter for d in part.datums if d.feature == feature.id), "")
    needs = (Need(feature.id, "diameter", feature.diameter.nominal_mm), *geometry_needs(feature))
    frames = tuple(frame_of(geometry, words) for geometry in feature.geometry)
    target = (Target(in_view(feature.at, feature), radius),)
    return [
        *centre(feature.at, radius, feature, words),
        height(feature, feature.top, words),
        Callout(home(feature), target, (words.diameter(feature.diameter),), needs, frames, datum),
    ]


def ring_groove(feature: RingGroove, _part: Part, words: Words) -> list[Want]:
    """Return centre, both diameters and the depth of a ring groove."""
    lines = (
        f"{words.diameter(feature.inner)} / {words.diameter(feature.outer)}",
        f"{'groove' if words.iso else 'GROOVE'} {DEPTH}{words.size(depth_of(feature))}",
    )
    needs = (
        Need(feature.id, "outer diameter", feature.outer.nominal_mm),
        Need(feature.id, "inner diameter", feature.inner.nominal_mm),
        Need(feature.id, "xyz"[feature.face.axis], feature.floor.nominal_mm),
    )
    radius = feature.outer.nominal_mm / 2
    target = (Target(in_view(feature.centre, feature), radius),)
    return [*centre(feature.centre, radius, feature, words), Callout(home(feature), target, lines, needs)]


def mark(feature: Mark, _part: Part, words: Words) -> list[Want]:
    """Return the note of a mark at its place."""
    target = (Target(in_view(feature.at, feature)),)
    return [Callout(home(feature), target, spoken(feature, words), (Need(feature.id, "note", 0.0),))]
