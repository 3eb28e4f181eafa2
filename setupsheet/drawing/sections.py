"""Where to cut: a plane, stepped where that shows more, through the bores, threads and levels that hide.

Each thing worth seeing takes a stretch along the plane; the way through the most worth with the fewest
steps is found by dynamic programming. A feature counts once.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from setupsheet.drawing.corners import fixed_points
from setupsheet.drawing.frames import lift
from setupsheet.drawing.seen import CutPath
from setupsheet.part.face import Face
from setupsheet.part.feature import Feature, Hole, Mark, Pocket, RingGroove, RoundBoss, Slot
from setupsheet.part.part import Part
from setupsheet.plane import Point3

_STEP_COST = 0.6
_SMALL_STEP_MM = 6.0
_LEAST_STEP_MM = 3.0
_AGAIN = 0.1
_CLEAR_MM = 1.0
_SPOTS_TRIED = 4
_WORTH_A_CUT = 2.0


@dataclass(frozen=True, slots=True)
class Sight:
    """A thing worth cutting: its feature, stretch along the plane, place across it, worth."""

    feature: str
    low: float
    high: float
    at: float
    worth: float


def worth(feature: Feature) -> float:
    """Return how much a section through a feature tells; 0 for what the plain views show in full."""
    if isinstance(feature, Hole):
        hides = feature.thread or feature.counterbore or feature.countersink or not feature.through
        return 3.0 if hides or feature.making == "fit" else 0.5
    if isinstance(feature, Pocket | Slot):
        return 3.0 if feature.floor is not None else 0.5
    return 3.0 if isinstance(feature, RingGroove) else 0.0


def choose_cuts(part: Part, avoid: Sequence[float] = ()) -> tuple[CutPath, ...]:
    """Return up to two cutting planes; none when nothing hides.

    ``avoid`` are coordinates along X of edges at which a plane should not step.
    """
    hidden = {f.id for f in part.features if worth(f) >= _WORTH_A_CUT}
    found: list[CutPath] = []
    while hidden and len(found) < 2:
        ways = [(_best_way(part, along, hidden), along) for along in (0, 1)]
        (gain, way), along = max(ways, key=lambda item: item[0][0])
        if gain < _WORTH_A_CUT or not way:
            break
        found.append(_path(part, way, along, avoid if along == 0 else ()))
        hidden -= {sight.feature for sight in way}
    return tuple(found)


def _best_way(part: Part, along: int, hidden: set[str]) -> tuple[float, tuple[Sight, ...]]:
    """Return the worth and the things of the best way along an axis."""
    sights = sorted(_sights(part, along, hidden), key=lambda s: (s.high, s.low, s.at))
    best: list[tuple[float, tuple[Sight, ...]]] = []
    for sight in sights:
        start: tuple[float, tuple[Sight, ...]] = (sight.worth, (sight,))
        for gain, way in best:
            last = way[-1]
            same = abs(last.at - sight.at) < 1e-6
            known = any(s.feature == sight.feature for s in way)
            if (known and not same) or (not same and abs(last.at - sight.at) < _LEAST_STEP_MM):
                continue
            if last.high + (0.0 if same else 2 * _CLEAR_MM) > sight.low:
                continue
            total = gain + (_AGAIN if known else sight.worth) - (0.0 if same else _step_cost(last, sight))
            if total > start[0] + 1e-9:
                start = total, (*way, sight)
        best.append(start)
    return max(best, key=lambda item: item[0], default=(0.0, ()))


def _step_cost(a: Sight, b: Sight) -> float:
    """Return what a step costs: a small one is hard to see."""
    return _STEP_COST if abs(a.at - b.at) > _SMALL_STEP_MM else 3 * _STEP_COST


def _sights(part: Part, along: int, hidden: set[str]) -> list[Sight]:
    across = 1 - along
    found: list[Sight] = []
    for feature in part.features:
        value = worth(feature)
        if not value or (value >= _WORTH_A_CUT and feature.id not in hidden):
            continue
        for point, half in _points(feature)[:_SPOTS_TRIED]:
            axis = feature.face.axis
            if axis == across:
                continue
            low, high = point[along] - half, point[along] + half
            if axis == along:
                low, high = _stretch(feature, part, along)
            found.append(Sight(feature.id, low, high, point[across], value))
    return found


def _points(feature: Feature) -> list[tuple[Point3, float]]:
    """Return the places at which a feature could be cut, and half its width there."""
    if isinstance(feature, Hole):
        half = max(
            feature.diameter.nominal_mm / 2,
            feature.thread.major_mm / 2 if feature.thread else 0.0,
            feature.counterbore.diameter.nominal_mm / 2 if feature.counterbore else 0.0,
            feature.countersink.diameter.nominal_mm / 2 if feature.countersink else 0.0,
        )
        return [(lift(spot.at, feature.face, spot.mouth_mm), half) for spot in feature.spots]
    if isinstance(feature, RoundBoss):
        return [(lift(feature.at, feature.face, 0.0), feature.diameter.nominal_mm / 2)]
    if isinstance(feature, Mark):
        return [(lift(feature.at, feature.face, 0.0), 3.0)]
    if isinstance(feature, RingGroove):
        return [(lift(feature.centre, feature.face, feature.mouth_mm), feature.outer.nominal_mm / 2)]
    if isinstance(feature, Pocket | Slot):
        points = fixed_points(feature.shape)
        xs, ys = [p[0] for p in points], [p[1] for p in points]
        middle = ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)
        return [(lift(middle, feature.face, feature.mouth_mm), max(max(xs) - min(xs), max(ys) - min(ys)) / 2)]
    return []


def _stretch(feature: Feature, part: Part, along: int) -> tuple[float, float]:
    """Return the stretch of a hole that runs along the plane."""
    if isinstance(feature, Hole):
        spot = feature.spots[0]
        low, high = sorted((spot.mouth_mm, spot.exit_mm))
        return low, high
    return part.box.low[along], part.box.high[along]


def _path(part: Part, way: tuple[Sight, ...], along: int, avoid: Sequence[float]) -> CutPath:
    """Return the plane through the things, stepping between them."""
    levels: list[tuple[float, float, float]] = []
    start = part.box.low[along]
    edges = [(edge - _CLEAR_MM, edge + _CLEAR_MM) for edge in avoid]
    for here, after in pairwise(way):
        if abs(here.at - after.at) > 1e-6:
            step = step_place(here.high, after.low, [*edges, *_in_the_way(part, along, here.at, after.at)])
            levels.append((start, step, here.at))
            start = step
    levels.append((start, part.box.high[along], way[-1].at))
    return CutPath(along, 1 - along, tuple(levels))


def _in_the_way(part: Part, along: int, a: float, b: float) -> list[tuple[float, float]]:
    """Return the stretches along the plane at which a step from ``a`` to ``b`` would run through something."""
    low, high = min(a, b), max(a, b)
    found = []
    for feature in part.features:
        if feature.face.axis != 2:
            continue
        for point, half in _points(feature):
            wide = half + 2 * _CLEAR_MM
            if low - wide < point[1 - along] < high + wide:
                found.append((point[along] - wide, point[along] + wide))
    return found


def step_place(low: float, high: float, avoid: Sequence[tuple[float, float]]) -> float:
    """Return where to step between two things: near the middle, in none of the stretches to avoid."""
    middle, half = (low + high) / 2, (high - low) / 2
    tries = [middle + sign * half * step / 10 for step in range(10) for sign in (1, -1)]
    clear = [place for place in tries if not any(a < place < b for a, b in avoid)]
    return round((clear or tries)[0], 3)


FACE_ALONG = {0: Face.FRONT, 1: Face.RIGHT}
"""From where a section along an axis is looked at."""
