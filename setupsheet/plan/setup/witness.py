"""The hole that is driven to before the first cut: one that would not be there too if the part lay the wrong way.

The part can be put back turned half round as it lies, or a quarter where it is as long as it is wide; zero is found
then as it is said. A hole without a twin at any of these places shows it; where there is none, the corner mark has to.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from setupsheet.part.feature import Hole, Spot
from setupsheet.part.part import Part, SetupAsked
from setupsheet.plan.setup.zero import laid_for
from setupsheet.plane import Point2

PIN_LESS_MM = 0.1
"""How much thinner the pin is than the hole's low limit. Common practice, no source."""

NEAR_MM = 0.3
"""How far a hole may lie off and still take the pin: zero is never found quite true. Common practice, no source."""

AS_LONG_MM = 2.0
"""A part whose two sides differ by less than this can be put in a quarter turn wrong. Common practice, no source."""

Chosen = tuple[Hole, Spot]


def pick_witness(part: Part, asked: SetupAsked, made: Sequence[Hole]) -> Chosen | None:
    """Return the hole asked for, else one without a twin, the farthest from the middle; None where there is none.

    ``made`` are the holes of earlier setups.
    """
    fit = [hole for hole in made if hole.through and hole.face.axis == asked.up.axis]
    if asked.check_first:
        named = [(h, s) for h in fit for s in h.spots if asked.check_first in (h.id, s.label)]
        return _farthest(part, asked, [p for p in named if is_unique(part, asked, fit, p)] or named)
    return _farthest(part, asked, [(h, s) for h in fit for s in h.spots if is_unique(part, asked, fit, (h, s))])


def is_unique(part: Part, asked: SetupAsked, fit: Sequence[Hole], chosen: Chosen) -> bool:
    """Tell whether no hole takes the pin where it goes with the part the wrong way round."""
    hole, spot = chosen
    laid, _ = laid_for(part, asked)
    pin = (hole.diameter.lower_mm - PIN_LESS_MM) / 2
    others = [(laid.flat(s.at), h.diameter.upper_mm / 2) for h in fit for s in h.spots]
    return not any(
        math.dist(place, at) + pin <= radius + NEAR_MM
        for place in _wrong_places(part, asked, laid.flat(spot.at))
        for at, radius in others
    )


def _wrong_places(part: Part, asked: SetupAsked, at: Point2) -> list[Point2]:
    """Return where the spindle points on the part, for each way in which it can lie wrong; ``at`` is in the setup."""
    laid, _ = laid_for(part, asked)
    box = laid.box(part.box)
    middle = [
        0.0 if name in asked.zero and "indicate" in asked.zero[name].found else (box.low[index] + box.high[index]) / 2
        for index, name in enumerate("xy")
    ]
    x, y = at[0] - middle[0], at[1] - middle[1]
    places = [(middle[0] - x, middle[1] - y)]
    if abs(box.size[0] - box.size[1]) < AS_LONG_MM:
        places += [(middle[0] - y, middle[1] + x), (middle[0] + y, middle[1] - x)]
    return places


def _farthest(part: Part, asked: SetupAsked, pairs: Sequence[Chosen]) -> Chosen | None:
    u, v = asked.up.in_plane
    middle = [(part.box.low[i] + part.box.high[i]) / 2 for i in (u, v)]
    return max(
        pairs,
        key=lambda p: (min(abs(p[1].at[0] - middle[0]), abs(p[1].at[1] - middle[1])), p[1].label),
        default=None,
    )
