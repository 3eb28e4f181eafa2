"""Rows that start in metal, led in from an open side of their area: no cutter comes down on metal where it need not.

A level that is open at one edge and closed at the ends of its rows is entered square over that edge, along the wall
at the row's end, and then along the row. The rows go from the open edge inward, the metal always on their left.
"""

from __future__ import annotations

from collections.abc import Sequence

from setupsheet.plan.bench import Bench
from setupsheet.plan.draft import where_words
from setupsheet.plan.milling import area, rim_ways
from setupsheet.plan.milling.passes import RUN_OUT_MM, Clearing, Pass
from setupsheet.plane import Point2

_TOUCH_MM = 2e-3


def led_in(clearing: Clearing, rows: Sequence[Pass]) -> tuple[Pass, ...]:
    """Return rows of which none starts in metal, where one side lets all of those in; else the rows as they are."""
    inside = [row for row in rows if not row.outside]
    if not inside:
        return tuple(rows)
    along = 0 if abs(inside[0].path[0][1] - inside[0].path[-1][1]) < 1e-9 else 1
    for sign in (-1, 1):
        made = [_led(clearing, row, along, sign) for row in inside]
        if all(made):
            rest = [row for row in rows if row.outside]
            return (*rest, *(row for row in (made if sign < 0 else reversed(made)) if row))
    return tuple(rows)


def _led(clearing: Clearing, row: Pass, along: int, sign: int) -> Pass | None:
    """Return a row with its way in from the side of a sign across it, None where something stands there."""
    across = 1 - along
    ends = sorted((row.path[0], row.path[-1]), key=lambda at: at[along])
    start, end = ends if (sign < 0) == (along == 0) else reversed(ends)
    bound = area.bounds(clearing.target)[0 if sign < 0 else 1][across]
    out = bound + sign * (clearing.radius + RUN_OUT_MM)
    first = (start[0], out) if along == 0 else (out, start[1])
    room = clearing.radius + clearing.allowance - _TOUCH_MM
    stands = area.common(rim_ways.swept([(first, start)], room), clearing.keep)
    beside = area.distance(clearing.target, first) >= clearing.radius - _TOUCH_MM
    return Pass((first, start, end), True) if beside and area.is_empty(stands) else None


def led_words(bench: Bench, rows: Sequence[Pass]) -> tuple[str, ...]:
    """Say where a cutter goes down that would else have come down on metal; nothing where no row is led in."""
    led = [row for row in rows if row.outside and len(row.path) > 2]
    if not led:
        return ()
    places = list(dict.fromkeys(where_words(bench, _settled(bench, row.path[0])) for row in led))
    return (f"go down beside the metal at {' or '.join(places)}, feed in to the row, then along it; every row so",)


def _settled(bench: Bench, at: Point2) -> Point2:
    return bench.settle("x", at[0]), bench.settle("y", at[1])
