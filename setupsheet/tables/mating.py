"""A hole and a shaft together: least and greatest clearance, what kind of fit, what it is for."""

from __future__ import annotations

from typing import NamedTuple

from setupsheet.tables import loader
from setupsheet.tables.fits import Limits, limits, number, parse_fit
from setupsheet.tables.near import nearest
from setupsheet.tables.unknown import NotInTables

CLEARANCE, TRANSITION, INTERFERENCE = "clearance", "transition", "interference"


class Fit(NamedTuple):
    """Two mates. Clearances in µm, negative where the shaft is larger; ``use`` is '' off the preferred list."""

    hole: Limits
    shaft: Limits
    clearance_min_um: float
    clearance_max_um: float
    kind: str
    name: str = ""
    use: str = ""
    source: str = ""


class Intent(NamedTuple):
    """A word for what a fit shall do, and the preferred fit that stands for it ('H7', 'g6')."""

    word: str
    hole: str
    shaft: str
    meaning: str
    source: str


def kind_of(clearance_min: float, clearance_max: float) -> str:
    """Return clearance, transition or interference (ISO 286-1: no play at least is still a clearance fit)."""
    if clearance_min >= 0:
        return CLEARANCE
    return INTERFERENCE if clearance_max <= 0 else TRANSITION


def mate(hole: Limits, shaft: Limits) -> Fit:
    """Return the fit of any two limits, a bought bushing's or bearing's own among them."""
    between = (hole.nominal_mm - shaft.nominal_mm) * 1000
    least = round(between + hole.lower_um - shaft.upper_um, 4)
    most = round(between + hole.upper_um - shaft.lower_um, 4)
    row = preferred(hole.symbol, shaft.symbol) or {}
    told = (row.get("name", ""), row.get("use", ""), row.get("source", ""))
    return Fit(hole, shaft, least, most, kind_of(least, most), *told)


def fit(text: str) -> Fit:
    """Return the fit of '25 H7/g6'; raises NotInTables, also where hole or shaft is missing."""
    nominal, hole, shaft = parse_fit(text)
    if hole is None or shaft is None:
        other = f"{hole}/h6" if hole else f"H7/{shaft}"
        raise NotInTables("a fit needs a hole and a shaft", text, f"{number(nominal)} {other}")
    return mate(limits(nominal, hole), limits(nominal, shaft))


def preferred(hole: str, shaft: str) -> loader.Row | None:
    """Return the row of the preferred list that has this pair, as hole or as shaft basis, or None."""
    pair = f"{hole}/{shaft}"
    for row in loader.rows("fits_preferred"):
        if pair in {row["hole_basis"], row["shaft_basis"]}:
            return row
    return None


def intent_words() -> tuple[str, ...]:
    """Return the words that stand for a fit."""
    return tuple(row["word"] for row in loader.rows("fits_words"))


def intent(word: str) -> Intent:
    """Return what 'press', 'locate', 'slide' or 'run' stands for; raises NotInTables."""
    for row in loader.rows("fits_words"):
        if row["word"] == word.strip().lower():
            hole, _, shaft = row["fit"].partition("/")
            return Intent(row["word"], hole, shaft, row["meaning"], row["source"])
    raise NotInTables(f"'{word}' is no word for a fit", word, nearest(word, intent_words()))
