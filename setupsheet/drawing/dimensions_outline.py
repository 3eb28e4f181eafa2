"""Rules of dimensioning for the outline: edge cuts, corner radii, rounded ends, chamfers."""

from __future__ import annotations

from setupsheet.drawing.dimensions_rules import LOOKING_ALONG, centre, coordinate, corner_of, home, in_view
from setupsheet.drawing.frames import FRAME
from setupsheet.drawing.needs import AXES, Need
from setupsheet.drawing.wanted import Callout, Place, Span, Target, Want
from setupsheet.drawing.words import Words
from setupsheet.part.face import Face
from setupsheet.part.feature import CornerRadius, EdgeChamfer, EdgeCut, Hole, RoundBoss, RoundedEnd
from setupsheet.part.part import Part
from setupsheet.plane import Point2


def edge_cut(feature: EdgeCut, part: Part, words: Words) -> list[Want]:
    """Return the distance from the feature it is measured from, or the coordinates of the edge."""
    if feature.distance is not None:
        return [_distance(feature, part, words)]
    (a, b), axes = feature.line, feature.face.in_plane
    if feature.side is not None:
        along = axes.index(feature.side.axis)
        return [_toleranced(feature, axes[along], a[along], words)]
    found: list[Want] = []
    for point in (a, b):
        for axis, value in zip(axes, point, strict=True):
            on_rim = value in (part.box.low[axis], part.box.high[axis])
            found.append(
                coordinate(axis, value, feature, words) if on_rim else _toleranced(feature, axis, value, words)
            )
    return found


def _toleranced(feature: EdgeCut, axis: int, value: float, words: Words) -> Place:
    text = ""
    tolerance = feature.tolerance
    if tolerance is not None and tolerance.kind == "limits":
        lower, upper = tolerance.lower_mm - tolerance.nominal_mm, tolerance.upper_mm - tolerance.nominal_mm
        text = words.with_limits(abs(value), lower, upper)
    return coordinate(axis, value, feature, words, text)


def _distance(cut: EdgeCut, part: Part, words: Words) -> Span:
    """Return the size from a feature's centre to the edge; it also places that feature if the edge is zero."""
    size = cut.distance
    assert size is not None
    axes = cut.face.in_plane
    along = 0 if abs(cut.towards[0]) > abs(cut.towards[1]) else 1
    edge = cut.line[0][along]
    start = edge - cut.towards[along] * size.nominal_mm
    across = measured_point(cut, part)[1 - along]
    needs = [Need(cut.id, "distance", size.nominal_mm)]
    if abs(edge) < 1e-9:
        needs.append(Need(cut.measured_from, AXES[axes[along]], start))
    else:
        needs.append(Need(cut.id, AXES[axes[along]], edge))
    a, b = _pair(along, start, across), _pair(along, edge, across)
    return Span(home(cut), axes[along], in_view(a, cut), in_view(b, cut), words.size(size), tuple(needs))


def measured_point(cut: EdgeCut, part: Part) -> Point2:
    """Return the point that an edge cut is measured from: a named point or a feature's centre."""
    if cut.measured_from in part.points:
        return part.points[cut.measured_from]
    for feature in part.features:
        if feature.id == cut.measured_from:
            if isinstance(feature, Hole):
                return feature.spots[0].at
            if isinstance(feature, RoundBoss):
                return feature.at
    return cut.line[0]


def _pair(along: int, value: float, across: float) -> Point2:
    return (value, across) if along == 0 else (across, value)


def corner_radius(feature: CornerRadius, _part: Part, words: Words) -> list[Want]:
    """Return the radius at its arc."""
    seen = in_view(feature.centre, feature)
    out = in_view((feature.centre[0] + feature.quadrant[0], feature.centre[1] + feature.quadrant[1]), feature)
    target = (Target(seen, feature.radius.nominal_mm, (out[0] - seen[0], out[1] - seen[1])),)
    text = f"R{words.size(feature.radius)}"
    return [Callout(home(feature), target, (text,), (Need(feature.id, "radius", feature.radius.nominal_mm),))]


def rounded_end(feature: RoundedEnd, _part: Part, words: Words) -> list[Want]:
    """Return the radius and the centre of a rounded end."""
    seen, radius = in_view(feature.centre, feature), feature.radius.nominal_mm
    out: list[float] = [0.0, 0.0, 0.0]
    out[feature.side.axis] = float(feature.side.sign)
    frame = FRAME[home(feature)]
    towards = (out[frame.u_axis] * frame.u_sign, out[frame.v_axis] * frame.v_sign)
    need = (Need(feature.id, "radius", radius),)
    return [
        *centre(feature.centre, radius, feature, words),
        Callout(home(feature), (Target(seen, radius, towards),), (f"R{words.size(feature.radius)}",), need),
    ]


def edge_chamfer(feature: EdgeChamfer, part: Part, words: Words) -> list[Want]:
    """Return a chamfer's leg and angle at one of its corners, in the view that sees it end on."""
    views = [(LOOKING_ALONG[3 - feature.face.axis - side.axis], side) for side in feature.sides]
    face = next((view for view, _ in views if view is not Face.RIGHT), views[0][0])
    leg = feature.size.nominal_mm
    targets = []
    for view, side in views:
        if view is face:
            at, out = corner_of(part, feature.face, side, view, leg)
            targets.append(Target(at, 0.0, out))
    text = words.times(len(feature.sides), f"{words.size(feature.size)}{words.by}{words.angle(45)}")
    return [Callout(face, tuple(targets), (text,), (Need(feature.id, "chamfer", leg),))]
