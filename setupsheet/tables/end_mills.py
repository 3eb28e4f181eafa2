"""End mills that are sold: standard diameters, so that nobody is sent for a cutter that does not exist."""

from __future__ import annotations

from dataclasses import dataclass

from setupsheet.tables import loader


@dataclass(frozen=True, slots=True)
class EndMillSize:
    """A diameter as sold: ``series`` mm or inch, ``name`` as on the shelf (12, 3/8)."""

    series: str
    name: str
    diameter_mm: float
    source: str


def sizes(series: str) -> tuple[EndMillSize, ...]:
    """Return the diameters of a series ('mm' or 'inch'), rising."""
    rows = (row for row in loader.rows("end_mills") if row["series"] == series)
    found = (EndMillSize(series, row["name"], float(row["diameter_mm"]), row["source"]) for row in rows)
    return tuple(sorted(found, key=lambda size: size.diameter_mm))


def largest_upto(diameter_mm: float, series: str) -> EndMillSize | None:
    """Return the largest size of a series that is not above a diameter, None where all are."""
    fit = [size for size in sizes(series) if size.diameter_mm <= diameter_mm + 1e-6]
    return fit[-1] if fit else None


def named(diameter_mm: float) -> EndMillSize | None:
    """Return the size of either series that has this diameter to 0.001 mm, None if nobody sells it."""
    both = (*sizes("mm"), *sizes("inch"))
    return next((size for size in both if abs(size.diameter_mm - diameter_mm) < 1e-3), None)
