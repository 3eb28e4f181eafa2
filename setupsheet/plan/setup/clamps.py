"""Clamps on the table: where their toes stand, what packs their other ends, and where their bolts go.

A strap clamp bears with its toe on the part's rim and with its other end on packing a trifle higher than the work; its
bolt stands nearer the work, so that the work gets the greater share. Clamps stand clear of everything that a cutter and
the drill chuck sweep in the setup, two on opposite sides, over metal that rests on something.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from setupsheet.plan.bench import Bench, Removed, metal_at
from setupsheet.plan.checks import limits, swept
from setupsheet.plan.record import Body, Hold, Step
from setupsheet.plan.setup.hold import Grip
from setupsheet.plan.sizes import length
from setupsheet.plane import Point2

WIDE_MM, THICK_MM, LONG_MM = 25.0, 14.0, 85.0
"""A strap clamp of an M10 set. Common practice, no source."""

BOLT_MM, OVER_MM = 5.0, 22.0
"""Radius of the stud, and how far nut and stud stand over the clamp. Common practice, no source."""

HIGHER_MM = 1.0
"""How much higher the packing is than the work. Common practice, no source (planning rule M40: a trifle)."""

_EVERY = 13
_SIDES = ((0, -1), (0, 1), (1, -1), (1, 1))
_NAMES = {(0, -1): "at your left", (0, 1): "at your right", (1, -1): "towards you", (1, 1): "at the back"}


@dataclass(frozen=True, slots=True)
class Clamp:
    """One clamp: the side it comes in from, the middle of its toe, the height that it bears on."""

    side: tuple[int, int]
    toe: Point2
    height: float


def with_clamps(bench: Bench, removed: Removed, held: Grip, hold: Hold, steps: Sequence[Step]) -> Hold:
    """Return a hold on the table with its clamps; as it is where they find no place (a check says so)."""
    chosen = _chosen(bench, removed, held, steps)
    if not chosen:
        return hold
    table = next(body.high[2] for body in hold.bodies if body.name == "table")
    bodies = [body for number, clamp in enumerate(chosen, 1) for body in _bodies(clamp, number, table)]
    words = tuple(_words(bench, clamp, number, table) for number, clamp in enumerate(chosen, 1))
    bolts = "each bolt a third of the way from the part to the packing; the part rests on something under every toe"
    return replace(hold, bodies=(*hold.bodies, *bodies), words=(*hold.words, *words, bolts))


def _chosen(bench: Bench, removed: Removed, held: Grip, steps: Sequence[Step]) -> tuple[Clamp, ...]:
    """Return two clamps on opposite sides, else on neighbouring ones, as near the middles of their sides as can be."""
    best: dict[tuple[int, int], Clamp] = {}
    for side in _SIDES:
        places = list(_along(bench, removed, held, side))
        free = [c for c in places if _is_clear(c, steps, limits.mm("drill chuck diameter") / 2)]
        free = free or [c for c in places if _is_clear(c, steps, 0.0)]
        if free:
            best[side] = free[0]
    long = 0 if held.box.size[0] >= held.box.size[1] else 1
    pairs = [((long, -1), (long, 1)), ((1 - long, -1), (1 - long, 1))]
    pairs += [(a, b) for a in _SIDES for b in _SIDES if a[0] < b[0]]
    return next(((best[a], best[b]) for a, b in pairs if a in best and b in best), ())


def _along(bench: Bench, removed: Removed, held: Grip, side: tuple[int, int]) -> Iterator[Clamp]:
    """Yield the places for a clamp along one side, its middle first, where metal stands and rests."""
    index, sign = side
    toe, other = limits.mm("clamp toe"), 1 - index
    shares = sorted(((i + 0.5) / _EVERY for i in range(_EVERY)), key=lambda share: (round(abs(share - 0.5), 6), share))
    for share in shares:
        at = [0.0, 0.0]
        at[index] = (held.box.high if sign > 0 else held.box.low)[index] - sign * toe / 2
        at[other] = held.box.low[other] + share * held.box.size[other]
        place = bench.settle("x", at[0]), bench.settle("y", at[1])
        spans = metal_at(bench, removed, place)
        if len(spans) == 1 and abs(spans[0][0] - held.rest_z) < 1e-6:
            yield Clamp(side, place, spans[0][1])


def _is_clear(clamp: Clamp, steps: Sequence[Step], chuck_mm: float) -> bool:
    """Tell whether nothing that turns comes near a clamp; ``chuck_mm``: the radius of what holds a drill."""
    bar, gap = _bar(clamp), limits.mm("clear of a clamp")
    for step in steps:
        if step.tool is None:
            continue
        reach = gap + step.tool.diameter_mm / 2
        if any(swept.move_to_box(move, bar) < reach for move in step.moves):
            return False
        around = gap + max(step.tool.diameter_mm / 2, chuck_mm)
        places = [(at.x, at.y) for at in (*step.positions, *((step.touch_off,) if step.touch_off else ()))]
        if any(swept.to_box(at, bar) < around for at in places):
            return False
        if any(swept.to_box(ring.centre, bar) < gap + ring.radius_outer for ring in step.rings):
            return False
    return True


def _bar(clamp: Clamp, name: str = "") -> Body:
    (index, sign), toe = clamp.side, limits.mm("clamp toe")
    low, high = (
        [clamp.toe[0] - WIDE_MM / 2, clamp.toe[1] - WIDE_MM / 2],
        [clamp.toe[0] + WIDE_MM / 2, clamp.toe[1] + WIDE_MM / 2],
    )
    inner = clamp.toe[index] - sign * toe / 2
    low[index], high[index] = sorted((inner, inner + sign * LONG_MM))
    return Body(name, (low[0], low[1], clamp.height), (high[0], high[1], clamp.height + THICK_MM))


def _bodies(clamp: Clamp, number: int, table: float) -> tuple[Body, ...]:
    """Return bar, stud and packing of a clamp."""
    index, sign = clamp.side
    bar = _bar(clamp, f"clamp {number}")
    outer = clamp.toe[index] + sign * (LONG_MM - limits.mm("clamp toe") / 2)
    low, high = [bar.low[0], bar.low[1]], [bar.high[0], bar.high[1]]
    low[index], high[index] = sorted((outer, outer - sign * WIDE_MM))
    packing = Body(f"packing of clamp {number}", (low[0], low[1], table), (high[0], high[1], clamp.height))
    edge = clamp.toe[index] + sign * limits.mm("clamp toe") / 2
    at = list(clamp.toe)
    at[index] = edge + (outer - sign * WIDE_MM / 2 - edge) / 3
    stud = Body(
        f"bolt of clamp {number}",
        (at[0] - BOLT_MM, at[1] - BOLT_MM, table),
        (at[0] + BOLT_MM, at[1] + BOLT_MM, bar.high[2] + OVER_MM),
        BOLT_MM,
    )
    return bar, stud, packing


def _words(bench: Bench, clamp: Clamp, number: int, table: float) -> str:
    axis = "xy"[1 - clamp.side[0]]
    along = bench.shown(axis, bench.settle(axis, clamp.toe[1 - clamp.side[0]]))
    unit = bench.part.unit
    high = length(round(clamp.height - table + HIGHER_MM, 1), unit)
    toe = length(limits.mm("clamp toe"), unit)
    place = f"about {axis.upper()} {along}"
    return f"clamp {number} over the edge {_NAMES[clamp.side]}, {place}: toe {toe} on the part, packing {high} high"
