"""The mouths of holes and the zones of their places: what a spec adds to a callout."""

from __future__ import annotations

from dataclasses import dataclass

from setupsheet.part.size import Size


@dataclass(frozen=True, slots=True)
class Position:
    """A diameter zone about the true place (mm), measured from the named datums ('B', 'A B')."""

    zone_mm: float
    datums: str
    written: str


@dataclass(frozen=True, slots=True)
class Counterbore:
    """A flat-bottomed larger mouth; ``depth_mm`` from the mouth. A spotface is one with ``spotface``."""

    diameter: Size
    depth_mm: float
    written: str
    screw: str = ""
    spotface: bool = False


@dataclass(frozen=True, slots=True)
class Countersink:
    """A conical mouth, ``diameter`` at the surface; ``end`` is ``mouth`` or ``exit``."""

    diameter: Size
    angle_deg: float
    written: str
    screw: str = ""
    end: str = "mouth"


@dataclass(frozen=True, slots=True)
class HoleChamfer:
    """A small cone that breaks a hole's edge: ``diameter_mm`` at the surface; ``end`` as above."""

    diameter_mm: float
    angle_deg: float
    end: str
    written: str
