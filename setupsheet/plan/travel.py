"""The order in which places are driven to: short ways, always the same for the same places."""

from __future__ import annotations

import math
from collections.abc import Sequence

from setupsheet.plan.record import Position


def short_travel(positions: Sequence[Position]) -> list[Position]:
    """Return the positions, each followed by its nearest neighbour, from the front left one on."""
    left = sorted(positions, key=lambda p: (p.x + p.y, p.x, p.label))
    ordered: list[Position] = []
    while left:
        here = ordered[-1] if ordered else None
        nearest = left[0] if here is None else min(left, key=lambda p: (round(_way(here, p), 6), p.label))
        left.remove(nearest)
        ordered.append(nearest)
    return ordered


def _way(a: Position, b: Position) -> float:
    return math.dist((a.x, a.y), (b.x, b.y))
