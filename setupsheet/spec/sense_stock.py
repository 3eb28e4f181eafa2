"""Rules on stock and size."""

from __future__ import annotations

from setupsheet.spec.case import Case
from setupsheet.spec.tree import Mapping, child

_LARGEST_MM = 1500.0
_SMALLEST_MM = 3.0


def face_without_allowance(case: Case) -> None:
    """Test that a face that is machined needs something to come off."""
    stock = case.tree.get("stock")
    for face, amount in case.part.stock.remove_mm.items():
        if amount > 0:
            continue
        written = child(stock, "remove", face.value)
        place = written.place if written else stock.place if stock else None
        case.wrong(
            "",
            "nothing-to-clean-up",
            f"0 comes off the {face} face, so a cutter cannot clean it up",
            place,
            found=f"{face}: 0",
            allowed="more than 0, or as-bought ±t for a face that is used as it comes",
            try_=f"remove: {{{face}: as-bought ±0.2}}, or larger stock",
        )


def unlikely_size(case: Case) -> None:
    """Test that a size that no small machine holds mostly means the wrong unit."""
    largest = max(case.box.size)
    if _SMALLEST_MM <= largest <= _LARGEST_MM:
        return
    units = case.tree.get("units")
    other = "mm" if case.desk.unit.value == "inch" else "inch"
    size = case.tree.get("size")
    case.mind(
        "",
        "size-unlikely",
        f"{largest:g} mm long: is the unit right?",
        size.place if size else None,
        found=f"units: {case.desk.unit}",
        allowed=f"{_SMALLEST_MM:g} to {_LARGEST_MM:g} mm is what such machines hold",
        try_=f"units: {other}" + (f" in line {units.place.line}" if units and not isinstance(units, Mapping) else ""),
    )
