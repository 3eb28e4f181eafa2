"""Pieces of metal that should not be, or should: how deep they are and whose cutter made them.

A piece is asked against the cutters again, each larger or smaller by more and more, until it vanishes:
that is its depth below (or above) what the limits allow, rounding left out.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from setupsheet.plan import replay_metal as metal
from setupsheet.plan.replay_clear import overlap
from setupsheet.plan.replay_cut import Json, cutters, run_for, tolerance_mm
from setupsheet.plan.replay_metal import Metal
from setupsheet.plan.replay_walk import inverse
from setupsheet.plane import Point3

_DOUBLINGS = 9
_HALVINGS = 4
_MARGINS_MM = (0.05, 0.5, 2.0)
"""mm by which cutters are made larger to find the one that came nearest to metal left standing."""


@dataclass(slots=True)
class Shop:
    """The plan's cutters in the part frame, made when they are asked for and kept."""

    plan: Json
    rooms: Sequence[tuple[Point3, Point3]]
    kept: dict[tuple[int, int, int, float], list[Metal]] = field(default_factory=dict)

    def of_step(self, setup: int, step: int, sign: int, extra_mm: float) -> list[Metal]:
        """Return one step's cutters (indices from 0), tolerance larger by ``extra_mm``."""
        key = (setup, step, sign, round(extra_mm, 9))
        if key not in self.kept:
            told = self.plan["setups"][setup]
            back = inverse(told["part_to_setup"])
            room = self.rooms[setup]
            made = cutters([told["steps"][step]], run_for(told, sign, extra_mm, room), room[1][2] + 1.0)
            self.kept[key] = [metal.placed(body, back) for body in made]
        return self.kept[key]

    def steps(self) -> Iterator[tuple[int, int, Json, Json]]:
        """Yield (setup index, step index, setup, step) in the order of work."""
        for i, setup in enumerate(self.plan["setups"]):
            for j, step in enumerate(setup["steps"]):
                if step["removes"]:
                    yield i, j, setup, step

    def near(self, piece: Metal, sign: int, extra_mm: float) -> list[Metal]:
        """Return all cutters whose boxes meet the piece's."""
        box = metal.bounds(piece)
        return [
            body
            for i, j, _, _ in self.steps()
            for body in self.of_step(i, j, sign, extra_mm)
            if overlap(metal.bounds(body), box)
        ]


def vanishes(shop: Shop, piece: Metal, sign: int, extra_mm: float) -> bool:
    """Tell whether a gouge (sign -1) or left metal (+1) is gone when the tolerance is larger by this much."""
    near = shop.near(piece, sign, extra_mm)
    if sign > 0:
        for body in near:  # one by one: a small piece against one cutter is cheaper than joining cutters
            piece = metal.cut(piece, [body])
        return not metal.is_there(piece)
    return bool(sum(metal.shared(piece, body).volume() for body in near) <= metal.NOISE_MM3)


def depth_mm(shop: Shop, piece: Metal, sign: int) -> float | None:
    """Return how deep a piece is, within 7 %; None if it is deeper than the last try."""
    base = max(tolerance_mm(setup) for setup in shop.plan["setups"])
    low, high = 0.0, base
    for _ in range(_DOUBLINGS):
        if vanishes(shop, piece, sign, high):
            break
        low, high = high, 2 * high
    else:
        return None
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (low, middle) if vanishes(shop, piece, sign, middle) else (middle, high)
    return high + base


def met_mm3(shop: Shop, place: tuple[int, int], piece: Metal, sign: int, extra_mm: float) -> float:
    """Return how much of a piece a step's cutters reach, mm3."""
    box = metal.bounds(piece)
    near = [body for body in shop.of_step(*place, sign, extra_mm) if overlap(metal.bounds(body), box)]
    return float(metal.shared(metal.join(near), piece).volume()) if near else 0.0


def last_touch(shop: Shop, piece: Metal, sign: int) -> tuple[int, int] | None:
    """Return the step (setup and step index) whose cutter last met a piece, None if none came near.

    Metal left standing is met by none: there it is the step that would take most of it with a larger cutter.
    """
    order = [(i, j) for i, j, _, _ in shop.steps()]
    for extra in (0.0,) if sign < 0 else _MARGINS_MM:
        met = {place: round(met_mm3(shop, place, piece, sign, extra), 9) for place in order}
        there = [place for place in order if met[place] > 1e-9]
        if there:
            return there[-1] if sign < 0 else max(there, key=lambda place: (met[place], place))
    return None
