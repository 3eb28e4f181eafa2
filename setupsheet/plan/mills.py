"""Which end mill: the largest that the shop owns and that reaches what must go; else the one to buy."""

from __future__ import annotations

from dataclasses import dataclass

from setupsheet.length import Unit, plain
from setupsheet.part.shop import Cutter
from setupsheet.plan import area
from setupsheet.plan.area import Region
from setupsheet.plan.bench import Bench

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


def pick_mill(bench: Bench, need: MillNeed) -> Cutter:
    """Return the cutter; ``owned`` is False for one that the shop does not have."""
    mills = sorted((c for c in bench.shop.cutters if c.kind == "end mill"), key=lambda c: (-c.diameter_mm, c.label))
    long_enough = [c for c in mills if not c.flute_length_mm or c.flute_length_mm >= need.depth_mm]
    if need.diameter_mm:
        exact = [c for c in long_enough if abs(c.diameter_mm - need.diameter_mm) < _MATCH_MM]
        return exact[0] if exact else to_buy(bench, need.diameter_mm, need.depth_mm)
    for cutter in long_enough:
        left = area.unreached(need.target, need.keep, cutter.diameter_mm / 2)
        if area.size(left) <= _corners_of(cutter):
            return cutter
    smallest = mills[-1].diameter_mm if mills else 6.0
    return to_buy(bench, smallest, need.depth_mm)


def _corners_of(cutter: Cutter) -> float:
    """Return the area that a cutter leaves in four square inside corners: what no cutter can avoid."""
    radius = cutter.diameter_mm / 2
    return 4 * radius**2 * (1 - 0.7854) + 1e-3


def to_buy(bench: Bench, diameter_mm: float, depth_mm: float) -> Cutter:
    """Return an end mill of a size that the shop lacks, marked so."""
    inch = bench.part.unit is Unit.INCH
    size = f"{plain(diameter_mm / 25.4, 4)} in" if inch else plain(diameter_mm, 2)
    flutes = max(2 * diameter_mm, depth_mm + 1)
    return Cutter(
        "end mill",
        f"end mill {size}, 2 flutes",
        diameter_mm,
        owned=False,
        flute_length_mm=flutes,
        shank_diameter_mm=diameter_mm,
    )
