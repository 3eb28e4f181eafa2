"""Sizes with their limits, and threads: what a callout is made of.

Apart from the features, so that a look-up at the bench so that a look-up at the bench load.
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
