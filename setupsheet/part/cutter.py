"""A cutter: one that a shop owns, or a standard one to buy or borrow. Lengths in mm, angles in degrees.

Apart from the shop, so that a look-up at the bench loads this record alone.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Cutter:
    """One cutter that the shop owns, or a standard one to buy (``owned`` False).

    ``kind``: drill, spot drill, centre drill, end mill, reamer, taper reamer, tap, countersink, counterbore,
    boring head.
    ``label`` is what is printed ('drill no. 7', 'reamer 12 H7', 'end mill 12, 4 flutes, HSS'). A
    countersink's ``diameter_mm`` is its largest. ``thread`` names the thread of a tap or taper reamer.
    ``measured_mm`` is a reamer's measured size. ``fit`` is a reamer's class ('H7').
    """

    kind: str
    label: str
    diameter_mm: float
    owned: bool = True
    material: str = "hss"
    flutes: int = 2
    point_angle_deg: float = 118.0
    tip_mm: float = 0.0
    corner_radius_mm: float = 0.0
    flute_length_mm: float = 0.0
    overall_length_mm: float = 0.0
    shank_diameter_mm: float = 0.0
    pilot_mm: float = 0.0
    thread: str = ""
    fit: str = ""
    measured_mm: float | None = None
    tap_kind: str = ""
