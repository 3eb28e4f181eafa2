"""Reaming: how much to leave, what a reamer measures, which reamers are sold.

stock(12.0, "aluminium")      -> Stock(least_mm=0.2, most_mm=0.4, limit_mm=0.4, ...)
reamer_limits_mm(12.0, "H7")  -> (12.008, 12.015)
"""

from __future__ import annotations

import functools
from typing import NamedTuple

from setupsheet.tables import loader
from setupsheet.tables.unknown import NotInTables

LIGHT_METALS = ("aluminium", "magnesium", "duralumin", "zinc")
"""Words of a material group for which the table's half as much again holds."""


class Stock(NamedTuple):
    """What to leave for a reamer, on diameter (mm).

    ``limit_mm`` is what it bears once; more wants a core drill or a boring step first.
    """

    least_mm: float
    most_mm: float
    limit_mm: float
    source: str
    status: str


class ReamerSize(NamedTuple):
    """A reamer that is sold; ``cuts`` is the hole class it is ground for ('H7', '' for an inch size)."""

    series: str
    label: str
    diameter_mm: float
    cuts: str
    note: str
    source: str
    status: str


def stock(diameter_mm: float, material_group: str = "") -> Stock:
    """Return what to leave for a reamer of this size in this material; raises NotInTables for no size."""
    light = any(word in material_group.lower() for word in LIGHT_METALS)
    material = "light metal" if light else "general"
    rows = [row for row in loader.ranges("reaming_stock", ("material",)) if row["material"] == material]
    row = loader.find(rows, diameter_mm)
    if row is None:
        raise NotInTables(f"no reaming allowance is known for {diameter_mm:g} mm", f"{diameter_mm:g}")
    least, most, limit = float(row["least_mm"]), float(row["most_mm"]), float(row["limit_mm"])
    return Stock(least, most, limit, row["source"], row["status"])


def reamer_limits_mm(diameter_mm: float, hole_class: str) -> tuple[float, float]:
    """Return what a new reamer for this hole class measures (ISO 522), in mm; raises NotInTables."""
    rows = [row for row in loader.ranges("reamer_limits", ("hole_class",)) if row["hole_class"] == hole_class]
    row = loader.find(rows, diameter_mm)
    if row is None:
        raise NotInTables(
            f"no reamer limits are known for {diameter_mm:g} {hole_class}", f"{diameter_mm:g} {hole_class}"
        )
    return tuple_mm(diameter_mm, row)


def largest_mm() -> float:
    """Return the largest size (mm) that the table of ground reamers goes to."""
    return max(float(row["upto_mm"]) for row in loader.ranges("reamer_limits", ("hole_class",)))


def inch_reamer_limits_mm(diameter_mm: float) -> tuple[float, float, str, str]:
    """Return what a stock inch reamer measures (mm), source and status: from memory, not seen in print."""
    row = loader.find(loader.ranges("reamer_limits_inch", ()), diameter_mm)
    if row is None:
        raise NotInTables(f"no inch reamer limits are known at {diameter_mm:g} mm", f"{diameter_mm:g}")
    lower, upper = tuple_mm(diameter_mm, row)
    return lower, upper, row["source"], row["status"]


def tuple_mm(diameter_mm: float, row: loader.Row) -> tuple[float, float]:
    """Return a size's limits from a row of lower_um and upper_um, in mm."""
    return diameter_mm + float(row["lower_um"]) / 1000.0, diameter_mm + float(row["upper_um"]) / 1000.0


@functools.cache
def sizes() -> tuple[ReamerSize, ...]:
    """Return the reamers that are sold, thinnest first."""
    found = [
        ReamerSize(
            row["series"],
            _label(row),
            float(row["diameter_mm"]),
            row["cuts"],
            row["note"],
            row["source"],
            row["status"],
        )
        for row in loader.rows("reamer_sizes")
    ]
    return tuple(sorted(found, key=lambda size: (size.diameter_mm, size.series, size.label)))


def _label(row: loader.Row) -> str:
    if row["series"] == "number":
        return f"no. {row['name'].lstrip('#')}"
    if row["series"] == "over/under":
        return f"{row['name']} in"
    return f"{row['name']} {row['cuts']}".strip()


@functools.cache
def holds(process: str, diameter_mm: float) -> tuple[float, float, str, str]:
    """Return by how much a process's hole lies off its set size: least and most in mm, source, status.

    ``process``: drilled, drilled at worst, reamed over the reamer, bored. Raises NotInTables.
    """
    rows = [row for row in loader.ranges("process_holds", ("process",)) if row["process"] == process]
    row = loader.find(rows, diameter_mm)
    if row is None:
        raise NotInTables(f"what a hole {process} at {diameter_mm:g} mm holds is not known", f"{diameter_mm:g}")
    return float(row["lower_um"]) / 1000.0, float(row["upper_um"]) / 1000.0, row["source"], row["status"]
