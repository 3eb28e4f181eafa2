"""Sizes with their limits, threads and the mouths of holes: what a callout is made of.

Apart from the features, so that a look-up at the bench loads these few records alone.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Size:
    """A size and what it may vary by.

    ``nominal_mm`` is what is drawn (kind ``thread``: the basic minor diameter). ``kind`` says where
    the limits come from: ``fit``, ``limits`` (written), ``general`` (the part's general tolerance),
    ``thread``, ``clearance`` or ``basic``. ``written`` is the author's text ('12 H7', '34 ±0.05').
    """

    nominal_mm: float
    lower_mm: float
    upper_mm: float
    written: str
    kind: str
    fit: str = ""
    source: str = ""


@dataclass(frozen=True, slots=True)
class Position:
    """A diameter zone about the true place (mm), measured from the named datums ('B', 'A B')."""

    zone_mm: float
    datums: str
    written: str


@dataclass(frozen=True, slots=True)
class Thread:
    """A thread by its designation ('M5', '10-32 UNF'), 60 degree form unless ``form`` differs."""

    designation: str
    series: str
    major_mm: float
    pitch_mm: float
    minor_basic_mm: float
    tolerance_class: str
    form: str = "60"
    source: str = ""


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
