"""Geometrical tolerances beside position, and what the author asks of the part's outer faces."""

from __future__ import annotations

from dataclasses import dataclass

from setupsheet.finding import Place
from setupsheet.part.face import Face


@dataclass(frozen=True, slots=True)
class Geometry:
    """A tolerance of form, direction or place (ISO 1101, ASME Y14.5).

    ``what`` is flatness, parallelism, perpendicularity or concentricity; ``zone_mm`` the width of its zone, a
    diameter where ``round_zone``; ``datums`` the letters that it counts from ('A', '' for flatness).
    """

    what: str
    zone_mm: float
    datums: str
    written: str
    round_zone: bool = False


@dataclass(frozen=True, slots=True)
class FaceAsked:
    """What the author asks of an outer face of the finished part: its finish, its geometrical tolerances."""

    face: Face
    finish: str
    geometry: tuple[Geometry, ...]
    place: Place
