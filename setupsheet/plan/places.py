"""Where the names of a spec lie: points, features, faces and datums as coordinates in the part frame."""

from __future__ import annotations

from setupsheet.part.face import Face
from setupsheet.part.feature import CornerRadius, Feature, Hole, Pocket, RingGroove, RoundBoss, RoundedEnd
from setupsheet.part.part import Part
from setupsheet.part.shape import CircleShape
from setupsheet.plane import Point2


def centre_of(feature: Feature) -> Point2 | None:
    """Return the centre of a round feature (of a pattern: its bolt circle's, else its first hole's)."""
    if isinstance(feature, Hole):
        circle = getattr(feature.pattern, "centre", None)
        return circle if circle is not None else feature.spots[0].at
    if isinstance(feature, RoundBoss):
        return feature.at
    if isinstance(feature, CornerRadius | RoundedEnd | RingGroove):
        return feature.centre
    if isinstance(feature, Pocket) and isinstance(feature.shape, CircleShape):
        return feature.shape.centre
    return None


def face_of(part: Part, name: str) -> Face | None:
    """Return the face that a name means: a face's own name, or a datum letter that is a face."""
    if name in [face.value for face in Face]:
        return Face(name)
    return next((d.face for d in part.datums if d.letter == name and d.face), None)


def feature_of(part: Part, name: str) -> Feature | None:
    """Return the feature that a name means: an id, or a datum letter that is a feature's axis."""
    id_ = next((d.feature for d in part.datums if d.letter == name and d.feature), name)
    return next((f for f in part.features if f.id == id_), None)


def coordinate(part: Part, name: str, part_axis: int) -> float | None:
    """Return where a name lies along a part axis (0 x, 1 y, 2 z), or None where it has no such place."""
    if name in part.points and part_axis < 2:
        return part.points[name][part_axis]
    face = face_of(part, name)
    if face is not None:
        return part.box.at(face) if face.axis == part_axis else None
    feature = feature_of(part, name)
    centre = centre_of(feature) if feature is not None else None
    if feature is None or centre is None or feature.face.axis == part_axis:
        return None
    return centre[feature.face.in_plane.index(part_axis)]
