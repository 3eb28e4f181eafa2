"""What to measure, between which limits, with which gauge that can reach and is fine enough."""

from __future__ import annotations

import math
from dataclasses import replace

from setupsheet.length import Unit, fixed
from setupsheet.part.face import Face
from setupsheet.part.feature import (
    BoltCircle,
    CornerRadius,
    EdgeCut,
    Feature,
    Hole,
    Level,
    Pocket,
    RingGroove,
    RoundBoss,
    RoundedEnd,
    Size,
    Slot,
)
from setupsheet.part.part import Part
from setupsheet.part.shape import CircleShape
from setupsheet.part.shop import Gauge, Shop
from setupsheet.plan import measuring_geometry
from setupsheet.plan.record import MadeIn, Measure
from setupsheet.plan.sizes import between

CALIPER_BAND_MM = 0.08
"""Narrowest band that a caliper is trusted with (planning rule M89: caliper to ± 0.02, pins below 0.05)."""

CLOSE_MM = 0.1
"""A size whose limits lie no further apart than this is named where it can be spoiled. Common practice, no source."""

THEN = ", then "
"""Between two gauges of which the second reads what the first has felt."""

MadeBy = dict[str, tuple[MadeIn, ...]]

_AXES = {"length": Face.RIGHT, "width": Face.BACK, "height": Face.TOP}


def measures(part: Part, shop: Shop, made: MadeBy) -> tuple[Measure, ...]:
    """Return everything to measure, the whole part first, then feature by feature."""
    rows = [_with_after(_overall(part, shop, name, face), _later(made, face)) for name, face in _AXES.items()]
    rows += [_with_after(row, _later(made, face)) for face, row in measuring_geometry.of_faces(part, shop)]
    for feature in part.features:
        after = made.get(feature.id, (None,))[-1]
        rows += [_with_after(row, after) for row in _of_feature(part, shop, feature)]
        if isinstance(feature, Hole | RoundBoss):
            rows += measuring_geometry.of_feature(part, shop, feature, after)
    return tuple(rows)


def _later(made: MadeBy, face: Face) -> MadeIn | None:
    """Return the step that finishes the later one of two opposite faces."""
    steps = [step for side in (face, face.opposite) for step in made.get(f"{side.value} face", ())[-1:]]
    return max(steps, key=lambda step: (step.setup, step.step), default=None)


def _with_after(row: Measure, after: MadeIn | None) -> Measure:
    return replace(row, after=after)


def _overall(part: Part, shop: Shop, name: str, face: Face) -> Measure:
    size = part.envelope[face]
    return _row(part, shop, "", (name, size.lower_mm, size.upper_mm), "outside")


def _of_feature(part: Part, shop: Shop, feature: Feature) -> list[Measure]:
    if isinstance(feature, Hole):
        return _hole(part, shop, feature)
    if isinstance(feature, Level):
        return [_row(part, shop, feature.id, _height(part, feature), "depth")]
    if isinstance(feature, EdgeCut) and feature.distance is not None:
        return [_distance(part, shop, feature)]
    if isinstance(feature, RoundedEnd | CornerRadius):
        return [_radius(part, shop, feature)] if feature.radius.kind == "limits" else []
    sized = _plain_size(feature)
    if sized is None:
        return []
    name, size, reach = sized
    rows = [_row(part, shop, feature.id, (name, size.lower_mm, size.upper_mm), reach)]
    if isinstance(feature, RingGroove) or (isinstance(feature, Pocket | Slot) and feature.floor is not None):
        rows.append(_row(part, shop, feature.id, _deep(feature), "depth"))
    return rows


def _deep(opened: RingGroove | Pocket | Slot) -> tuple[str, float, float]:
    """Return a depth from the mouth; a groove's decides how much the seal is squeezed."""
    written = opened.depth if isinstance(opened, Pocket | Slot) else None
    if written is not None:
        return f"{opened.id} depth", written.lower_mm, written.upper_mm
    assert opened.floor is not None
    low, high = sorted(abs(opened.mouth_mm - at) for at in (opened.floor.lower_mm, opened.floor.upper_mm))
    return f"{opened.id} depth", low, high


def _height(part: Part, level: Level) -> tuple[str, float, float]:
    """Return a level as measured: from the bottom up, or from the face that it is cut into."""
    base = part.box.at(Face.BOTTOM) if level.face.axis == 2 else part.box.at(level.face)
    low, high = sorted((abs(level.height.lower_mm - base), abs(level.height.upper_mm - base)))
    return f"{level.id} {'height' if level.face is Face.TOP else 'depth'}", low, high


def _plain_size(feature: Feature) -> tuple[str, Size, str] | None:
    """Return the one size that is measured on a feature, and from which side a gauge reaches it."""
    if isinstance(feature, RoundBoss):
        return f"{feature.id} Ø", feature.diameter, "outside"
    if isinstance(feature, Pocket | Slot) and feature.width is not None:
        round_one = isinstance(feature, Pocket) and isinstance(feature.shape, CircleShape)
        return f"{feature.id} {'Ø' if round_one else 'width'}", feature.width, "inside"
    if isinstance(feature, RingGroove):
        return f"{feature.id} outside Ø", feature.outer, "inside"
    return None


def _hole(part: Part, shop: Shop, hole: Hole) -> list[Measure]:
    rows = []
    if hole.making == "tap":
        words = f"a screw {hole.callout} runs in by hand" + (" right through" if hole.through else "")
        rows.append(Measure(hole.id, f"{hole.id} thread", 0.0, 0.0, hole.callout, "screw or plug gauge", None, words))
    else:
        size = hole.diameter
        rows.append(_row(part, shop, hole.id, (f"{hole.id} Ø", size.lower_mm, size.upper_mm), "inside"))
    if isinstance(hole.pattern, BoltCircle) and len(hole.spots) > 1 and hole.making != "tap":
        rows.append(_across(part, shop, hole, hole.pattern))
    return rows


def _across(part: Part, shop: Shop, hole: Hole, circle: BoltCircle) -> Measure:
    """Measure over pins in the two holes of a pattern that lie farthest apart."""
    first = hole.spots[0]
    other = max(hole.spots[1:], key=lambda s: (round(_apart(first.at, s.at), 6), s.label))
    pin, apart = hole.diameter.lower_mm, _apart(first.at, other.at)
    slack = hole.position.zone_mm if hole.position else 0.2
    what = f"over pins Ø {_size(part, pin)} in {first.label} and {other.label}"
    del circle
    return _row(part, shop, hole.id, (what, apart + pin - slack, apart + pin + slack), "outside")


def _distance(part: Part, shop: Shop, cut: EdgeCut) -> Measure:
    """Measure from a bore to an edge over a pin in the bore: half the pin is added."""
    size = cut.distance
    assert size is not None
    bore = next((f for f in part.features if isinstance(f, Hole) and _is_at(part, f, cut.measured_from)), None)
    if bore is None:
        return _row(part, shop, cut.id, (f"{cut.measured_from} to {cut.id}", size.lower_mm, size.upper_mm), "outside")
    pin = bore.diameter.lower_mm
    what = f"over a pin Ø {_size(part, pin)} in {bore.id} to {cut.id}"
    row = _row(part, shop, cut.id, (what, size.lower_mm + pin / 2, size.upper_mm + pin / 2), "outside")
    words = f"{between(size.lower_mm, size.upper_mm, part.unit)} from its centre, and half the pin"
    return replace(row, words=words)


def _radius(part: Part, shop: Shop, rounded: RoundedEnd | CornerRadius) -> Measure:
    """Measure a round edge to limits over a pin in the bore at its centre, else with radius gauges."""
    size = rounded.radius
    bores = [f for f in part.features if isinstance(f, Hole) and f.face.axis == rounded.face.axis and len(f.spots) == 1]
    bore = next((hole for hole in bores if _apart(hole.spots[0].at, rounded.centre) < 1e-6), None)
    if bore is None:
        row = _row(part, shop, rounded.id, (f"{rounded.id} radius", size.lower_mm, size.upper_mm), "outside")
        return replace(row, gauge="radius gauges")
    pin = bore.diameter.lower_mm
    what = f"over a pin Ø {_size(part, pin)} in {bore.id} to {rounded.id}"
    row = _row(part, shop, rounded.id, (what, size.lower_mm + pin / 2, size.upper_mm + pin / 2), "outside")
    words = f"{between(size.lower_mm, size.upper_mm, part.unit)} from its centre all the way round, and half the pin"
    return replace(row, words=words)


def _is_at(part: Part, hole: Hole, name: str) -> bool:
    if hole.id == name:
        return True
    return name in part.points and len(hole.spots) == 1 and _apart(hole.spots[0].at, part.points[name]) < 1e-6


def _row(part: Part, shop: Shop, id_: str, sized: tuple[str, float, float], reach: str) -> Measure:
    what, lower, upper = sized
    gauge = pick_gauge(shop, lower, upper, reach, part.unit)
    close = upper - lower <= CLOSE_MM + 1e-9
    return Measure(id_, what, lower, upper, between(lower, upper, part.unit), gauge, None, close=close)


def pick_gauge(shop: Shop, lower_mm: float, upper_mm: float, reach: str, unit: Unit = Unit.MM) -> str:
    """Return the gauge for a size: one of the shop's that spans it and is fine enough, else what to borrow."""
    band = upper_mm - lower_mm
    if reach == "inside" and band < CALIPER_BAND_MM:
        return _fine_inside(shop, lower_mm, upper_mm, unit)
    kinds = {"outside": ("caliper", "micrometer"), "inside": ("caliper",), "depth": ("depth gauge", "caliper")}[reach]
    fine = [g for kind in kinds for g in shop.gauges if g.kind == kind and _spans(g, lower_mm, upper_mm)]
    fine = [g for g in fine if g.kind == "micrometer" or band >= CALIPER_BAND_MM]
    if fine:
        return fine[0].label
    return "micrometer (to borrow)" if reach == "outside" else "caliper (to borrow)" if not fine else fine[0].label


def _fine_inside(shop: Shop, lower_mm: float, upper_mm: float, unit: Unit) -> str:
    """Return how a close bore is measured: with pins, or a telescoping gauge and a micrometer over it."""
    pins = _named(shop, "pins", lower_mm)
    if pins:
        return pins
    felt = [g for g in shop.gauges if g.kind == "telescoping gauge" and _spans(g, lower_mm, upper_mm)]
    over = [g for g in shop.gauges if g.kind == "micrometer" and _spans(g, lower_mm, upper_mm)]
    if felt and over:
        return f"{felt[0].label}{THEN}{over[0].label} over it"
    places, one = (3, 1.0) if unit is Unit.MM else (4, float(unit.mm))
    return f"plug gauge or pins {fixed(lower_mm / one, places)} and {fixed(upper_mm / one, places)}"


def _named(shop: Shop, kind: str, size_mm: float) -> str:
    found = [g for g in shop.gauges if g.kind == kind and g.low_mm <= size_mm <= g.high_mm]
    return found[0].label if found else ""


def _spans(gauge: Gauge, lower_mm: float, upper_mm: float) -> bool:
    return gauge.low_mm <= lower_mm and upper_mm <= gauge.high_mm


def _apart(a: tuple[float, float], b: tuple[float, float]) -> float:
    return math.dist(a, b)


def _size(part: Part, value_mm: float) -> str:
    return fixed(value_mm / float(part.unit.mm), 2 if part.unit.value == "mm" else 4)
