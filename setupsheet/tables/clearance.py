"""Clearance holes for screws: ISO 273 for metric, ASME B18.2.8 for inch, trade charts for the British series.

hole("M4", "medium")   -> (4.5, 4.68, "ISO 273:1979", "verified_2")
hole("#8", "normal")   -> (4.9784, 5.1584, "ASME B18.2.8", "verified_2")
"""

from __future__ import annotations

import functools
import re

from setupsheet.tables import loader, near
from setupsheet.tables.unknown import NotInTables

ROOM = {
    "fine": ("fine", "close", "free"),
    "close": ("close", "fine", "free"),
    "medium": ("medium", "normal", "free"),
    "normal": ("normal", "medium", "free"),
    "coarse": ("coarse", "loose", "free"),
    "loose": ("loose", "coarse", "free"),
    "free": ("free", "loose", "coarse"),
}
"""How much room the author asks for -> the words that the tables use for it, best first."""


def hole(screw: str, series: str = "medium") -> tuple[float, float, str, str]:
    """Return nominal and upper limit of the hole in mm, source and status; raises NotInTables.

    The tolerance (H12, H13 or H14, from the row) lies above the nominal size; a printed limit goes first.
    """
    row = _row(screw, series)
    nominal = float(row["nominal_mm"])
    printed = row["printed_upper_mm"]
    upper = float(printed) if printed else nominal + _width_mm(row["tolerance_class"], nominal)
    return nominal, round(upper, 6), row["source"], row["status"]


def drill(screw: str, series: str = "medium") -> str:
    """Return the name of the drill that the standard gives for the hole ('#9', '17/64'), '' if none."""
    return _row(screw, series)["drill"]


def screws() -> tuple[str, ...]:
    """Return every screw that has a clearance hole, in the tables' order."""
    return tuple(dict.fromkeys(row["screw"] for row in loader.rows("clearance_holes")))


def screw_name(text: str) -> str:
    """Return a screw's name as the tables have it: ``no. 8`` and ``8`` become ``#8``, ``m4`` becomes ``M4``."""
    words = re.sub(r"\s+", " ", text.strip())
    if match := re.fullmatch(r"(?:#|no\.?|number)?\s*(\d{1,2})", words, re.IGNORECASE):
        return words if words == "1" else f"#{match[1]}"
    if match := re.fullmatch(r"(\d+)\s*BA", words, re.IGNORECASE):
        return f"{match[1]}BA"
    return re.sub(r"^m(?=\d)", "M", words)


def _row(screw: str, series: str) -> loader.Row:
    name = screw_name(screw)
    if series not in ROOM:
        raise NotInTables(f"{series!r} is no kind of clearance", series, near.nearest(series, ROOM))
    table = _by_screw().get(name)
    if table is None:
        raise NotInTables(f"no clearance hole is known for {screw!r}", screw, near_screws(name, tuple(_by_screw())))
    for word in ROOM[series]:
        if word in table:
            return table[word]
    raise NotInTables(
        f"no {series} clearance hole is known for {name}", f"{screw} {series}", f"{name} {next(iter(table))}"
    )


@functools.cache
def _by_screw() -> dict[str, dict[str, loader.Row]]:
    table: dict[str, dict[str, loader.Row]] = {}
    for row in loader.rows("clearance_holes"):
        table.setdefault(row["screw"], {})[row["series"]] = row
    return table


def near_screws(name: str, known: tuple[str, ...]) -> str:
    """Return the sizes below and above an unknown metric one ('M5, M6'), or the name spelled most like it."""
    if not re.fullmatch(r"M\d+(\.\d+)?", name):
        return near.nearest(name, known)
    size = float(name[1:])
    metric = sorted((float(one[1:]), one) for one in known if re.fullmatch(r"M\d+(\.\d+)?", one))
    below = [one for diameter, one in metric if diameter < size][-1:]
    above = [one for diameter, one in metric if diameter > size][:1]
    return ", ".join(below + above)


def _width_mm(tolerance_class: str, nominal_mm: float) -> float:
    grades = [row for row in loader.rows("iso286_grades") if row["grade"] == tolerance_class.lstrip("H")]
    row = loader.find(grades, nominal_mm)
    if row is None:
        raise NotInTables(f"no tolerance is known at {nominal_mm:g} mm", tolerance_class)
    return float(row["value_um"]) / 1000.0
