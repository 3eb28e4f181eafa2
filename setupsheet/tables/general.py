"""General tolerances of ISO 2768-1: what a size may miss by where no tolerance stands beside it."""

from __future__ import annotations

from setupsheet.tables import loader
from setupsheet.tables.near import nearest
from setupsheet.tables.unknown import NotInTables

STANDARD = "ISO 2768-1"


def grades() -> tuple[str, ...]:
    """Return the grades from fine to very coarse: f, m, c, v."""
    return tuple(dict.fromkeys(row["grade"] for row in loader.rows("iso2768_linear")))


def linear_mm(grade: str, nominal_mm: float) -> float:
    """Return the ± of a length in mm; raises NotInTables for a size the grade does not cover."""
    return float(_row("iso2768_linear", grade, nominal_mm)["plus_minus_mm"])


def broken_edge_mm(grade: str, nominal_mm: float) -> float:
    """Return the ± of an outside radius or a chamfer's height in mm; raises NotInTables."""
    return float(_row("iso2768_edges", grade, nominal_mm)["plus_minus_mm"])


def angle_deg(grade: str, shorter_leg_mm: float) -> float:
    """Return the ± of an angle in degrees, by the length of its shorter leg; raises NotInTables."""
    return float(_row("iso2768_angles", grade, shorter_leg_mm)["plus_minus_arcmin"]) / 60


def source() -> str:
    """Return where the values were read."""
    return loader.rows("iso2768_linear")[0]["source"].partition(",")[0]


def _row(name: str, grade: str, size_mm: float) -> loader.Row:
    """Return the row for grade and size; the first range of a grade holds its lower end too (0.5 mm)."""
    if grade not in grades():
        near = nearest(grade, grades())
        raise NotInTables(f"{STANDARD} has the grades {', '.join(grades())}", f"{STANDARD} {grade}", near)
    table = [row for row in loader.ranges(name, ("grade",)) if row["grade"] == grade]
    row = loader.find(table, size_mm)
    if row is None and 0 < size_mm == float(table[0]["over_mm"]):
        row = table[0]
    if row is None:
        low, high = table[0]["over_mm"], table[-1]["upto_mm"]
        span = f"from {low} mm" if high == "inf" else f"from {low} to {high} mm"
        message = f"{STANDARD} grade {grade} holds {span}; {size_mm:g} mm needs its own tolerance"
        raise NotInTables(message, f"{size_mm:g} mm {grade}", _other_grade(name, size_mm))
    return row


def _other_grade(name: str, size_mm: float) -> str:
    """Return a grade that does cover the size, '' where none does."""
    for row in loader.rows(name):
        if float(row["over_mm"]) <= size_mm <= float(row["upto_mm"]) and size_mm > 0:
            return f"{STANDARD} {row['grade']}"
    return ""
