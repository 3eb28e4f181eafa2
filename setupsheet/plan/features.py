"""The features of the part as other programs find them in plan.json."""

from __future__ import annotations

from setupsheet.part.feature import EdgeCut, Feature, Hole, Level, Mark, Size, Spot
from setupsheet.part.part import Part
from setupsheet.plan.places import centre_of
from setupsheet.plan.record import FeaturePlan, MadeIn
from setupsheet.plane import Point2, Point3


def feature_plans(part: Part, made: dict[str, tuple[MadeIn, ...]]) -> tuple[FeaturePlan, ...]:
    """Return every feature with its size, limits, axis and places in the part frame."""
    return tuple(_feature(part, feature, made.get(feature.id, ())) for feature in part.features)


def _feature(part: Part, feature: Feature, made: tuple[MadeIn, ...]) -> FeaturePlan:
    size = size_of(feature)
    normal = [0.0, 0.0, 0.0]
    normal[feature.face.axis] = float(feature.face.sign)
    spots = feature.spots if isinstance(feature, Hole) else ()
    return FeaturePlan(
        feature.id,
        feature.kind,
        callout_of(feature, size),
        size.nominal_mm if size else None,
        size.lower_mm if size else None,
        size.upper_mm if size else None,
        (normal[0], normal[1], normal[2]),
        tuple(_place(feature, spot) for spot in spots) or _centre(part, feature),
        tuple(spot.label for spot in spots),
        made,
    )


def size_of(feature: Feature) -> Size | None:
    """Return the one size that a feature is known by."""
    for name in ("diameter", "width", "radius", "distance", "height", "outer", "size"):
        value = getattr(feature, name, None)
        if isinstance(value, Size):
            return value
    return None


def callout_of(feature: Feature, size: Size | None) -> str:
    """Return what the author called the feature's size."""
    if isinstance(feature, Hole):
        return feature.callout
    if isinstance(feature, Mark):
        return feature.note
    if isinstance(feature, EdgeCut | Level) or size is None:
        return size.written if size else ""
    return size.written


def _place(feature: Feature, spot: Spot) -> Point3:
    return _in_space(feature, spot.at, spot.mouth_mm)


def _centre(part: Part, feature: Feature) -> tuple[Point3, ...]:
    centre = centre_of(feature)
    return (_in_space(feature, centre, part.box.at(feature.face)),) if centre else ()


def _in_space(feature: Feature, at: Point2, along: float) -> Point3:
    place = [0.0, 0.0, 0.0]
    u, v = feature.face.in_plane
    place[u], place[v], place[feature.face.axis] = at[0], at[1], along
    return place[0], place[1], place[2]
