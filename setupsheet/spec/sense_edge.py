"""Rules on the outline: edge cuts, corner radii, rounded ends, bevels."""

from __future__ import annotations

from setupsheet.part.face import Face
from setupsheet.part.feature import CornerRadius, EdgeChamfer, EdgeCut, RoundedEnd
from setupsheet.plane import Point2
from setupsheet.spec.case import NOISE, Case, along

_TOUCH_MM = 1e-3


def edge_not_at_size(case: Case) -> None:
    """Test that an edge cut over a whole side has to lie where ``size:`` and ``origin:`` put that side."""
    for cut in case.each(EdgeCut):
        if cut.side is None:
            continue
        at = cut.line[0][cut.face.in_plane.index(cut.side.axis)]
        wanted = case.box.at(cut.side)
        if abs(at - wanted) < _TOUCH_MM:
            continue
        case.wrong(
            cut.id,
            "edge-not-at-size",
            f"{along(cut.side)} {case.shown(at)} is where the {cut.side} side ends up; size: says {case.shown(wanted)}",
            case.place(cut, "distance", "to"),
            found=case.shown(at),
            allowed=f"{along(cut.side)} {case.shown(wanted)}",
            try_="change the distance or the size: both say where the same edge lies",
        )


def slant_cuts_nothing(case: Case) -> None:
    """Test that a slanted cut takes a corner of the finished envelope off, and not all of it."""
    for cut in case.each(EdgeCut):
        if cut.side is not None:
            continue
        reach = [_beyond(cut, corner) for corner in _corners(case, cut.face)]
        if max(reach) < NOISE:
            case.wrong(
                cut.id,
                "cuts-nothing",
                f"the line passes {case.shown(-max(reach))} outside the part",
                case.place(cut, "line"),
                found="no metal on the side that goes",
                allowed="a line through the part",
                try_="look at remove: it names the side that goes",
            )
        elif min(reach) > -NOISE:
            case.wrong(
                cut.id,
                "cuts-all",
                "the whole part lies on the side that goes",
                case.place(cut, "remove"),
                found="all four corners",
                allowed="the smaller side of the line",
                try_="name the other side by remove:",
            )
        elif sum(distance > NOISE for distance in reach) > 2:
            case.mind(
                cut.id,
                "cuts-most",
                f"{sum(distance > NOISE for distance in reach)} of 4 corners go",
                case.place(cut, "remove"),
                found="the larger side of the line",
                allowed="mostly the smaller side",
                try_="name the other side by remove:, if that was meant",
            )


def _beyond(cut: EdgeCut, point: Point2) -> float:
    """Return how far a point lies on the side of the line that goes, mm."""
    start = cut.line[0]
    return (point[0] - start[0]) * cut.towards[0] + (point[1] - start[1]) * cut.towards[1]


def _corners(case: Case, face: Face) -> tuple[Point2, ...]:
    first, second = face.in_plane
    low, high = case.box.low, case.box.high
    return tuple((x, y) for x in (low[first], high[first]) for y in (low[second], high[second]))


def corner_radius_off(case: Case) -> None:
    """Test that a corner radius touches both sides: its centre lies in the corner by the radius."""
    for corner in case.each(CornerRadius):
        radius = corner.radius.nominal_mm
        gaps = []
        for index, axis in enumerate(corner.face.in_plane):
            edge = (case.box.high if corner.quadrant[index] > 0 else case.box.low)[axis]
            gaps.append(abs(edge - corner.centre[index]))
        if all(abs(gap - radius) < _TOUCH_MM for gap in gaps):
            continue
        case.wrong(
            corner.id,
            "radius-does-not-touch",
            f"radius {case.shown(radius)}; its centre lies {' and '.join(map(case.shown, gaps))} from the sides",
            case.place(corner, "at", "radius"),
            found=f"{case.shown(gaps[0])} and {case.shown(gaps[1])}",
            allowed=f"{case.shown(radius)} from both",
            try_="leave out at: and the centre follows from the radius",
        )


def rounded_end_off(case: Case) -> None:
    """Test that a rounded end touches both long sides and the end: its radius is half the width."""
    for end in case.each(RoundedEnd):
        radius = end.radius.nominal_mm
        index = end.face.in_plane.index(end.side.axis)
        other = end.face.in_plane[1 - index]
        gaps = (
            abs(case.box.at(end.side) - end.centre[index]),
            end.centre[1 - index] - case.box.low[other],
            case.box.high[other] - end.centre[1 - index],
        )
        if all(abs(gap - radius) < _TOUCH_MM for gap in gaps):
            continue
        half = (case.box.high[other] - case.box.low[other]) / 2
        case.wrong(
            end.id,
            "radius-does-not-touch",
            f"radius {case.shown(radius)}; end and sides lie {', '.join(map(case.shown, gaps))} from its centre",
            case.place(end, "at", "radius"),
            found=", ".join(case.shown(gap) for gap in gaps),
            allowed=f"{case.shown(half)} (half the width) from all three",
            try_=f"radius: {case.shown(half).split()[0]}, its centre as far from the end",
        )


def bevel_too_large(case: Case) -> None:
    """Test that a bevel is smaller than the part is thick."""
    for bevel in case.each(EdgeChamfer):
        thick = case.box.size[bevel.face.axis]
        if bevel.size.nominal_mm >= thick - NOISE:
            case.wrong(
                bevel.id,
                "bevel-too-large",
                f"a leg of {case.shown(bevel.size.nominal_mm)} on a part {case.shown(thick)} thick",
                case.place(bevel, "size"),
                found=case.shown(bevel.size.nominal_mm),
                allowed=f"less than {case.shown(thick)}",
            )
