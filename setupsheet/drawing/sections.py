"""Where to cut: a plane, stepped where that shows more, through the bores, threads and levels that hide.

Each thing worth seeing takes a stretch along the plane; the way through the most worth with the fewest
steps is found by dynamic programming. A feature counts once.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from setupsheet.drawing.corners import extent
from setupsheet.drawing.frames import lift
from setupsheet.drawing.seen import CutPath
from setupsheet.part.face import Face
from setupsheet.part.feature import Feature, Hole, Mark, Pocket, RingGroove, RoundBoss, Slot
from setupsheet.part.part import Part
from setupsheet.part.shape import BoxShape, PolygonShape
from setupsheet.plane import Point2, Point3

_STEP_COST = 0.6
_SMALL_STEP_MM = 6.0
_LEAST_STEP_MM = 3.0
_AGAIN = 0.1
_CLEAR_MM = 1.0
_OFF_MM = 0.01
_SPOTS_TRIED = 4
_WORTH_A_CUT = 2.0
_STRAY_COST = 1.2
"""A hole cut off its centre looks narrower than it is: a plane for one thing alone is not worth that."""


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
    """Return up to two cutting planes; none when nothing hides, or when a plane would mislead more than it shows.

    ``avoid`` are coordinates along X of edges at which a plane should not step.
    """
    hidden = {f.id for f in part.features if worth(f) >= _WORTH_A_CUT}
    found: list[CutPath] = []
    while hidden and len(found) < 2:
        ways = [(*_best_way(part, along, hidden), along) for along in (0, 1)]
        net = [(gain - _stray_cost(part, way, along), way, along) for gain, way, along in ways]
        gain, way, along = max(net, key=lambda item: item[0])
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
            if not same and (known or last.high > sight.low or _step(part, along, last, sight) is None):
                continue
            total = gain + (_AGAIN if known else sight.worth) - (0.0 if same else _step_cost(last, sight))
            if total > start[0] + 1e-9:
                start = total, (*way, sight)
        best.append(start)
    return max(best, key=lambda item: item[0] - _stray_cost(part, item[1], along), default=(0.0, ()))


def _stray_cost(part: Part, way: tuple[Sight, ...], along: int) -> float:
    """Return what the round things cost that the plane through a way cuts, or touches, beside their centres."""
    if not way:
        return 0.0
    path, cut = _path(part, way, along, ()), 0
    for feature in (f for f in part.features if isinstance(f, Hole | RingGroove) and f.face.axis == 2):
        for point, half in _points(feature):
            cut += _OFF_MM < abs(path.at(point[along]) - point[1 - along]) < half[0] + _OFF_MM
    return _STRAY_COST * cut


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
        for point, half in _places(part, feature, across)[:_SPOTS_TRIED]:
            axis = feature.face.axis
            if axis == across:
                continue
            low, high = point[along] - half[along], point[along] + half[along]
            if axis == along:
                low, high = _stretch(feature, part, along)
            found.append(Sight(feature.id, low, high, point[across], value))
    return found


def _places(part: Part, feature: Feature, across: int) -> list[tuple[Point3, Point3]]:
    """Return where a feature could be cut: at its own places, an angular pocket also in line with what lies beside it.

    A plane that cuts two things in one line is better than two planes a millimetre apart.
    """
    found = _points(feature)
    if not isinstance(feature, Pocket) or not isinstance(feature.shape, BoxShape | PolygonShape):
        return found
    (point, half), room = found[0], found[0][1][across] - _CLEAR_MM - feature.shape.corner_radius_mm
    for other in part.features:
        for beside, _ in _points(other)[:_SPOTS_TRIED] if worth(other) >= _WORTH_A_CUT and other is not feature else ():
            if 1e-6 < abs(beside[across] - point[across]) < room:
                moved = list(point)
                moved[across] = beside[across]
                found.append(((moved[0], moved[1], moved[2]), half))
    return found


def _points(feature: Feature) -> list[tuple[Point3, Point3]]:
    """Return the places at which a feature could be cut, and half its width along each axis of the part."""
    face = feature.face
    if isinstance(feature, Hole):
        half = _half_width(feature)
        return [(lift(spot.at, face, spot.mouth_mm), (half, half, half)) for spot in feature.spots]
    if isinstance(feature, RingGroove | RoundBoss | Mark):
        at, half = _round_place(feature)
        return [(lift(at, face, 0.0), (half, half, half))]
    if isinstance(feature, Pocket | Slot):
        (x0, y0), (x1, y1) = extent(feature.shape)
        middle = lift(((x0 + x1) / 2, (y0 + y1) / 2), face, feature.mouth_mm)
        return [(middle, lift(((x1 - x0) / 2, (y1 - y0) / 2), face, 0.0))]
    return []


def _half_width(hole: Hole) -> float:
    return max(
        hole.diameter.nominal_mm / 2,
        hole.thread.major_mm / 2 if hole.thread else 0.0,
        hole.counterbore.diameter.nominal_mm / 2 if hole.counterbore else 0.0,
        hole.countersink.diameter.nominal_mm / 2 if hole.countersink else 0.0,
    )


def _round_place(feature: RingGroove | RoundBoss | Mark) -> tuple[Point2, float]:
    """Return the centre and the half width of what is round; a mark keeps a little room."""
    if isinstance(feature, RingGroove):
        return feature.centre, feature.outer.nominal_mm / 2
    if isinstance(feature, RoundBoss):
        return feature.at, feature.diameter.nominal_mm / 2
    return feature.at, 3.0


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
    for here, after in pairwise(way):
        step = _step(part, along, here, after, avoid) or _step(part, along, here, after)
        if step is not None and abs(here.at - after.at) > 1e-6:
            levels.append((start, step, here.at))
            start = step
    levels.append((start, part.box.high[along], way[-1].at))
    return CutPath(along, 1 - along, tuple(levels))


def _step(part: Part, along: int, a: Sight, b: Sight, avoid: Sequence[float] = ()) -> float | None:
    """Return where the plane may step from one thing to the next, None if nowhere."""
    if abs(a.at - b.at) < _LEAST_STEP_MM or a.high + 2 * _CLEAR_MM > b.low:
        return None
    edges = [(edge - _CLEAR_MM, edge + _CLEAR_MM) for edge in avoid]
    return step_place(a.high, b.low, [*edges, *_in_the_way(part, along, a.at, b.at)])


def _in_the_way(part: Part, along: int, a: float, b: float) -> list[tuple[float, float]]:
    """Return the stretches along the plane at which a step from ``a`` to ``b`` would run through something."""
    low, high = min(a, b), max(a, b)
    found = []
    for feature in part.features:
        if feature.face.axis == 2:
            for point, half in _points(feature):
                if low - half[1 - along] < point[1 - along] < high + half[1 - along]:
                    wide = half[along] + _CLEAR_MM
                    found.append((point[along] - wide, point[along] + wide))
    return found


def step_place(low: float, high: float, avoid: Sequence[tuple[float, float]]) -> float | None:
    """Return where to step between two things: near the middle, in none of the stretches to avoid, or None."""
    middle, half = (low + high) / 2, (high - low) / 2
    tries = [middle + sign * half * step / 10 for step in range(10) for sign in (1, -1)]
    clear = [place for place in tries if not any(a < place < b for a, b in avoid)]
    return round(clear[0], 3) if clear else None


FACE_ALONG = {0: Face.FRONT, 1: Face.RIGHT}
"""From where a section along an axis is looked at."""
