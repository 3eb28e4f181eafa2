"""On which side of a view each size and each running place stands, so that no dimension line is crossed.

The running row stands outside the single sizes, so its extension lines pass through their height: where one would
cross a size's line, the size or the place goes to the other side. Where that leaves a choice, the fewest places
leave the side that they lie nearest to, and the extension lines of the sizes have the least way into the view.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

_CLOSE_MM = 1.0
_EVERY_WAY_UP_TO = 4
"""With more sizes than this they are placed one after the other: all ways together would be too many."""


@dataclass(frozen=True, slots=True)
class Way:
    """One way of drawing a size: its side, its two ends on the ruler, and from where to where its line and text reach.

    ``before`` puts a value that does not fit between the ends before the first of them; ``depth`` is how far its
    extension lines run into the view.
    """

    side: str
    before: bool
    ends: tuple[float, float]
    reach: tuple[float, float]
    depth: float

    def is_crossed_at(self, s: float) -> bool:
        """Tell whether a line running outwards at a place of the ruler crosses this size; at its ends none does."""
        if min(abs(s - end) for end in self.ends) < 1e-6:
            return False
        return self.reach[0] < s < self.reach[1]

    def is_close_to(self, s: float) -> bool:
        """Tell whether a line at a place of the ruler would stand within the size or just beside it."""
        return self.ends[0] - _CLOSE_MM < s < self.ends[1] + _CLOSE_MM


@dataclass(frozen=True, slots=True)
class Shared:
    """The way of every size, the side of every place, and how many lines still cross."""

    ways: tuple[Way, ...]
    sides: tuple[str, ...]
    crossings: int


def share_out(sizes: Sequence[Sequence[Way]], places: Sequence[tuple[float, str]], sides: tuple[str, str]) -> Shared:
    """Return the best of the ways of all sizes, which come in their order outwards, with the sides of the places.

    A place is given with the side that it would rather have.
    """
    chosen: tuple[Way, ...] = ()
    if len(sizes) <= _EVERY_WAY_UP_TO:
        chosen = min(product(*sizes), key=lambda ways: _cost(ways, places, sides))
    else:
        for ways in sizes:
            chosen = min(((*chosen, way) for way in ways), key=lambda some: _cost(some, places, sides))
    found = _sides_of(chosen, places, sides)
    return Shared(chosen, found, _crossings(chosen, places, found))


def _sides_of(ways: Sequence[Way], places: Sequence[tuple[float, str]], sides: tuple[str, str]) -> tuple[str, ...]:
    """Return the side of each place: its own, unless fewer sizes would be crossed on the other."""
    found = []
    for s, own in places:
        other = sides[1] if own == sides[0] else sides[0]
        here, there = (sum(way.side == side and way.is_crossed_at(s) for way in ways) for side in (own, other))
        found.append(other if there < here else own)
    return tuple(found)


def _crossings(ways: Sequence[Way], places: Sequence[tuple[float, str]], sides: Sequence[str]) -> int:
    """Return how many extension lines cross sizes: those of the running row with its zero, and of larger sizes."""
    lines = [*((s, side) for (s, _), side in zip(places, sides, strict=True)), *((0.0, side) for side in set(sides))]
    count = sum(way.side == side and way.is_crossed_at(s) for s, side in lines for way in ways)
    for k, way in enumerate(ways):
        count += sum(way.side == far.side and way.is_crossed_at(end) for far in ways[k + 1 :] for end in far.ends)
    return count


def _cost(
    ways: Sequence[Way], places: Sequence[tuple[float, str]], sides: tuple[str, str]
) -> tuple[int, int, int, float, int]:
    found = _sides_of(ways, places, sides)
    moved = sum(side != own for (_, own), side in zip(places, found, strict=True))
    close = sum(
        way.side == side and way.is_close_to(s) for (s, _), side in zip(places, found, strict=True) for way in ways
    )
    depth = sum(way.depth for way in ways)
    return _crossings(ways, places, found), moved, close, round(depth, 6), sum(way.before for way in ways)
