"""How an end mill gets into an opening that is closed all round: plunged, down a drilled hole, or ramped by hand.

A cutter of two or three flutes cuts to its centre and may be plunged. One of four may not: a window or through slot
is drilled first where its rows begin; in a pocket with a floor, which a drill's point would mark, the cutter is fed to
and fro along the first row and lowered a little at each end.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from setupsheet.part.shop import Cutter
from setupsheet.plan.bench import Bench
from setupsheet.plan.cutting import hole_cut
from setupsheet.plan.draft import step, tangent_of_half, tool_plan, where_words
from setupsheet.plan.milling import area, rim_ways
from setupsheet.plan.milling.milling import WALL_MM, AreaWork, feed_fields
from setupsheet.plan.milling.mills import cuts_to_centre
from setupsheet.plan.milling.passes import Pass
from setupsheet.plan.record import Position, Step
from setupsheet.plane import Point2

RAMP_MM = 0.2
"""How much a cutter is lowered at each end of a row that it is ramped down. Common practice, no source."""

WALL_CLEAR_MM = 0.4
"""How much smaller a drill is than the cutter that it makes way for: it may wander, and must not mark a wall.
Common practice, no source."""

LEAST_SHARE = 0.6
"""Least drill for a cutter to enter by, as part of the cutter's diameter. Common practice, no source."""

HOLE_MM = 0.1
"""How far from a hole's middle a cutter may be lowered into it: more than any readout rounds. No source."""

_PLUNGE = "plunge with a cutter that cuts to its centre, slowly, and lift to clear the chips"


@dataclass(frozen=True, slots=True)
class Entry:
    """``kind``: plunge, ramp, drilled; ``words`` for the sheet; ``drilling`` the step that comes first, if any."""

    kind: str
    words: tuple[str, ...]
    drilling: Step | None = None


def entry_for(bench: Bench, work: AreaWork, cutter: Cutter, rows: Sequence[Pass]) -> Entry:
    """Return how a cutter enters the rows of an area that start in metal."""
    inside = [row for row in rows if not row.outside]
    if not inside:
        return Entry("plunge", ())
    if all(_in_a_hole(work, cutter, row) for row in inside):
        where = " and ".join(dict.fromkeys(where_words(bench, row.path[0]) for row in inside))
        return Entry("drilled", (f"lower it into the hole that is there, at {where}",))
    if cuts_to_centre(cutter):
        return Entry("plunge", (_PLUNGE,))
    flutes = f"its {cutter.flutes} flutes do not cut to the centre"
    drill = _drill_for(bench, cutter)
    if drill is not None and not work.floor_counts:
        places = [row.path[0] for row in inside]
        return Entry("drilled", (f"{flutes}: lower it into the drilled hole",), _drilling(bench, work, drill, places))
    lower = bench.scales["z"].plain(RAMP_MM).lstrip("+")
    one, other = (where_words(bench, end) for end in _ramp_leg(inside, cutter.diameter_mm / 2))
    ramp = f"{flutes}: feed to and fro from {one} to {other}, {lower} deeper at each end"
    return Entry("ramp", (ramp,))


def by_hole(work: AreaWork, cutter: Cutter, rows: Sequence[Pass]) -> tuple[Pass, ...]:
    """Return the rows, those that begin in metal begun in a hole that is there already, where one lets them."""
    led = [row if row.outside else _from_hole(work, cutter, row) for row in rows]
    return tuple(row for row in led if row is not None) if None not in led else tuple(rows)


def _from_hole(work: AreaWork, cutter: Cutter, row: Pass) -> Pass | None:
    """Return a row with the legs, along X and Y, that lead to it from the nearest hole; None where none does."""
    start, room = row.path[0], cutter.diameter_mm / 2 + WALL_MM
    for centre in sorted(_holes(work, cutter), key=lambda at: math.dist(at, start)):
        for corner in ((centre[0], start[1]), (start[0], centre[1])):
            way = [
                at for at, before in zip((centre, corner, start), (None, centre, corner), strict=True) if at != before
            ]
            if area.is_empty(area.common(rim_ways.swept([way], room - 1e-3), work.keep)):
                return Pass((*way, *row.path[1:]), False)
    return None


def _holes(work: AreaWork, cutter: Cutter) -> list[Point2]:
    """Return the middles of holes into which a cutter can be lowered, or at least its dead middle."""
    least = LEAST_SHARE * cutter.diameter_mm / 2
    return [at for at, radius in work.holes if radius >= least - 1e-6 and area.distance_to_edge(work.target, at) > 0]


def _in_a_hole(work: AreaWork, cutter: Cutter, row: Pass) -> bool:
    """Tell whether a row begins in a hole that is there."""
    return any(math.dist(at, row.path[0]) < HOLE_MM for at in _holes(work, cutter))


def _ramp_leg(rows: Sequence[Pass], least_mm: float) -> tuple[Point2, Point2]:
    """Return the first straight piece of the rows that is long enough to be ramped along, else the longest."""
    legs = [leg for row in rows for leg in pairwise(row.path)]
    return next((leg for leg in legs if math.dist(*leg) >= least_mm), max(legs, key=lambda leg: math.dist(*leg)))


def entered(bench: Bench, work: AreaWork, cutter: Cutter, made: Step) -> Step:
    """Return the step of an area with a floor, its rows that begin in metal entered as the cutter can."""
    inside = [move for move in made.moves if move.entry == "plunge" and move.why == "rough"]
    if not inside:
        return made
    entry = entry_for(bench, work, cutter, [Pass(move.path, False) for move in inside])
    moves = tuple(replace(move, entry=entry.kind) if move in inside else move for move in made.moves)
    return replace(made, moves=moves, words=(*made.words, *entry.words))


def _drill_for(bench: Bench, cutter: Cutter) -> Cutter | None:
    """Return the largest drill of the shop that makes room for a cutter's dead middle and stays clear of its walls."""
    wide = cutter.diameter_mm
    most = wide - WALL_CLEAR_MM + 1e-6
    fit = [c for c in bench.shop.cutters if c.kind == "drill" and LEAST_SHARE * wide <= c.diameter_mm <= most]
    return max(fit, key=lambda c: (c.diameter_mm, c.label), default=None)


def _drilling(bench: Bench, work: AreaWork, drill: Cutter, places: Sequence[Point2]) -> Step:
    """Return the step that drills where the rows begin, through like the window."""
    tip = bench.settle("z", work.z_floor - drill.diameter_mm / 2 / tangent_of_half(drill.point_angle_deg))
    full = bench.settle("z", work.z_floor)
    positions = []
    for number, (x, y) in enumerate(places, 1):
        shown = {"x": bench.shown("x", x), "y": bench.shown("y", y), "z": bench.shown("z", tip)}
        name = f"{work.features[0]} entry" + (f" {number}" if len(places) > 1 else "")
        positions.append(Position(name, work.features[0], x, y, work.z_top, tip, full, shown))
    return step(
        "drill",
        f"drill where the cutter enters {work.features[0]}",
        work.features,
        method="quill",
        removes=True,
        tool=tool_plan(drill),
        positions=tuple(positions),
        z_shown=(bench.shown("z", tip),),
        where=where_words(bench, places[0]),
        words=("spot it first; it lies inside the opening and is milled away",),
        **feed_fields(hole_cut(bench, drill, "drill", drill.diameter_mm)),
    )
