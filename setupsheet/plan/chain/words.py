"""The sentences of a chain: how far out, what would do, what to mind; in the part's unit."""

from __future__ import annotations

from setupsheet import length
from setupsheet.length import Unit
from setupsheet.pattern import Pattern
from setupsheet.plan.chain.record import HoleNeed, Way
from setupsheet.plan.chain.way import limits_of, practice_mm
from setupsheet.tables import reaming
from setupsheet.tables.unknown import NotInTables


def shown(value_mm: float, unit: Unit) -> str:
    """Return a length in the part's unit without the unit's name ('0.3', '.0118')."""
    text = length.plain(value_mm / float(unit.mm), length.default_places(unit))
    return text.removeprefix("0") if unit is Unit.INCH and text.startswith("0.") else text


def how_much(way: Way, need: HoleNeed) -> str:
    """Return how the interval lies to the limits, as one sentence; '' where no limits are asked."""
    limits = limits_of(need)
    if limits is None:
        return _off(way, need)
    comes = f"comes out {shown(way.lower_mm, need.unit)} to {shown(way.upper_mm, need.unit)}"
    asked = f"asked {shown(limits[0], need.unit)} to {shown(limits[1], need.unit)}"
    if way.verdict == "inside":
        return f"{comes}, {asked}: inside"
    small, large = limits[0] - way.lower_mm, way.upper_mm - limits[1]
    ends = [f"{shown(small, need.unit)} too small"] if small > 1e-6 else []
    ends += [f"{shown(large, need.unit)} too large"] if large > 1e-6 else []
    verb = "may be" if way.verdict == "partly" else "is up to"
    return f"{comes}, {asked}: {verb} {' or '.join(ends)}"


def _off(way: Way, need: HoleNeed) -> str:
    """Return how far the nearest cutter lies from a bare size, '' where that is near enough."""
    off = way.diameter_mm - need.diameter.nominal_mm
    if abs(off) <= practice_mm("bare size near enough"):
        return ""
    side = "larger" if off > 0 else "smaller"
    return f"the nearest cutter is {shown(abs(off), need.unit)} {side} than the size asked for"


def what_would(taken: Way, found: list[Way], need: HoleNeed) -> str:
    """Return what would bring the hole inside its limits, or '' where the shop's own cutter does."""
    if taken.verdict == "inside" and taken.cutter.owned:
        return ""
    if taken.verdict == "inside":
        found = found if need.making == "fit" else []
        other = next((way for way in found if way.verdict == "inside" and way.operation != taken.operation), None)
        return f"get: {taken.cutter.label}" + (f"; else: {_named(other)}" if other else "")
    return _ground_reamer(need) or "bore the last hundredths against a bore gauge, or agree wider limits"


def _named(way: Way) -> str:
    return f"{way.cutter.label} to limits, measured" if way.operation == "bore" else way.cutter.label


def _ground_reamer(need: HoleNeed) -> str:
    """Return the reamer that would cut this class (ISO 522), or one between the limits by the same rule."""
    size, limits = need.diameter, limits_of(need)
    if limits is None or size.nominal_mm > reaming.largest_mm():
        return ""
    try:
        low, high = reaming.reamer_limits_mm(size.nominal_mm, size.fit)
    except NotInTables:
        over = reaming.holds("reamed over the reamer", size.nominal_mm)[1]
        low, high = limits[0], max(limits[0], limits[1] - over)
    between = f"{shown(low, need.unit)} to {shown(high, need.unit)}"
    return f"a reamer ground, or an adjustable reamer set, to {between}"


_PRESS_FIT = Pattern(r"\d\s*(?:[p-z]|z[abc])\d{1,2}\b")


def bushing(need: HoleNeed) -> str:
    """Return the sentence on a bush that is pressed in, '' where the mate's words name none.

    A shaft letter from p on presses in a standard hole; so does the word itself. A bush that slides in stays
    as it is, and a pin or a dowel has no bore that could close in.
    """
    words = need.mate.lower()
    if "bush" in words and ("press" in words or _PRESS_FIT.search(need.mate)):
        return "A bush pressed in here closes in: ream its own bore after pressing."
    return ""
