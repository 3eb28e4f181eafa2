"""Grooves in a face for round seals, from the seal's cord: depth, width, squeeze and fill.

groove(2.0)                -> depth 1.5 +0.1, width 2.8 +0.2: the cord is squeezed by 20 to 25 %
groove(0.070, inch=True)   -> depth .050 to .054, width .101 to .107 (AS568 cords)
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from setupsheet.tables import loader
from setupsheet.tables.unknown import NotInTables

_SAME = {"mm": 0.011, "in": 0.0006}
"""How far a cord may be from a row's and still count as it: the trade writes 1.78 also as 1.785."""


@dataclass(frozen=True, slots=True)
class SealGroove:
    """A groove by its cord, in the unit asked for; ``*_over`` is the upper deviation, the lower one is 0."""

    cord: float
    depth: float
    depth_over: float
    width: float
    width_over: float
    floor_radius: float
    source: str
    status: str

    @property
    def squeeze_percent(self) -> tuple[float, float]:
        """Return how much of the cord is pressed together, least (deepest groove) and most."""
        deep = self.depth + self.depth_over
        return (1 - deep / self.cord) * 100, (1 - self.depth / self.cord) * 100

    @property
    def fill_percent(self) -> tuple[float, float]:
        """Return how much of the closed groove the cord fills, least (widest, deepest groove) and most."""
        area = math.pi / 4 * self.cord**2
        wide = (self.depth + self.depth_over) * (self.width + self.width_over)
        return area / wide * 100, area / (self.depth * self.width) * 100


def groove(cord: float, *, inch: bool = False) -> SealGroove:
    """Return the groove for a seal that lies in a face and does not move; raises NotInTables.

    ``cord`` is the thickness of the seal's cord, in inches where ``inch`` is true, else in mm.
    """
    unit = "in" if inch else "mm"
    rows = loader.rows("seal_grooves_inch" if inch else "seal_grooves")
    row = min(rows, key=lambda row: abs(float(row[f"cord_{unit}"]) - cord))
    if abs(float(row[f"cord_{unit}"]) - cord) > _SAME[unit]:
        near = row[f"cord_{unit}"]
        raise NotInTables(f"no groove is known for a cord of {cord:g}; the table has the cords that are sold", "", near)
    cord_, depth, deeper, width, wider, radius = (
        float(row[f"{name}_{unit}"]) for name in ("cord", "depth", "depth_over", "width", "width_over", "floor_radius")
    )
    return SealGroove(cord_, depth, deeper, width, wider, radius, row["source"], row["status"])
