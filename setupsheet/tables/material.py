"""What a material is called, how heavy it is, and which group of cutting speeds it belongs to."""

from __future__ import annotations

from typing import NamedTuple

from setupsheet.pattern import Pattern
from setupsheet.tables import loader
from setupsheet.tables.near import distance, nearest
from setupsheet.tables.unknown import NotInTables

_SPLIT = Pattern(r"[\s,;/_()-]+")
_TEMPER = Pattern(r"(t[0-9]{1,4}|h[0-9]{2,3}|f|o)")
"""A temper behind an alloy ('T6', 'T651', 'H14'): it changes neither the density nor the speed group here."""


class Material(NamedTuple):
    """A material. ``group`` is its key among the starting speeds.

    ``note`` says what of the author's text was not understood ('' where all of it was): then the
    values are those of the family.
    """

    name: str
    group: str
    density_kg_m3: float
    source: str
    status: str = ""
    note: str = ""


def find(text: str) -> Material:
    """Return the material that an author's words mean ('aluminium 6082', '6061-T6'); raises NotInTables."""
    words = tuple(word for word in _SPLIT.split(text.lower()) if word)
    taken, left = _matches(words)
    grades = {row["material"] for row in taken if row["kind"] == "grade"}
    families = {row["material"] for row in taken if row["kind"] == "family"}
    loose = {row["material"] for row in taken if row["kind"] == "loose"}
    named = grades or families or loose
    if not named:
        raise _unknown(text, " ".join(words))
    rows = [_row(name) for name in sorted(named | families)]
    if len(named) > 1 or len({row["group"] for row in rows}) > 1:
        both = " and ".join(row["name"] for row in rows)
        raise NotInTables(f"'{text}' names two materials: {both}", text, rows[0]["name"])
    row = _row(next(iter(named)))
    note = f"'{' '.join(left)}' is not in the tables; the values are those of {row['name']}" if left else ""
    return Material(row["name"], row["group"], float(row["density_kg_m3"]), row["source"], row["status"], note)


def _unknown(text: str, words: str) -> NotInTables:
    """Return the refusal: with what was meant by a slip of the pen, else with what there are speeds for.

    Another metal is never offered in the place of one that the tables do not have: its speeds burn the cutter.
    """
    why = f"'{text}' names no material of the tables"
    near = nearest(words, known()) if words else ""
    if distance(words, near) <= max(1, len(words) // 3):
        return NotInTables(why, text, near)
    return NotInTables(f"{why}, no cutting speeds are known for it; there are some for {', '.join(groups())}", text)


def known() -> tuple[str, ...]:
    """Return all words that mean a material."""
    return tuple(row["alias"] for row in loader.rows("material_names") if row["material"])


def groups() -> tuple[str, ...]:
    """Return the groups of materials in the order of the table."""
    return tuple(dict.fromkeys(row["group"] for row in loader.rows("materials")))


def _row(name: str) -> loader.Row:
    return next(row for row in loader.rows("materials") if row["name"] == name)


def _matches(words: tuple[str, ...]) -> tuple[list[loader.Row], list[str]]:
    """Return the rows whose words stand in the text, longest first and none twice, and the words left over."""
    free = list(range(len(words)))
    taken: list[loader.Row] = []
    rows = [(tuple(row["alias"].split()), row) for row in loader.rows("material_names")]
    for alias, row in sorted(rows, key=lambda pair: (-len(pair[0]), pair[1]["kind"] == "filler")):
        for start in range(len(words) - len(alias) + 1):
            span = range(start, start + len(alias))
            if words[start : start + len(alias)] == alias and all(place in free for place in span):
                taken.append(row)
                free = [place for place in free if place not in span]
    return taken, [words[place] for place in free if not _TEMPER.fullmatch(words[place])]
