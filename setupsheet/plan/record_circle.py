"""Circles of holes as records: for a readout's own function, and as angles of a rotary table. mm and degrees."""

from __future__ import annotations

from dataclasses import dataclass

from setupsheet.plane import Point2


@dataclass(frozen=True, slots=True)
class RingFunction:
    """A bolt circle as a readout's own function wants it, in the setup frame as the machine sees it."""

    feature: str
    centre: Point2
    radius: float
    first_label: str
    start_deg: float
    sense: str
    count: int
    chord: float
    shown: dict[str, str]
    words: str


@dataclass(frozen=True, slots=True)
class TableAngle:
    """One hole of a circle about a rotary table's axis: ``angle_deg`` anticlockwise from X, ``shown`` its reading."""

    label: str
    angle_deg: float
    shown: str


@dataclass(frozen=True, slots=True)
class TableAngles:
    """Holes on a circle about a rotary table's axis as its angles, offered beside X and Y.

    ``chord`` is the distance between the first two to check. ``shown``: radius (the X reading) and chord.
    """

    feature: str
    radius: float
    chord: float
    places: tuple[TableAngle, ...]
    shown: dict[str, str]
    words: str
