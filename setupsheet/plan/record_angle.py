"""A part set to an angle, as the plan carries it: with what, on which face, by which stack."""

from __future__ import annotations

from dataclasses import dataclass, field

from setupsheet.plane import Point2


@dataclass(frozen=True, slots=True)
class AngleSetting:
    """How the part of a tilted setup is set: ``raised`` is the end that goes up by ``tilt_deg``.

    The part stands with its ``rests_on`` face on the bar, and the blocks lie under the bar's ``roll`` on that side
    (left, right). ``set_deg`` is the bar's own angle: the tilt, or 90 less it (``complement``). A protractor has no
    bar: ``bar_mm``, ``stack_mm`` are 0 then. ``step_deg`` is what the finest step of the setting turns the part.
    ``section`` is the part as it is set, seen from the front (setup X, Z), ``pin`` a pin in it (X, Z, diameter).
    """

    level: tuple[str, ...]
    raised: str
    tilt_deg: float
    device: str
    owned: bool
    rests_on: str
    roll: str
    set_deg: float
    complement: bool
    bar_mm: float
    stack_mm: float
    blocks_mm: tuple[float, ...]
    step_deg: float
    section: tuple[Point2, ...]
    pin: tuple[float, float, float] | None
    words: tuple[str, ...]
    shown: dict[str, str] = field(default_factory=dict)
