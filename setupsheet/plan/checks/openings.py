"""What pockets, slots, grooves and levels leave of the finished part: floors, walls, and metal that nobody cut."""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.part.feature import Feature, Level, Pocket, RingGroove, Slot
from setupsheet.plan.checks.case import Case
from setupsheet.plan.checks.near import Spans
from setupsheet.plane import Point2
from setupsheet.solid.extent import bounds, overlap
from setupsheet.solid.volumes import feature_volume

Opening = Pocket | Slot | RingGroove
_GRID = 9
_LINES = 7


def floors(case: Case, feature: Opening | Level) -> list[float]:
    """Return how much finished metal stands under a floor, at each place where the floor is seen."""
    size = feature.height if isinstance(feature, Level) else feature.floor
    found = []
    for at in _places(case, feature) if size else ():
        spans = case.drawn.metal(feature.face.axis, at)
        for low, high in spans:
            end = high if feature.face.sign > 0 else low
            if size and abs(end - size.nominal_mm) < 1e-3:
                found.append(high - low)
    return found


def walls(case: Case, feature: Opening) -> list[float]:
    """Return the finished metal right beside an opening on lines across it at half its depth."""
    far = feature.exit_mm if not isinstance(feature, RingGroove) and feature.floor is None else None
    floor = feature.floor.nominal_mm if feature.floor else far
    depth = (feature.mouth_mm + (floor if floor is not None else feature.mouth_mm)) / 2
    found: list[float] = []
    for line_axis in feature.face.in_plane:
        low, high = _limits(case, feature)
        other = next(axis for axis in feature.face.in_plane if axis != line_axis)
        for i in range(_LINES):
            across = low[other] + (high[other] - low[other]) * (i + 0.5) / _LINES
            place = {other: across, feature.face.axis: depth}
            u, v = (axis for axis in range(3) if axis != line_axis)
            spans = case.drawn.metal(line_axis, (place[u], place[v]))
            found += _beside(spans, low[line_axis], high[line_axis])
    return found


def still_there(case: Case, feature: Feature) -> bool:
    """Tell whether metal of a feature's volume still stands when all setups are done."""
    for shape in feature_volume(feature, case.part):
        limits = bounds(shape)
        if not overlap(limits, case.part.box):
            continue
        u, v = (axis for axis in range(3) if axis != shape.axis)
        low = [max(limits.low[i], case.part.box.low[i]) for i in range(3)]
        high = [min(limits.high[i], case.part.box.high[i]) for i in range(3)]
        for at in _grid((low[u], low[v]), (high[u], high[v])):
            stands, drawn = case.body.metal(shape.axis, at), case.drawn.metal(shape.axis, at)
            if (
                _inside(stands, low[shape.axis], high[shape.axis])
                > _inside(drawn, low[shape.axis], high[shape.axis]) + 0.01
            ):
                return True
    return False


def _inside(spans: Spans, low: float, high: float) -> float:
    return sum(min(b, high) - max(a, low) for a, b in spans if b > low and a < high)


def _beside(spans: Spans, low: float, high: float) -> Iterator[float]:
    """Yield the lengths of metal that begin or end at an opening between two coordinates."""
    for a, b in spans:
        inside_low, inside_high = low - 1e-3 <= a <= high + 1e-3, low - 1e-3 <= b <= high + 1e-3
        if inside_low or inside_high:
            yield b - a


def _limits(case: Case, feature: Opening | Level) -> tuple[list[float], list[float]]:
    """Return the box of an opening, cut to the finished part."""
    boxes = [bounds(shape) for shape in feature_volume(feature, case.part)]
    low = [max(case.part.box.low[i], min(box.low[i] for box in boxes)) for i in range(3)]
    high = [min(case.part.box.high[i], max(box.high[i] for box in boxes)) for i in range(3)]
    return low, high


def _places(case: Case, feature: Opening | Level) -> Iterator[Point2]:
    low, high = _limits(case, feature)
    u, v = feature.face.in_plane
    yield from _grid((low[u], low[v]), (high[u], high[v]))


def _grid(low: Point2, high: Point2) -> Iterator[Point2]:
    steps = [(i + 0.5) / _GRID for i in range(_GRID)]
    for s in steps:
        for t in steps:
            yield low[0] + s * (high[0] - low[0]), low[1] + t * (high[1] - low[1])
