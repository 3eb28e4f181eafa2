"""Push things apart along a line: each as near to its own place as the room between them allows."""

from __future__ import annotations

import itertools
from collections.abc import Sequence


def spread(places: Sequence[float], rooms: Sequence[float], gap: float = 0.0) -> list[float]:
    """Return new places, in the order given, so that neighbours do not touch.

    ``places`` rise; ``rooms`` is the length that each takes along the line, centred on its place.
    The sum of squared moves is the least possible (pooling of neighbours that push each other).
    """
    offsets = [0.0]
    for left, right in itertools.pairwise(rooms):
        offsets.append(offsets[-1] + (left + right) / 2 + gap)
    blocks: list[tuple[float, int]] = []
    for place, offset in zip(places, offsets, strict=True):
        mean, count = place - offset, 1
        while blocks and blocks[-1][0] > mean:
            other, many = blocks.pop()
            mean = (mean * count + other * many) / (count + many)
            count += many
        blocks.append((mean, count))
    means = [mean for mean, count in blocks for _ in range(count)]
    return [mean + offset for mean, offset in zip(means, offsets, strict=True)]


def spread_within(places: Sequence[float], rooms: Sequence[float], gap: float, low: float, high: float) -> list[float]:
    """As ``spread``, then moved as a whole into low..high as far as that has room."""
    out = spread(places, rooms, gap)
    if not out:
        return out
    too_low = low - (out[0] - rooms[0] / 2)
    if too_low > 0:
        out = _not_below(out, rooms, gap, low)
    too_high = out[-1] + rooms[-1] / 2 - high
    if too_high > 0:
        mirrored = _not_below([-o for o in reversed(out)], list(reversed(rooms)), gap, -high)
        out = [-o for o in reversed(mirrored)]
    return out


def _not_below(places: list[float], rooms: Sequence[float], gap: float, low: float) -> list[float]:
    out: list[float] = []
    floor = low
    for place, room in zip(places, rooms, strict=True):
        out.append(max(place, floor + room / 2))
        floor = out[-1] + room / 2 + gap
    return out
