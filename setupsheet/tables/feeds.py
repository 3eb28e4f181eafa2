"""Feeds and depths of cut to start with, each with the range it was chosen in."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable
from typing import NamedTuple

from setupsheet.tables import loader
from setupsheet.tables.near import nearest
from setupsheet.tables.unknown import NotInTables

_ENDS = ("start", "low", "high")


class StartValue(NamedTuple):
    """A value to start with and its range, in the unit that the function says (mm, mm/rev, mm/tooth)."""

    start: float
    low: float
    high: float
    source: str
    status: str


def operations() -> tuple[str, ...]:
    """Return the operations that have a feed per turn."""
    return (*(row["operation"] for row in loader.rows("feed_rules")), "bore")


def feed_per_rev_mm(operation: str, diameter_mm: float, group: str) -> StartValue:
    """Return the feed in mm per turn for drills, reamers, countersinks and the boring head; raises NotInTables.

    A tap's feed is its pitch and stands in no table.
    """
    if operation == "tap":
        raise NotInTables("a tap feeds by its own pitch", operation)
    if operation == "bore":
        return _value(_of_group("feeds_bore", group), "mm_rev")
    rule = next((row for row in loader.rows("feed_rules") if row["operation"] == operation), None)
    if rule is None:
        raise NotInTables(f"no feed per turn for '{operation}'", operation, nearest(operation, operations()))
    base = _value(_drill_row(diameter_mm, group), "mm_rev")
    if operation == "drill":
        return base
    factors = (float(rule[f"{end}_factor"]) for end in _ENDS)
    scaled = (
        round(value * factor, 4) for value, factor in zip((base.start, base.low, base.high), factors, strict=True)
    )
    return _start(scaled, f"{base.source}; {rule['source']}", f"{base.status}; {rule['status']}")


def feed_per_tooth_mm(diameter_mm: float, group: str, tool: str = "hss") -> StartValue:
    """Return an end mill's feed in mm per tooth, between the printed diameters by straight line.

    Below the smallest diameter of the table it falls with the diameter, above the largest it stays.
    """
    _needs(diameter_mm)
    points = [row for row in _rows_of_group("feeds_mill", group) if row["tool"] == tool.lower()]
    if not points:
        tools = dict.fromkeys(row["tool"] for row in loader.rows("feeds_mill"))
        raise NotInTables(f"no feed per tooth for cutters of '{tool}'", tool, nearest(tool, tools))
    values = (round(_between(points, f"{end}_mm_tooth", diameter_mm), 4) for end in _ENDS)
    return _start(values, points[0]["source"], points[0]["status"])


def depth_of_cut_mm(cut: str, diameter_mm: float, group: str) -> StartValue:
    """Return how deep one pass goes in mm: ``cut`` is 'level', 'slot', 'side' or 'finish'.

    The published depth of a small mill, but never more than a part of the cutter's diameter.
    """
    _needs(diameter_mm)
    rows = _rows_of_group("depths_mill", group)
    row = next((row for row in rows if row["cut"] == cut), None)
    if row is None:
        raise NotInTables(f"no depth for a cut '{cut}'", cut, nearest(cut, [row["cut"] for row in rows]))
    depth = round(min(float(row["most_mm"]), float(row["most_factor"]) * diameter_mm), 3)
    return StartValue(depth, 0.0, depth, row["source"], row["status"])


def feed_mm_min(per_tooth_mm: float, teeth: int, rpm: float) -> float:
    """Return the table feed vf = fz z n in mm/min; a drill's feed per turn counts as one tooth."""
    return per_tooth_mm * teeth * rpm


def removal_mm3_min(depth_mm: float, width_mm: float, feed_mm_min_: float) -> float:
    """Return the metal removed in mm3 a minute, depth times width times table feed."""
    return depth_mm * width_mm * feed_mm_min_


def power_kw(removal: float, force_n_mm2: float, efficiency: float) -> float:
    """Return the motor's power in kW for a removal in mm3/min: Pc = Q kc / (60e6 eta)."""
    return removal * force_n_mm2 / (60e6 * efficiency)


def cutting_force_n_mm2(group: str) -> tuple[float, str]:
    """Return the specific cutting force of a group in N/mm2 and its source; raises NotInTables."""
    row = _of_group("cutting_force", group)
    return float(row["force_n_mm2"]), row["source"]


def _needs(diameter_mm: float) -> None:
    if not 0 < diameter_mm < math.inf:
        raise NotInTables("a cutter needs a diameter", f"{diameter_mm:g} mm")


def _value(row: loader.Row, unit: str) -> StartValue:
    return _start((float(row[f"{end}_{unit}"]) for end in _ENDS), row["source"], row["status"])


def _start(values: Iterable[float], source: str, status: str) -> StartValue:
    start, low, high = values
    return StartValue(start, low, high, source, status)


def _rows_of_group(name: str, group: str) -> list[loader.Row]:
    table = loader.rows(name)
    found = [row for row in table if row["group"] == group]
    if not found:
        groups = dict.fromkeys(row["group"] for row in table)
        raise NotInTables(f"no feeds for '{group}'", group, nearest(group, groups))
    return found


def _of_group(name: str, group: str) -> loader.Row:
    return _rows_of_group(name, group)[0]


def _drill_row(diameter_mm: float, group: str) -> loader.Row:
    """Return the drill feed for the group, or for any where it has no line of its own."""
    _needs(diameter_mm)
    _of_group("cutting_force", group)  # refuses a group that no table knows
    table = loader.ranges("feeds_drill", ("group",))
    own = [row for row in table if row["group"] == group] or [row for row in table if row["group"] == "any"]
    row = loader.find(own, diameter_mm)
    if row is None:
        raise NotInTables(f"no drill feed at {diameter_mm:g} mm", f"{diameter_mm:g} mm")
    return row


def _between(points: list[loader.Row], column: str, diameter_mm: float) -> float:
    """Return a column's value at a diameter by straight line between the two points beside it."""
    pairs = sorted((float(row["at_mm"]), float(row[column])) for row in points)
    if diameter_mm <= pairs[0][0]:
        return pairs[0][1] * diameter_mm / pairs[0][0]
    for (low, below), (high, above) in itertools.pairwise(pairs):
        if diameter_mm <= high:
            return below + (above - below) * (diameter_mm - low) / (high - low)
    return pairs[-1][1]
