"""The record of a fit as the papers draw it: what is asked for, what the cutters give, what the mate has."""

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
