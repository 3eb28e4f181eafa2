"""Rules on holes and their patterns."""

from __future__ import annotations

from setupsheet.part.face import Face
from setupsheet.part.feature import CornerRadius, EdgeCut, Hole, Spot
from setupsheet.plane import Point2, distance
from setupsheet.spec.case import NOISE, Case


def hole_outside_part(case: Case) -> None:
    """Test that a hole's axis has to lie in the finished part; one that breaks through an edge is a caution."""
    for hole in case.each(Hole):
        for spot in hole.spots:
            room = _room(case, hole.face, spot.at)
            if room < -NOISE:
                _outside(case, hole, spot, -room)
                break
            radius = hole.diameter.nominal_mm / 2
            if room < radius - NOISE:
                case.mind(
                    hole.id,
                    "hole-breaks-edge",
                    f"{case.shown(radius - room)} of {spot.label} lies beyond the edge: it will be open at the side",
                    case.place(hole, "at", "pattern"),
                    found=f"axis {case.shown(room)} from the edge",
                    allowed=f"more than {case.shown(radius)}",
                    because="a drill that cuts on one side only runs off and may break",
                )
                break


def _outside(case: Case, hole: Hole, spot: Spot, beyond: float) -> None:
    first, second = ("xyz"[axis] for axis in hole.face.in_plane)
    low, high = case.box.low, case.box.high
    spans = (f"{'xyz'[axis]} {case.shown(low[axis])} to {case.shown(high[axis])}" for axis in hole.face.in_plane)
    case.wrong(
        hole.id,
        "hole-outside-part",
        f"{case.shown(beyond)} outside the finished part lies {spot.label}",
        case.place(hole, "at", "pattern"),
        found=f"{first} {case.shown(spot.at[0])}, {second} {case.shown(spot.at[1])}",
        allowed=", ".join(spans),
        try_="positions are part coordinates, counted from the origin corner",
    )


def _room(case: Case, face: Face, point: Point2) -> float:
    """Return how far inside the finished outline a point lies, negative outside, mm."""
    first, second = face.in_plane
    room = min(
        point[0] - case.box.low[first],
        case.box.high[first] - point[0],
        point[1] - case.box.low[second],
        case.box.high[second] - point[1],
    )
    for cut in case.each(EdgeCut):
        if cut.face.axis == face.axis and cut.side is None:
            start = cut.line[0]
            room = min(room, (start[0] - point[0]) * cut.towards[0] + (start[1] - point[1]) * cut.towards[1])
    for corner in case.each(CornerRadius):
        beyond = (
            (point[0] - corner.centre[0]) * corner.quadrant[0],
            (point[1] - corner.centre[1]) * corner.quadrant[1],
        )
        if corner.face.axis == face.axis and min(beyond) > 0:
            room = min(room, corner.radius.nominal_mm - distance(point, corner.centre))
    return room


def hole_in_air(case: Case) -> None:
    """Test that metal is left where a hole is to go (a floor at a wrong height is told by its own rule)."""
    if any(finding.code == "height-below-part" for finding in case.desk.findings):
        return
    for hole in case.each(Hole):
        for spot in hole.spots:
            if case.surfaces.metal(hole.face, spot.at) or _room(case, hole.face, spot.at) < 0:
                continue
            case.wrong(
                hole.id,
                "hole-in-air",
                f"no metal is left at {spot.label}: other features take all of it away",
                case.place(hole, "at", "pattern"),
                found="a window or levels from both sides",
                allowed="a place where the part is solid",
                try_="move the hole, or leave it out",
            )
            break


def hole_too_deep(case: Case) -> None:
    """Test that a blind hole ends inside the part."""
    for hole in case.each(Hole):
        depth = hole.drill_depth_mm or hole.depth_mm
        if hole.through or depth is None:
            continue
        for spot in (spot for spot in hole.spots if case.surfaces.metal(hole.face, spot.at)):
            there = max(
                case.surfaces.under(hole.face.opposite, spot.at, hole.diameter.nominal_mm / 2),
                key=lambda z: z * hole.face.sign,
            )
            thick = (spot.mouth_mm - there) * hole.face.sign
            if depth < thick - NOISE:
                continue
            case.wrong(
                hole.id,
                "hole-too-deep",
                f"{case.shown(depth)} deep, but only {case.shown(thick)} of metal is there at {spot.label}",
                case.place(hole, "drill-depth", "depth"),
                found=case.shown(depth),
                allowed=f"less than {case.shown(thick)}",
                try_="through: true, or a smaller depth",
            )
            break


def holes_overlap(case: Case) -> None:
    """Test that two holes from one side may not run into each other; on one axis they count as one."""
    for face in Face:
        spots = sorted(
            (
                (spot.at[0], spot, hole)
                for hole in case.each(Hole)
                if hole.face.axis == face.axis
                for spot in hole.spots
            ),
            key=lambda item: (item[0], item[1].label),
        )
        if face.sign < 0 or len(spots) < 2:
            continue
        widest = max(hole.diameter.nominal_mm for _, _, hole in spots)
        told: set[tuple[str, str]] = set()
        for index, (x, spot, hole) in enumerate(spots):
            for other_x, other, other_hole in spots[index + 1 :]:
                if other_x - x > widest:
                    break
                _overlap(case, (spot, hole), (other, other_hole), told)


def _overlap(case: Case, one: tuple[Spot, Hole], other: tuple[Spot, Hole], told: set[tuple[str, str]]) -> None:
    (spot, hole), (spot_2, hole_2) = one, other
    reach = (hole.diameter.nominal_mm + hole_2.diameter.nominal_mm) / 2
    apart = distance(spot.at, spot_2.at)
    names = (hole.id, hole_2.id)
    if apart >= reach - NOISE or names in told or (apart < NOISE and hole.id != hole_2.id):
        return
    told.add(names)
    later = max(hole, hole_2, key=lambda item: item.place)
    case.wrong(
        later.id,
        "holes-overlap",
        f"{case.shown(apart)} between {spot.label} and {spot_2.label}: they run into each other",
        case.place(later, "pattern", "at"),
        found=case.shown(apart),
        allowed=f"more than {case.shown(reach)} from axis to axis",
        try_="fewer holes, a larger circle, or smaller holes",
    )


def mouth_smaller_than_hole(case: Case) -> None:
    """Test that a counterbore or countersink is larger than its hole, and leaves some of the hole standing."""
    for hole in case.each(Hole):
        own = hole.diameter.nominal_mm
        if hole.thread:
            own = hole.thread.major_mm
        for key, mouth in (("counterbore", hole.counterbore), ("countersink", hole.countersink)):
            if mouth and mouth.diameter.nominal_mm <= own:
                case.wrong(
                    hole.id,
                    "mouth-smaller-than-hole",
                    f"{case.shown(mouth.diameter.nominal_mm)}: the {key} is no larger than the hole, {case.shown(own)}",
                    case.place(hole, key, "spotface"),
                    found=case.shown(mouth.diameter.nominal_mm),
                    allowed=f"more than {case.shown(own)}",
                )
        if hole.counterbore:
            _counterbore_depth(case, hole, hole.counterbore.depth_mm)


def _counterbore_depth(case: Case, hole: Hole, depth: float) -> None:
    for spot in hole.spots:
        thick = abs(spot.mouth_mm - spot.exit_mm)
        if depth >= thick - NOISE:
            case.wrong(
                hole.id,
                "counterbore-too-deep",
                f"{case.shown(depth)} deep, but the hole is only {case.shown(thick)} long at {spot.label}",
                case.place(hole, "counterbore", "spotface"),
                found=case.shown(depth),
                allowed=f"less than {case.shown(thick)}",
                try_="depth: smaller, or a thicker part: nothing is left for the screw's head to sit on",
            )
            return


def unknown_position_datum(case: Case) -> None:
    """Test that a position counts from datums that exist."""
    letters = [datum.letter for datum in case.part.datums]
    for hole in case.each(Hole):
        for letter in hole.position.datums.split() if hole.position else ():
            if letter not in letters:
                case.wrong(
                    hole.id,
                    "unknown-datum",
                    f"{letter} is no datum",
                    case.place(hole, "position"),
                    found=letter,
                    allowed=", ".join(letters),
                    try_=f"add {letter}: to datums, or write {letters[0]}" if letters else "add it to datums",
                )


def datum_circle(case: Case) -> None:
    """Test that a face that is measured from a feature may not be that feature's datum."""
    letters = {datum.face: datum.letter for datum in case.part.datums if datum.face}
    for cut in case.each(EdgeCut):
        letter = letters.get(cut.side) if cut.side and cut.distance else None
        if not letter or not cut.measured_from:
            continue
        origin = case.part.points.get(cut.measured_from)
        for hole in case.each(Hole):
            measured = hole.id == cut.measured_from or any(spot.at == origin for spot in hole.spots)
            if measured and hole.position and letter in hole.position.datums.split():
                case.wrong(
                    hole.id,
                    "datum-circle",
                    f"{hole.id} counts from {letter}, and {letter} ({cut.id}) is measured from {cut.measured_from}",
                    case.place(hole, "position"),
                    found=f"to {letter}",
                    allowed="a datum that does not depend on this hole",
                    because="neither of the two could be made first",
                )


def mirror_image(case: Case) -> None:
    """Test that a part that is worked from both sides should show when it was turned over the wrong way."""
    sides = {feature.face for feature in case.part.features if feature.face.axis == 2}
    holes = [
        (spot.at, round(hole.diameter.nominal_mm, 4))
        for hole in case.each(Hole)
        if hole.face.axis == 2
        for spot in hole.spots
    ]
    if sides != {Face.TOP, Face.BOTTOM} or len(holes) < 2:
        return
    low, high = case.box.low, case.box.high
    for axis, turn in ((0, "left over right"), (1, "front over back")):
        if _same_mirrored(holes, axis, low[axis] + high[axis]):
            case.mind(
                "",
                "mirror-image",
                f"turned {turn}, the {len(holes)} holes look as before: a wrong turn-over will not show",
                case.tree.key_place("features"),
                found="holes that are their own mirror image",
                allowed="at least one hole out of the pattern, or another start angle",
                try_="turn a ring by less than half its pitch, or move one hole",
                because="the second side would be cut the wrong way round",
            )
            return


def _same_mirrored(holes: list[tuple[Point2, float]], axis: int, twice_middle: float) -> bool:
    """Tell whether the holes fall on each other when one axis is mirrored about the middle."""

    def key(point: Point2, size: float) -> tuple[float, float, float]:
        return round(point[0], 3) + 0.0, round(point[1], 3) + 0.0, size

    there = {key(point, size) for point, size in holes}
    for point, size in holes:
        image = (twice_middle - point[0], point[1]) if axis == 0 else (point[0], twice_middle - point[1])
        if key(image, size) not in there:
            return False
    return True
