"""Inch fits of ANSI B4.1 by class: running RC, locational LC, LT, LN, force FN."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from setupsheet.length import Unit, fixed, parse
from setupsheet.pattern import Pattern
from setupsheet.tables import loader
from setupsheet.tables.mating import kind_of
from setupsheet.tables.near import nearest
from setupsheet.tables.unknown import NotInTables

_CALLOUT = Pattern(r"\s*(.*?)\s*([A-Za-z]+)\s*([0-9]+)\s*")


class InchFit(NamedTuple):
    """Limits of hole and shaft in inches about ``nominal_in``; clearances in inches, negative for squeeze."""

    nominal_in: float
    fit_class: str
    hole_lower_in: float
    hole_upper_in: float
    shaft_lower_in: float
    shaft_upper_in: float
    clearance_min_in: float
    clearance_max_in: float
    kind: str
    name: str
    use: str
    source: str
    status: str


def classes() -> tuple[str, ...]:
    """Return the classes that the tables hold, RC1 first."""
    return tuple(row["class"] for row in loader.rows("b41_classes"))


def looks_like_inch_fit(text: str) -> bool:
    """Tell whether a callout ends in a class of B4.1 or in something near to one ('1 RC4', '1 RC14')."""
    match = _CALLOUT.fullmatch(text)
    return match is not None and match[2].upper() in {name.rstrip("0123456789") for name in classes()}


def inch_fit(text: str) -> InchFit:
    """Return the limits of '1.0000 RC4', '1-1/2 LN2', '3/8 in FN1'; raises NotInTables."""
    match = _CALLOUT.fullmatch(text)
    if not match:
        raise NotInTables(f"'{text}' is not a size in inches and a class", text, "1.0000 RC4")
    wanted, size = f"{match[2].upper()}{match[3]}", match[1].strip()
    if wanted not in classes():
        near = nearest(wanted, classes())
        raise NotInTables(f"ANSI B4.1 has no class {wanted}", text, f"{size} {near}")
    try:
        length = parse(size, Unit.INCH)
    except ValueError as fault:
        raise NotInTables(str(fault), text, f"1.0000 {wanted}") from None
    if length.unit is not Unit.INCH:
        raise NotInTables(
            "the classes of ANSI B4.1 are for sizes in inches", text, f"{_inch(length.exact_mm)} {wanted}"
        )
    return _look_up(float(length.exact_mm / Unit.INCH.mm), wanted, text)


def _inch(exact_mm: Fraction) -> str:
    return fixed(exact_mm / Unit.INCH.mm, 4)


def _look_up(nominal_in: float, wanted: str, text: str) -> InchFit:
    """Return the fit of a known class, or raise with the nearest size that the class has."""
    table = [row for row in loader.ranges("b41_limits", ("class",), "in") if row["class"] == wanted]
    row = loader.find(table, nominal_in, "in")
    if row is None:
        low, high = float(table[0]["over_in"]), float(table[-1]["upto_in"])
        near = f"{high:.4f} {wanted}" if nominal_in > high else _other_class(nominal_in, wanted)
        raise NotInTables(f"{wanted} is given here for sizes over {low:g} to {high:g} in", text, near)
    names = ("hole_lower_thou", "hole_upper_thou", "shaft_lower_thou", "shaft_upper_thou")
    thou = [float(row[name]) for name in names]
    least, most = _inches(thou[0] - thou[3]), _inches(thou[1] - thou[2])
    about = next(entry for entry in loader.rows("b41_classes") if entry["class"] == wanted)
    low_hole, high_hole, low_shaft, high_shaft = (_inches(value) for value in thou)
    sizes = (nominal_in, wanted, low_hole, high_hole, low_shaft, high_shaft)
    told = (about["name"], about["use"], row["source"], row["status"])
    return InchFit(*sizes, least, most, kind_of(least, most), *told)


def _inches(thou: float) -> float:
    """Return thousandths of an inch as inches, free of float noise."""
    return round(thou / 1000, 7)


def _other_class(nominal_in: float, wanted: str) -> str:
    """Return the nearest class of the same letters that has a row for this size, '' where none has."""
    table = loader.ranges("b41_limits", ("class",), "in")
    letters = wanted.rstrip("0123456789")
    there = [row["class"] for row in table if float(row["over_in"]) < nominal_in <= float(row["upto_in"])]
    near = nearest(wanted, [name for name in there if name.startswith(letters)])
    return f"{nominal_in:.4f} {near}" if near else ""
