"""How flatness, direction and coincidence of axes are measured: with an indicator, over a plate or about a bore.

The readings follow from the zones' definitions (ISO 1101, ASME Y14.5): a surface or an axis lies within a zone as
wide as the tolerance. Concentricity: an axis that is off by half of the zone shows the whole of it over a turn.
"""

from __future__ import annotations

from dataclasses import replace

from setupsheet.length import Unit, fixed, plain
from setupsheet.part.face import Face
from setupsheet.part.feature import Hole, RoundBoss
from setupsheet.part.geometry import Geometry
from setupsheet.part.part import Part
from setupsheet.part.shop import Shop
from setupsheet.plan.record import MadeIn, Measure

_CLOSE_MM = 0.1
"""As for sizes: what is closer is named where it can be spoiled. Common practice, no source."""

_HOW = {
    "flatness": "on three jacks, level to the plate: the indicator's whole reading over the face",
    "parallelism": "{datum} on the plate: the indicator's whole reading over the face",
    "perpendicularity": "{datum} against an angle plate on the plate: the indicator's whole reading over the face",
}
_HOW_AXIS = {
    "parallelism": "a pin in it, {datum} on the plate: the indicator's readings at both ends of the axis",
    "perpendicularity": "a pin in it, {datum} on the plate, against a square or a travelling indicator, both ways",
    "concentricity": "turned about {datum}: the indicator's whole reading over one turn",
}


def of_faces(part: Part, shop: Shop) -> list[tuple[Face, Measure]]:
    """Return the rows of the outer faces' tolerances, each with its face."""
    return [
        (asked.face, _row(part, shop, geometry, (f"{geometry.what} of the {asked.face} face", _HOW[geometry.what])))
        for asked in part.faces
        for geometry in asked.geometry
    ]


def of_feature(part: Part, shop: Shop, feature: Hole | RoundBoss, after: MadeIn | None) -> list[Measure]:
    """Return the rows of a feature's geometrical tolerances."""
    rows = (_row(part, shop, g, (f"{feature.id} {g.what}", _HOW_AXIS[g.what])) for g in feature.geometry)
    return [replace(row, feature=feature.id, after=after) for row in rows]


def _row(part: Part, shop: Shop, geometry: Geometry, said: tuple[str, str]) -> Measure:
    """Return a row; ``said`` is what is measured, and how."""
    what, how = said
    letter = geometry.datums.partition(" ")[0]
    zone = plain(geometry.zone_mm / float(part.unit.mm), 3 if part.unit is Unit.MM else 5)
    words, gauge = how.format(datum=f"datum {letter}"), _gauge(shop, geometry)
    close = geometry.zone_mm <= _CLOSE_MM
    return Measure("", what, 0.0, geometry.zone_mm, f"at most {zone}", gauge, None, words, close)


def _gauge(shop: Shop, geometry: Geometry) -> str:
    """Return the shop's indicator if it shows a fifth of the zone, else one to borrow."""
    fine = [g for g in shop.gauges if g.kind == "indicator" and g.resolution_mm <= geometry.zone_mm / 5 + 1e-9]
    return fine[0].label if fine else f"indicator that shows {fixed(geometry.zone_mm / 5, 3)} mm (to borrow)"
