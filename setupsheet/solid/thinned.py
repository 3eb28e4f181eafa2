"""Bodies for oblique pictures of parts with very many holes: the first hole of every pattern stands for the rest.

Hidden-line removal grows as the square of the edges, and a picture of hundreds of holes is a grey field anyway.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from setupsheet.part.feature import Hole
from setupsheet.part.part import Part
from setupsheet.plane import Point2
from setupsheet.solid.volume import Cone, Primitive, Volume

HOLES_IN_A_PICTURE = 200
"""With more holes a picture costs seconds (hidden-line removal grows as n squared): one of each pattern is shown."""

_SAME_MM = 1e-4


def is_thinned(part: Part) -> bool:
    """Tell whether pictures leave out repeated holes."""
    return sum(len(f.spots) for f in part.features if isinstance(f, Hole)) > HOLES_IN_A_PICTURE


def thinned(part: Part) -> Part:
    """Return a part with the first hole of every pattern alone."""
    features = (replace(f, spots=f.spots[:1]) if isinstance(f, Hole) else f for f in part.features)
    return replace(part, features=tuple(features))


def without_repeats(part: Part, taken: Mapping[str, Volume]) -> dict[str, Volume]:
    """Return volumes that work has taken without what stands about the axis of a repeated hole."""
    left_out = {_key(hole.face.axis, spot.at) for hole in _holes(part) for spot in hole.spots[1:]}
    left_out -= {_key(hole.face.axis, hole.spots[0].at) for hole in _holes(part)}
    return {name: tuple(one for one in volume if _axis(one) not in left_out) for name, volume in taken.items()}


def _holes(part: Part) -> list[Hole]:
    return [feature for feature in part.features if isinstance(feature, Hole)]


def _axis(one: Primitive) -> tuple[int, int, int] | None:
    """Return the key of a round shape's axis, None for what is not round."""
    return _key(one.axis, one.centre) if isinstance(one, Cone) else None


def _key(axis: int, at: Point2) -> tuple[int, int, int]:
    """Return an axis as whole numbers, so that places a hair apart are one."""
    x, y = (round(value / _SAME_MM) for value in at)
    return axis, x, y
