"""Rules on amounts: what has to be more than nothing, and what would change nothing."""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.part.feature import BoltCircle, EdgeChamfer, Feature, Hole, Level, Mark, Pocket, RoundBoss, Slot
from setupsheet.part.shape import CircleShape
from setupsheet.spec.build_area import area_of
from setupsheet.spec.case import NOISE, Case, along

_Amount = tuple[str, float | None, tuple[str, ...]]
"""What it is called, how much it is in mm (None where not written), the keys that it may stand under."""


def nothing_to_make(case: Case) -> None:
    """Test that depths, diameters and widths are above 0: of a hole 0 deep only the drill's point would be cut."""
    for feature in case.part.features:
        for what, amount, keys in _amounts(feature):
            if amount is not None and amount < NOISE:
                case.wrong(
                    feature.id,
                    "no-amount",
                    f"the {what} is {case.shown(amount)}: nothing can be made of that",
                    case.place(feature, *keys),
                    found=case.shown(amount),
                    allowed="more than 0",
                    try_=f"write the {what} without a sign; a depth counts from the surface into the metal",
                )


def _amounts(feature: Feature) -> Iterator[_Amount]:
    """Return every amount of a feature that has no meaning at 0 or below."""
    if isinstance(feature, Hole):
        yield "depth", feature.depth_mm, ("depth",)
        if feature.depth_mm is None or feature.depth_mm > 0:  # else it follows from the depth, which is told
            yield "drill depth", feature.drill_depth_mm, ("drill-depth", "depth")
        yield "diameter", feature.diameter.nominal_mm, ("diameter", "fit")
        if isinstance(feature.pattern, BoltCircle):
            yield "bolt circle", feature.pattern.pcd_mm, ("pattern",)
    if isinstance(feature, RoundBoss):
        yield "diameter", feature.diameter.nominal_mm, ("diameter",)
    if isinstance(feature, Slot):
        yield "width", feature.width.nominal_mm, ("width",)
    if isinstance(feature, Pocket | Slot) and feature.depth:
        yield "depth", feature.depth.nominal_mm, ("depth",)
    if isinstance(feature, Pocket | Level) and isinstance(area_of(feature), CircleShape):
        yield "diameter", _circle(feature), ("area",)
    if isinstance(feature, EdgeChamfer):
        yield "size", feature.size.nominal_mm, ("size",)


def _circle(feature: Feature) -> float | None:
    shape = area_of(feature)
    return shape.diameter_mm if isinstance(shape, CircleShape) else None


def boss_without_effect(case: Case) -> None:
    """Test that something is cut away beside a boss, down below its top: else no boss comes to stand there."""
    for boss in case.each(RoundBoss):
        radius = boss.diameter.nominal_mm / 2 + 10 * NOISE
        rim = ((radius, 0.0), (-radius, 0.0), (0.0, radius), (0.0, -radius))
        beside = [(boss.at[0] + across, boss.at[1] + up) for across, up in rim]
        if any((boss.top.nominal_mm - case.surfaces.at(boss.face, p)) * boss.face.sign > NOISE for p in beside):
            continue
        case.mind(
            boss.id,
            "boss-without-effect",
            f"nothing is cut beside {boss.id} below its top: it does not stand out of anything",
            case.place(boss, "top"),
            found=f"top at {along(boss.face)} {case.shown(boss.top.nominal_mm)}",
            allowed="a top above the floor of the level beside it",
            try_="add the level that the boss stands on, or raise its top",
        )


def mark_outside_part(case: Case) -> None:
    """Test that a mark stands on the part."""
    for mark in case.each(Mark):
        outside = [
            f"{'xyz'[axis]} {case.shown(value)}"
            for axis, value in zip(mark.face.in_plane, mark.at, strict=True)
            if not case.box.low[axis] - NOISE <= value <= case.box.high[axis] + NOISE
        ]
        if outside:
            case.wrong(
                mark.id,
                "mark-outside-part",
                f"the mark stands beside the part, at {' and '.join(outside)}",
                case.place(mark, "at"),
                found=", ".join(outside),
                allowed="a place on the finished part",
                try_="look at the point that it is counted from",
            )


def hole_twice(case: Case) -> None:
    """Test that two holes from one face do not have one axis and one size: the second would cut air."""
    seen: dict[tuple[object, ...], tuple[Hole, str]] = {}
    for hole in case.each(Hole):
        for spot in hole.spots:
            sizes = (*spot.at, hole.diameter.nominal_mm, spot.exit_mm)
            first, label = seen.setdefault((hole.face, *(round(size, 6) for size in sizes)), (hole, spot.label))
            if first is hole:
                continue
            case.wrong(
                hole.id,
                "hole-twice",
                f"{spot.label} is the same hole as {label}",
                case.place(hole, "at", "pattern"),
                found=f"{hole.callout} twice at one place",
                allowed="each hole once",
                try_=f"leave out {hole.id} or {first.id}, or move one of them",
            )
            break


def seat_over_hole(case: Case) -> None:
    """Test that no blind hole is sunk over a narrower one on the same axis: no spot and no drill starts in a hole."""
    holes = tuple(case.each(Hole))
    for seat in (hole for hole in holes if not hole.through):
        for other in (hole for hole in holes if hole.face is seat.face and _is_narrower(hole, seat)):
            if not {_rounded(spot.at) for spot in seat.spots} & {_rounded(spot.at) for spot in other.spots}:
                continue
            depth = case.shown(seat.drill_depth_mm or abs(seat.spots[0].mouth_mm - seat.spots[0].exit_mm))
            case.wrong(
                seat.id,
                "seat-over-hole",
                f"{seat.id} is a wider hole over {other.id}: its drill finds no metal to start in",
                case.place(seat, "at", "pattern"),
                found=f"{seat.callout} blind and {other.callout} on one axis",
                allowed="one hole with a counterbore, or a round pocket with a flat floor over the hole",
                try_=f"kind: pocket, area: {{circle: {{at: ..., diameter: {case.shown(seat.diameter.nominal_mm)}}}}}, "
                f"width: {seat.callout}, depth: {depth}",
            )
            break


def _is_narrower(hole: Hole, seat: Hole) -> bool:
    return hole is not seat and hole.diameter.nominal_mm < seat.diameter.nominal_mm - NOISE


def _rounded(at: tuple[float, ...]) -> tuple[float, ...]:
    return tuple(round(value, 6) for value in at)
