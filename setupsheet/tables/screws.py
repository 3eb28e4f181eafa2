"""Seats for bought screws and pins: countersinks, counterbores, heads, dowel pins.

countersink("M4")   -> (9.0, 90.0, "DIN 74-1 form B ...", "verified_1 ...")
counterbore("M4")   -> (8.0, 4.4, "DIN 974-1 series 1; head ISO 4762", ...)
"""

from __future__ import annotations

from typing import NamedTuple

from setupsheet.tables import loader
from setupsheet.tables.clearance import near_screws, screw_name
from setupsheet.tables.unknown import NotInTables


class Head(NamedTuple):
    """A socket cap screw's head: largest diameter and height in mm."""

    diameter_mm: float
    height_mm: float
    source: str
    status: str


class Dowel(NamedTuple):
    """A dowel pin and the hole that it is pressed or located in; all limits in mm."""

    pin: str
    series: str
    nominal_mm: float
    pin_lower_mm: float
    pin_upper_mm: float
    hole_lower_mm: float
    hole_upper_mm: float
    source: str
    status: str


def countersink(screw: str) -> tuple[float, float, str, str]:
    """Return mouth diameter (mm), included angle (degrees), source and status; raises NotInTables."""
    row = _row("countersinks", "screw", screw_name(screw))
    return float(row["sink_diameter_mm"]), float(row["angle_deg"]), row["source"], row["status"]


def counterbore(screw: str) -> tuple[float, float, str, str]:
    """Return diameter and depth (mm) for a socket cap screw, source and status; raises NotInTables."""
    row = _row("counterbores", "screw", screw_name(screw))
    return float(row["diameter_mm"]), float(row["depth_mm"]), row["source"], row["status"]


def head(screw: str) -> Head:
    """Return the socket cap screw's head; raises NotInTables."""
    row = _row("counterbores", "screw", screw_name(screw))
    return Head(float(row["head_diameter_mm"]), float(row["head_height_mm"]), row["source"], row["status"])


def flat_head(screw: str) -> Head:
    """Return the countersunk screw's head (diameter: the sharp corner); raises NotInTables."""
    row = _row("countersinks", "screw", screw_name(screw))
    if not row["head_diameter_mm"]:
        raise NotInTables(f"the flat head of {screw} is not in the tables", screw)
    return Head(float(row["head_diameter_mm"]), float(row["head_height_mm"]), row["source"], row["status"])


def dowel(pin: str) -> Dowel:
    """Return a dowel pin by its nominal size ('6 mm', '1/4'); raises NotInTables."""
    name = pin.strip()
    if name.replace(".", "", 1).isdigit() and name != "1":
        name = f"{float(name):g} mm"
    if name.endswith(" mm"):
        name = _made(name)
    row = _row("dowel_pins", "pin", name.removesuffix(" in"))
    return Dowel(
        row["pin"],
        row["series"],
        nominal_mm=float(row["nominal_mm"]),
        pin_lower_mm=float(row["pin_lower_mm"]),
        pin_upper_mm=float(row["pin_upper_mm"]),
        hole_lower_mm=float(row["hole_lower_mm"]),
        hole_upper_mm=float(row["hole_upper_mm"]),
        source=row["source"],
        status=row["status"],
    )


def _made(name: str) -> str:
    """Return the name of a metric pin; raises NotInTables with the nearest one where none is made of that size."""
    made = [row["pin"] for row in loader.rows("dowel_pins") if row["pin"].endswith(" mm")]
    if name in made:
        return name
    asked = float(name.removesuffix(" mm"))
    near = min(made, key=lambda pin: abs(float(pin.removesuffix(" mm")) - asked))
    raise NotInTables(f"no dowel pin of {name} is made", name, near)


def _row(table: str, key: str, name: str) -> loader.Row:
    rows = loader.rows(table)
    for row in rows:
        if row[key] == name:
            return row
    raise NotInTables(f"{name!r} is not in the tables", name, near_screws(name, tuple(row[key] for row in rows)))
