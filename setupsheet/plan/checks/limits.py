"""The limits and ratios that checks hold things against, each a row of check_limits.csv with its source."""

from __future__ import annotations

from setupsheet.tables import loader


def mm(item: str) -> float:
    """Return a limit in mm; KeyError for an item without a row."""
    return float(_row(item)["value_mm"])


def factor(item: str) -> float:
    """Return a ratio; KeyError for an item without a row."""
    return float(_row(item)["value_factor"])


def flute_mm(diameter_mm: float) -> float:
    """Return the flute length of a jobber drill whose own nobody gave; 0 outside the table."""
    row = loader.find(loader.rows("drill_lengths"), diameter_mm)
    return float(row["flute_mm"]) if row else 0.0


def drill_length_mm(diameter_mm: float) -> float:
    """Return the overall length of a jobber drill whose own nobody gave; 0 outside the table."""
    row = loader.find(loader.rows("drill_lengths"), diameter_mm)
    return float(row["overall_mm"]) if row else 0.0


def _row(item: str) -> loader.Row:
    for row in loader.rows("check_limits"):
        if row["item"] == item:
            return row
    raise KeyError(item)
