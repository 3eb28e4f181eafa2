"""The stacks of dimensions at the sides of a view: single sizes next to the outline, the running row outside.

For each direction the side is chosen from which the extension lines have the least way into the view.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from setupsheet.drawing.assign import Sighting
from setupsheet.drawing.boxes import Rect
from setupsheet.drawing.callout_text import flag_height
from setupsheet.drawing.ink import Dimension
from setupsheet.drawing.profile import Profile
from setupsheet.drawing.running import Mark, Run, run_dimensions
from setupsheet.drawing.seen import Seen, lines_at
from setupsheet.drawing.sides import Side
from setupsheet.drawing.spans import Linear, linear_dimension
from setupsheet.drawing.wanted import Span
from setupsheet.plane import Point2

_FAR_MM = 30.0
"""A place that lies this much nearer to the other side is dimensioned there."""
_PREFER = 0.8
"""The usual side (below, left) is left only for one with less than this share of its line length."""


@dataclass(frozen=True, slots=True)
class Stack:
    """A view, its outline on paper, its scale and its profile."""

    seen: Seen
    outline: Rect
    scale: float
    profile: Profile
    flagged: tuple[str, ...] = ()
    """Sides on which a datum flag stands on the outline; dimension lines keep clear of it."""

    def first_line(self, side: Side) -> float:
        """Return how far the first dimension line stands off the outline."""
        room = flag_height(self.profile) + 2.5 if side.name in self.flagged else 0.0
        return max(self.profile.first_line_mm, room)


def stack_dimensions(stack: Stack, places: Sequence[Sighting], spans: Sequence[Span]) -> tuple[Dimension, ...]:
    """Return all linear and running dimensions of a view."""
    found: list[Dimension] = []
    for across in (0, 1):
        mine = [p for p in places if p.across == across]
        sizes = [s for s in spans if _across(stack, s) == across]
        main = choose_side(stack, across, mine)
        by_side = {main.name: (main, _nearest(stack, mine, main, True))}
        other = opposite(main)
        by_side[other.name] = (other, _nearest(stack, mine, main, False))
        used: dict[str, float] = {}
        for span in sorted(sizes, key=lambda s: s.needs[0].value):
            side = _span_side(stack, span, (main, other), by_side)
            at = used.get(side.name, stack.first_line(side))
            avoid = tuple(mark.at * stack.scale for mark in by_side[side.name][1])
            found.append(_linear(stack, span, side, at, avoid))
            used[side.name] = at + stack.profile.next_line_mm
        for side, marks in (by_side[main.name], by_side[other.name]):
            if marks:
                at = used.get(side.name, stack.first_line(side))
                found += run_dimensions(_run(stack, across, marks, side, at), stack.profile)
    return tuple(found)


def opposite(side: Side) -> Side:
    """Return the side across the view."""
    names = {"below": "above", "above": "below", "left": "right", "right": "left"}
    return Side(names[side.name], side.outline)


def _nearest(stack: Stack, places: Sequence[Sighting], main: Side, on_main: bool) -> list[Sighting]:
    """Return the places of the main side, or those that lie so much nearer to the other one."""
    other = opposite(main)
    return [
        place for place in places if (_depth(stack, place, main) - _depth(stack, place, other) < _FAR_MM) is on_main
    ]


def _span_side(
    stack: Stack, span: Span, sides: tuple[Side, Side], runs: dict[str, tuple[Side, list[Sighting]]]
) -> Side:
    """Return the side on which no extension line of the running row crosses the size's line."""
    ends = sorted(side_value * stack.scale for side_value in (sides[0].ruler(span.a), sides[0].ruler(span.b)))

    def cost(side: Side) -> tuple[int, float]:
        inner = [p for p in runs[side.name][1] if ends[0] - 1 < p.at * stack.scale < ends[1] + 1]
        way = sum(max(0.0, side.depth(_scaled(p, stack.scale))) for p in (span.a, span.b))
        return len(inner), way

    return min(sides, key=cost)


def _across(stack: Stack, span: Span) -> int:
    return 0 if stack.seen.frame.u_axis == span.axis else 1


def choose_side(stack: Stack, across: int, places: Sequence[Sighting]) -> Side:
    """Return the side for a direction: below or above, left or right."""
    names = ("below", "above") if across == 0 else ("left", "right")
    usual, other = (Side(name, stack.outline) for name in names)

    def way(side: Side) -> float:
        return sum(_depth(stack, place, side) for place in places)

    return other if way(other) < _PREFER * way(usual) - 1e-6 else usual


def _scaled(point: Point2, k: float) -> Point2:
    return point[0] * k, point[1] * k


def _depth(stack: Stack, sighting: Sighting, side: Side) -> float:
    """Return how deep in the view the near end of a place's line lies."""
    near = sighting.extent[0] if side.outward < 0 else sighting.extent[1]
    return max(0.0, -side.outward * (near * stack.scale - side.edge))


def _linear(stack: Stack, span: Span, side: Side, at: float, avoid: tuple[float, ...]) -> Dimension:
    value = stack.profile.shown(span.needs[0].value)
    size = Linear(_scaled(span.a, stack.scale), _scaled(span.b, stack.scale), span.text, value, span.needs, avoid)
    return linear_dimension(size, side, at, stack.scale, stack.profile)


def _run(stack: Stack, across: int, places: Sequence[Sighting], side: Side, at: float) -> Run:
    marks = []
    for sighting in places:
        depth = _depth(stack, sighting, side)
        s = sighting.at * stack.scale
        value = stack.profile.shown(abs(sighting.place.value))
        if not sighting.place.edge:
            depth -= stack.profile.overrun_mm + stack.profile.gap_mm
        marks.append(Mark(s, depth, sighting.place.text, value, sighting.place.needs, side.at(s, -max(depth, 0.0))))
    return Run(side, 0.0, _zero_depth(stack, across, side), tuple(marks), at, stack.scale)


def _zero_depth(stack: Stack, across: int, side: Side) -> float:
    """Return how deep the near end of the datum edge lies."""
    extents = lines_at(stack.seen, across, 0.0)
    if not extents:
        return 0.0
    near = min(e[0] for e in extents) if side.outward < 0 else max(e[1] for e in extents)
    return max(0.0, -side.outward * (near * stack.scale - side.edge))
