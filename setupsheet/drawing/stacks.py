"""The stacks of dimensions at the sides of a view: single sizes next to the outline, the running row outside.

For each direction the side is chosen from which the extension lines have the least way into the view.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from setupsheet.drawing.assign import Sighting
from setupsheet.drawing.boxes import Rect
from setupsheet.drawing.callout_text import flag_height
from setupsheet.drawing.ink import Dimension
from setupsheet.drawing.profile import Profile
from setupsheet.drawing.running import Mark, Run, run_dimensions
from setupsheet.drawing.seen import Seen, circles, lines_at
from setupsheet.drawing.sides import Side
from setupsheet.drawing.spans import Linear, linear_dimension, reach
from setupsheet.drawing.stack_sides import Way, share_out
from setupsheet.drawing.wanted import Span
from setupsheet.plane import Point2

_FAR_MM = 30.0
"""A place that lies this much nearer to the other side is dimensioned there."""
_THROUGH_HOLE_MM = 25.0
"""A line through the hole of another counts as much as this much way: it reads as that hole's axis, and is not."""
_TOUCH_MM = 0.4
_SAME_MM = 0.01
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
        sizes = [_linear(stack, s) for s in spans if _across(stack, s) == across]
        sizes.sort(key=lambda size: size.needs[0].value)
        main = choose_side(stack, across, mine)
        found += _on_sides(stack, across, mine, sizes, main)
    return tuple(found)


def _on_sides(
    stack: Stack, across: int, places: Sequence[Sighting], sizes: Sequence[Linear], main: Side
) -> list[Dimension]:
    """Return the dimensions of one direction: sizes next to the outline, the running rows outside them."""
    sides = {side.name: side for side in (main, opposite(main))}
    wishes = [(place.at * stack.scale, _nearest(stack, place, main).name) for place in places]
    names = main.name, opposite(main).name
    shared = share_out([_ways(size, sides.values(), stack.profile) for size in sizes], wishes, names)
    found: list[Dimension] = []
    used = {name: stack.first_line(side) for name, side in sides.items()}
    for size, way in zip(sizes, shared.ways, strict=True):
        side = sides[way.side]
        found.append(
            linear_dimension(replace(size, before=way.before), side, used[way.side], stack.scale, stack.profile)
        )
        used[way.side] += stack.profile.next_line_mm
    for name, side in sides.items():
        if marks := [place for place, there in zip(places, shared.sides, strict=True) if there == name]:
            found += run_dimensions(_run(stack, across, marks, side, used[name]), stack.profile)
    return found


def _ways(size: Linear, sides: Iterable[Side], profile: Profile) -> list[Way]:
    """Return the ways of drawing a size: on either side, its value before or after it where it does not fit."""
    found = []
    for side in sides:
        s0, s1 = sorted((side.ruler(size.a), side.ruler(size.b)))
        depth = sum(max(0.0, side.depth(point)) for point in (size.a, size.b))
        tried = [(before, reach(replace(size, before=before), side, profile)) for before in (False, True)]
        ways = [Way(side.name, before, (s0, s1), extent, depth) for before, extent in tried]
        found += ways[:1] if ways[0].reach == (s0, s1) else ways
    return found


def opposite(side: Side) -> Side:
    """Return the side across the view."""
    names = {"below": "above", "above": "below", "left": "right", "right": "left"}
    return Side(names[side.name], side.outline)


def _nearest(stack: Stack, place: Sighting, main: Side) -> Side:
    """Return the main side for a place, or the other one if its line has so much less way, and fewer holes, there."""
    other = opposite(main)
    return main if _way(stack, place, main) - _way(stack, place, other) < _FAR_MM else other


def _way(stack: Stack, place: Sighting, side: Side) -> float:
    """Return the way of a place's line into the view, and what it costs that it runs through holes of others."""
    return _depth(stack, place, side) + _THROUGH_HOLE_MM * _holes_on_the_way(stack, place, side)


def _holes_on_the_way(stack: Stack, place: Sighting, side: Side) -> int:
    """Return how many circles the line of a place would cut, or touch, beside their centres."""
    across, near = place.across, place.extent[0] if side.outward < 0 else place.extent[1]
    touch = _TOUCH_MM / stack.scale
    beside = (
        ring
        for ring in circles(stack.seen)
        if _SAME_MM < abs(ring.centre[across] - place.at) < ring.radius + touch
        and side.outward * (ring.centre[1 - across] - near) > 0
    )
    return len({ring.centre for ring in beside})


def _across(stack: Stack, span: Span) -> int:
    return 0 if stack.seen.frame.u_axis == span.axis else 1


def choose_side(stack: Stack, across: int, places: Sequence[Sighting]) -> Side:
    """Return the side for a direction: below or above, left or right."""
    names = ("below", "above") if across == 0 else ("left", "right")
    usual, other = (Side(name, stack.outline) for name in names)

    def way(side: Side) -> float:
        return sum(_way(stack, place, side) for place in places)

    return other if way(other) < _PREFER * way(usual) - 1e-6 else usual


def _scaled(point: Point2, k: float) -> Point2:
    return point[0] * k, point[1] * k


def _depth(stack: Stack, sighting: Sighting, side: Side) -> float:
    """Return how deep in the view the near end of a place's line lies."""
    near = sighting.extent[0] if side.outward < 0 else sighting.extent[1]
    return max(0.0, -side.outward * (near * stack.scale - side.edge))


def _linear(stack: Stack, span: Span) -> Linear:
    value = stack.profile.shown(span.needs[0].value)
    return Linear(_scaled(span.a, stack.scale), _scaled(span.b, stack.scale), span.text, value, span.needs)


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
