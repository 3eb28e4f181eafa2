"""Which end mill: the largest that the shop owns and that reaches what must go; else the one to buy."""

from __future__ import annotations

from dataclasses import dataclass

from setupsheet.length import Unit
from setupsheet.part.shop import Cutter
from setupsheet.plan.bench import Bench
from setupsheet.plan.milling import area, rim_ways
from setupsheet.plan.milling.area import Region
from setupsheet.tables import end_mills

SQUARE_CORNER = 2**0.5 - 1
"""What a round cutter leaves in a square inside corner, as part of its radius."""

PLUNGES_UP_TO = 3
"""Most flutes of an end mill that is taken to cut to its centre. Common practice, no source."""

_MATCH_MM = 0.005


@dataclass(frozen=True, slots=True)
class MillNeed:
    """What an end mill has to do: reach ``target`` beside ``keep`` and cut ``depth_mm`` deep.

    ``diameter_mm`` asks for one size (a slot's width, twice a pocket's corner radius); 0 for any.
    """

    target: Region
    keep: Region
    depth_mm: float
    diameter_mm: float = 0.0


def largest_first(bench: Bench) -> list[Cutter]:
    """Return the end mills of the shop, the largest first."""
    return sorted((c for c in bench.shop.cutters if c.kind == "end mill"), key=lambda c: (-c.diameter_mm, c.label))


def pick_mill(bench: Bench, need: MillNeed) -> Cutter:
    """Return the cutter; ``owned`` is False for one that the shop does not have."""
    mills = largest_first(bench)
    long_enough = [c for c in mills if not c.flute_length_mm or c.flute_length_mm >= need.depth_mm]
    if need.diameter_mm:
        exact = [c for c in long_enough if abs(c.diameter_mm - need.diameter_mm) < _MATCH_MM]
        return exact[0] if exact else to_buy(bench, need.diameter_mm, need.depth_mm)
    for cutter in long_enough:
        left = area.unreached(need.target, need.keep, cutter.diameter_mm / 2)
        if area.size(left) <= _corners_of(cutter):
            return cutter
    return to_buy(bench, _sold_that_reaches(bench, need, [c.diameter_mm for c in mills] or [6.0]), need.depth_mm)


def _sold_that_reaches(bench: Bench, need: MillNeed, known_mm: list[float]) -> float:
    """Return the largest diameter that goes in of those of the shop's mills, else of the thinner ones that are sold.

    The largest, because one that is longer than any in the drawer bends away from the wall the less the thicker it is.
    """
    series, smallest_mm = "inch" if bench.part.unit is Unit.INCH else "mm", known_mm[-1]
    thinner = sorted({s.diameter_mm for s in end_mills.sizes(series) if s.diameter_mm < smallest_mm}, reverse=True)
    for diameter in (*known_mm, *thinner):
        left = area.unreached(need.target, need.keep, diameter / 2)
        if area.size(left) <= _corners_of(Cutter("end mill", "", diameter)):
            return diameter
    return smallest_mm


def _corners_of(cutter: Cutter) -> float:
    """Return the area that a cutter leaves in four square inside corners: what no cutter can avoid.

    A hair more, because the way of a round cutter is reckoned in short chords.
    """
    radius = cutter.diameter_mm / 2
    return 4 * radius**2 * (1 - 0.7854) * 1.005 + 1e-3


def pick_shaped(bench: Bench, need: MillNeed) -> Cutter:
    """Return the cutter for an outline that is not square: the largest that goes into every corner but square ones.

    ``diameter_mm`` is the largest that may be (twice the least corner radius, a slot's width); 0 for any.
    """
    most = need.diameter_mm or 1e6
    mills = largest_first(bench)
    fit = [c for c in mills if c.diameter_mm <= most + _MATCH_MM and reaches_down(c, need.depth_mm)]
    for cutter in fit:
        if corner_left(need.target, need.keep, cutter) <= SQUARE_CORNER * cutter.diameter_mm / 2 + 1e-3:
            return cutter
    return fit[-1] if fit else to_buy(bench, min(most, mills[-1].diameter_mm if mills else 6.0), need.depth_mm)


def reaches_down(cutter: Cutter, depth_mm: float) -> bool:
    """Tell whether a cutter's flutes are as long as the work is deep (a shop that writes no length trusts it)."""
    return not cutter.flute_length_mm or cutter.flute_length_mm >= depth_mm


def corner_left(target: Region, keep: Region, cutter: Cutter) -> float:
    """Return how far from the cutter's reach the metal lies that it cannot clear, mm."""
    free = rim_ways.reachable(target, keep, cutter.diameter_mm / 2)
    left = area.without(area.without(target, keep), area.grown(free, 1e-3)) if not free.is_empty else target
    return 0.0 if area.is_empty(left) else rim_ways.depth_of(left, free)


def cuts_to_centre(cutter: Cutter) -> bool:
    """Tell whether a cutter may plunge: up to three flutes do, of four and more nobody knows (common practice)."""
    return cutter.flutes <= PLUNGES_UP_TO


def to_buy(bench: Bench, diameter_mm: float, depth_mm: float) -> Cutter:
    """Return an end mill of a size that the shop lacks, marked so: one that is sold, and not above the size asked."""
    series = "inch" if bench.part.unit is Unit.INCH else "mm"
    sold = end_mills.named(diameter_mm) or end_mills.largest_upto(diameter_mm, series) or end_mills.sizes(series)[0]
    flutes = max(2 * sold.diameter_mm, depth_mm + 1)
    return Cutter(
        "end mill",
        f"end mill {sold.name}{' in' if sold.series == 'inch' else ''}, 2 flutes",
        sold.diameter_mm,
        owned=False,
        flute_length_mm=flutes,
        shank_diameter_mm=sold.diameter_mm,
    )
