"""The records of fits: the bands that the papers draw, and what a feature and its mate come to."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class FitBand:
    """Three bands of one diameter, all in mm; a mate that names no limits has None.

    ``by`` is the cutter that finishes the hole. ``shown``: the texts of required, result, mate and
    clearance (negative where the mate is larger), in the part's unit.
    """

    feature: str
    callout: str
    nominal_mm: float
    required_lower_mm: float
    required_upper_mm: float
    result_lower_mm: float
    result_upper_mm: float
    by: str
    verdict: str
    mate: str = ""
    mate_lower_mm: float | None = None
    mate_upper_mm: float | None = None
    shown: dict[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class FitPlan:
    """A feature and its mate. Clearances in mm, negative where the shaft is larger, None without limits.

    ``size`` is the feature's as written, ``mate`` the author's words, ``other`` the drawing and feature of another
    part. ``kind`` is clearance, transition or interference, ``use`` what such a fit is for; ``shown``: the
    texts of hole, shaft and clearance in the part's unit; ``words``: sentences for the sheets.
    """

    feature: str
    size: str
    mate: str
    other: str = ""
    clearance_min_mm: float | None = None
    clearance_max_mm: float | None = None
    kind: str = ""
    use: str = ""
    shown: dict[str, str] = field(default_factory=dict)
    words: tuple[str, ...] = ()
