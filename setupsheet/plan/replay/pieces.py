"""Pieces of metal that should not be, or should: how deep they are and whose cutter made them.

A piece is asked against the cutters again, each larger or smaller by more and more, until it vanishes:
that is its depth below (or above) what the limits allow, rounding left out.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from setupsheet.plan.replay import metal
from setupsheet.plan.replay.clear import overlap
from setupsheet.plan.replay.cut import Json, Run, cutters, largest_radius, run_for, tolerance_mm
from setupsheet.plan.replay.metal import Metal, Rows
from setupsheet.plan.replay.walk import inverse
from setupsheet.plane import Point3

_DOUBLINGS = 9
_HALVINGS = 4
_TOGETHER_MM = 0.5
"""Pieces nearer than this are one fault."""
_SHARE = 0.3
"""Of a piece left standing: what a step must take of it with a larger cutter to be called the nearest."""
_MARGINS_MM = (0.05, 0.5, 2.0)
"""mm by which cutters are made larger to find the one that came nearest to metal left standing."""


Box = tuple[Point3, Point3]


@dataclass(frozen=True, slots=True)
class Shop:
    """The plan's cutters in the part frame, made when they are asked for; ``rooms``: the blank in each setup."""

    plan: Json
    rooms: Sequence[Box]

    def of_step(self, place: tuple[int, int], sign: int, extra_mm: float, near: Box | None = None) -> list[Metal]:
        """Return one step's cutters (setup and step index), tolerance larger by ``extra_mm``.

        With ``near``, a box of the part frame, only those that may reach it.
        """
        told, room = self.plan["setups"][place[0]], self.rooms[place[0]]
        step = told["steps"][place[1]]
        run = run_for(told, sign, extra_mm, room)
        if near is not None:
            step = _work_near(step, _carried(near, told["part_to_setup"]), run)
        back = inverse(told["part_to_setup"])
        made = [metal.placed(body, back) for body in cutters([step], run, room[1][2] + 1.0)]
        return made if near is None else [body for body in made if overlap(metal.bounds(body), near)]

    def steps(self) -> Iterator[tuple[int, int, Json, Json]]:
        """Yield (setup index, step index, setup, step) in the order of work."""
        for i, setup in enumerate(self.plan["setups"]):
            for j, step in enumerate(setup["steps"]):
                if step["removes"]:
                    yield i, j, setup, step

    def near(self, piece: Metal, sign: int, extra_mm: float) -> list[Metal]:
        """Return all cutters whose boxes meet the piece's."""
        box = metal.bounds(piece)
        return [body for i, j, _, _ in self.steps() for body in self.of_step((i, j), sign, extra_mm, box)]


def clumps(body: Metal) -> list[Metal]:
    """Return the pieces of a body above noise, largest first; pieces close together count as one.

    A hole that is off shows as a row of slivers, one a facet: that is one fault.
    """
    rows: list[tuple[Box, list[Metal]]] = []
    for piece in metal.pieces(body):
        box, group = metal.bounds(piece), [piece]
        near = [row for row in rows if overlap(row[0], box, _TOGETHER_MM)]
        for row in near:
            box, group = _round_both(box, row[0]), row[1] + group
        rows = [row for row in rows if row not in near] + [(box, group)]
    joined = [metal.join(group) for _, group in rows]
    return sorted(joined, key=lambda found: (-round(found.volume(), 6), metal.bounds(found)))


def _round_both(a: Box, b: Box) -> Box:
    low, high = ([pick(a[k][n], b[k][n]) for n in range(3)] for k, pick in ((0, min), (1, max)))
    return (low[0], low[1], low[2]), (high[0], high[1], high[2])


def _carried(box: Box, matrix: Rows) -> Box:
    """Return the box, in another frame, round a box."""
    corners = [[box[i][0], box[j][1], box[k][2]] for i in (0, 1) for j in (0, 1) for k in (0, 1)]
    moved = [[sum(row[n] * c[n] for n in range(3)) + row[3] for row in matrix[:3]] for c in corners]
    low, high = ([pick(c[n] for c in moved) for n in range(3)] for pick in (min, max))
    return (low[0], low[1], low[2]), (high[0], high[1], high[2])


def _work_near(step: Json, box: Box, run: Run) -> Json:
    """Return a step with those places and moves alone that may reach a box of the setup frame."""
    if step["tool"] is None:
        return step
    reach = largest_radius(step["tool"]) + max(run.t_mm * 2, 0.1)
    low, high = [v - reach for v in box[0]], [v + reach for v in box[1]]

    def meets(points: Sequence[Sequence[float]]) -> bool:
        return all(min(p[n] for p in points) <= high[n] and low[n] <= max(p[n] for p in points) for n in (0, 1))

    positions = [p for p in step["positions"] if meets([(p["x"], p["y"])])]
    moves = [move for move in step["moves"] if move["by"] != "table" or (move["path"] and meets(move["path"]))]
    return {**step, "positions": positions, "moves": moves}


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
    near = shop.of_step(place, sign, extra_mm, metal.bounds(piece))
    return float(metal.shared(metal.join(near), piece).volume()) if near else 0.0


def last_touch(shop: Shop, piece: Metal, sign: int) -> tuple[int, int] | None:
    """Return the step (setup and step index) whose cutter last met a piece, None if none came near.

    Metal left standing is met by none: there it is the step that would take most of it, and a good share,
    with a larger cutter.
    """
    order = [(i, j) for i, j, _, _ in shop.steps()]
    least = 1e-9 if sign < 0 else _SHARE * piece.volume()
    for extra in (0.0,) if sign < 0 else _MARGINS_MM:
        met = {place: round(met_mm3(shop, place, piece, sign, extra), 9) for place in order}
        there = [place for place in order if met[place] > least]
        if there:
            return there[-1] if sign < 0 else max(there, key=lambda place: (met[place], place))
    return None
