"""The ways to finish a plain, clearance or fitted hole, and which of them is taken.

Every cutter of the shop and every standard size is a way, with the interval that its process holds.
The best verdict wins; then what is owned, then the process that suits the kind of hole, then the
size nearest to the one drawn. A shop with more cutters therefore never gets a worse verdict.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from setupsheet.length import Unit
from setupsheet.part.cutter import Cutter
from setupsheet.plan.chain.record import VERDICTS, HoleNeed, Way
from setupsheet.tables import drills, loader, reaming
from setupsheet.tables.unknown import NotInTables

if TYPE_CHECKING:
    from setupsheet.part.shop import Shop

_NOISE_MM = 1e-6
_NEAR_MM = 1.0
"""A cutter further from the drawn size than this is no way to finish it."""

_LIKED: dict[str, tuple[tuple[str, bool], ...]] = {
    "clearance": (("drill", True), ("drill", False), ("bore", True), ("bore", False)),
    "plain": (
        ("drill", True),
        ("bore", True),
        ("drill", False),
        ("ream", True),
        ("bore", False),
        ("ream", False),
    ),
    "fit": (
        ("ream", True),
        ("bore", True),
        ("drill", True),
        ("ream", False),
        ("bore", False),
        ("drill", False),
    ),
}
"""For each making: the processes with their ownership, the one liked best first."""


def limits_of(need: HoleNeed) -> tuple[float, float] | None:
    """Return the limits asked for, None where the size is a bare one."""
    size = need.diameter
    if size.kind == "basic" or size.lower_mm >= size.upper_mm:
        return None
    return size.lower_mm, size.upper_mm


def judge(lower: float, upper: float, limits: tuple[float, float] | None) -> tuple[str, float]:
    """Return the verdict on an interval and how far it reaches outside the limits (mm)."""
    if limits is None:
        return "inside", 0.0
    out = max(limits[0] - lower, upper - limits[1], 0.0)
    if out <= _NOISE_MM:
        return "inside", 0.0
    apart = upper < limits[0] - _NOISE_MM or lower > limits[1] + _NOISE_MM
    return ("not" if apart else "partly"), round(out, 6)


def ways(need: HoleNeed, shop: Shop | None) -> list[Way]:
    """Return every way to finish the hole, best first; never empty."""
    found = list(_drill_ways(need, shop))
    if need.making != "clearance":
        found += _ream_ways(need, shop)
    found += _bore_ways(need, shop)
    return sorted(found, key=lambda way: rank(way, need))


def rank(way: Way, need: HoleNeed) -> tuple[float | str | bool, ...]:
    """Return the sorting key of a way: verdict, how far out, process and ownership, nearness, label.

    A bare size has no limits: there a size that is not near enough counts as so much out.
    """
    liked = _LIKED["fit" if need.making not in _LIKED else need.making]
    pair = (way.operation, way.cutter.owned)
    place = liked.index(pair) if pair in liked else len(liked)
    off = way.diameter_mm - need.diameter.nominal_mm
    below = need.making == "clearance" and off < -_NOISE_MM
    far = round(abs(off), 6)
    out = way.out_mm
    if limits_of(need) is None and far > practice_mm("bare size near enough"):
        out = far
    return VERDICTS.index(way.verdict), out, place, below, far, _strange(way.cutter, need), way.cutter.label


def _strange(cutter: Cutter, need: HoleNeed) -> bool:
    """Tell whether a size is of the other system than the part's unit."""
    return ("mm" in cutter.label) != (need.unit is Unit.MM)


def _drill_ways(need: HoleNeed, shop: Shop | None) -> Iterator[Way]:
    """Give the drills; for a fit a drill is judged by what it cuts at worst."""
    process = "drilled at worst" if need.making == "fit" else "drilled"
    near = need.diameter.nominal_mm
    own = [cutter for cutter in owned(shop, "drill") if abs(cutter.diameter_mm - near) <= _NEAR_MM]
    for cutter in (*own, *standard_drills(near - _NEAR_MM, near + _NEAR_MM)):
        way = _held("drill", cutter, process, need)
        if way is not None:
            yield way


def _held(operation: str, cutter: Cutter, process: str, need: HoleNeed) -> Way | None:
    try:
        low, high, source, status = reaming.holds(process, cutter.diameter_mm)
    except NotInTables:
        return None
    size = cutter.diameter_mm
    return _way(operation, cutter, (size + low, size + high), need, (source, status))


def _way(operation: str, cutter: Cutter, interval: tuple[float, float], need: HoleNeed, print_: tuple[str, str]) -> Way:
    lower, upper = round(interval[0], 6), round(interval[1], 6)
    verdict, out = judge(lower, upper, limits_of(need))
    return Way(operation, cutter, cutter.diameter_mm, lower, upper, verdict, out, *print_)


def owned(shop: Shop | None, kind: str) -> tuple[Cutter, ...]:
    """Return the shop's cutters of a kind, thinnest first; none without a shop."""
    found = [cutter for cutter in (shop.cutters if shop else ()) if cutter.kind == kind and cutter.diameter_mm > 0]
    return tuple(sorted(found, key=lambda cutter: (cutter.diameter_mm, cutter.label)))


def standard_drills(least: float, most: float) -> list[Cutter]:
    """Return the drills that are sold between two sizes, as cutters to buy."""
    return [
        to_buy("drill", f"drill {size.label}", size.diameter_mm)
        for size in drills.sizes()
        if least - _NOISE_MM <= size.diameter_mm <= most + _NOISE_MM
    ]


def to_buy(kind: str, label: str, diameter_mm: float) -> Cutter:
    """Return a cutter of a standard size that the shop does not have."""
    return Cutter(kind, label, diameter_mm, owned=False)


def _ream_ways(need: HoleNeed, shop: Shop | None) -> Iterator[Way]:
    near = need.diameter.nominal_mm
    for cutter in owned(shop, "reamer"):
        if abs(cutter.diameter_mm - near) <= _NEAR_MM:
            yield _reamed(cutter, need)
    for size in reaming.sizes():
        if abs(size.diameter_mm - near) <= _NEAR_MM:
            cutter = Cutter("reamer", f"reamer {size.label}", size.diameter_mm, owned=False, fit=size.cuts)
            yield _reamed(cutter, need, size.status)


def _reamed(cutter: Cutter, need: HoleNeed, size_status: str = "") -> Way:
    """Return what a reamer gives: from its measured size, else from the class that it is ground for."""
    nominal = cutter.diameter_mm
    low, high, source, status = reaming.holds("reamed over the reamer", nominal)
    if cutter.measured_mm is not None:
        interval = cutter.measured_mm + low, cutter.measured_mm + high
        return _way("ream", cutter, interval, need, (f"measured reamer; cuts over: {source}", status))
    if cutter.fit:
        ground = _ground(nominal, cutter.fit)
        if ground is not None:
            return _way("ream", cutter, ground[:2], need, (ground[2], ground[3]))
    try:
        lower, upper, source, status = reaming.inch_reamer_limits_mm(nominal)
    except NotInTables:
        lower, upper, source, status = nominal, nominal, "a reamer of unknown class", "UNVERIFIED: measure it"
    state = f"{status}; {size_status}" if size_status == "UNVERIFIED" else status
    return _way("ream", cutter, (lower + low, upper + high), need, (source, state))


def _ground(nominal: float, hole_class: str) -> tuple[float, float, str, str] | None:
    """Return what a reamer ground for a class cuts: from its own lower limit to the hole's upper one."""
    rows = [row for row in loader.ranges("reamer_limits", ("hole_class",)) if row["hole_class"] == hole_class]
    row = loader.find(rows, nominal)
    if row is None:
        return None
    lower = nominal + float(row["lower_um"]) / 1000.0
    upper = nominal + float(row["hole_width_um"]) / 1000.0
    return lower, upper, f"{row['source']}, reamer for {hole_class}", row["status"]


def _bore_ways(need: HoleNeed, shop: Shop | None) -> Iterator[Way]:
    """Give the boring head: owned if its range and reach do, else borrowed."""
    limits = limits_of(need)
    target = (limits[0] + limits[1]) / 2.0 if limits else need.diameter.nominal_mm
    head = shop.boring_head if shop else None
    try:
        low, high, source, status = reaming.holds("bored", need.diameter.nominal_mm)
    except NotInTables:
        low, high, source, status = 0.0, 0.0, "over the tables' range: bore and measure", "UNVERIFIED"
    interval, print_ = (target + low, target + high), (source, status)
    if head and head.min_bore_mm <= target <= head.max_bore_mm and (need.depth_mm or 0.0) <= head.reach_mm:
        yield _bored(Cutter("boring head", head.label, target), interval, need, print_)
    if target >= practice_mm("boring head from"):
        yield _bored(to_buy("boring head", "boring head", target), interval, need, print_)


def _bored(cutter: Cutter, interval: tuple[float, float], need: HoleNeed, print_: tuple[str, str]) -> Way:
    return _way("bore", cutter, interval, need, print_)


def practice_mm(item: str) -> float:
    """Return a length of workshop practice (mm) from its row."""
    return float(next(row["value_mm"] for row in loader.rows("hole_practice") if row["item"] == item))


def practice_factor(item: str) -> float:
    """Return a ratio of workshop practice from its row."""
    return float(next(row["value_factor"] for row in loader.rows("hole_practice") if row["item"] == item))
