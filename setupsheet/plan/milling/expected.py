"""What the part should measure before the last pass: a wrong zero shows there while it can still be mended."""

from __future__ import annotations

from dataclasses import replace

from setupsheet.part.face import Face
from setupsheet.part.feature import Feature, Level, Pocket, Slot
from setupsheet.plan.bench import Bench, Removed, floor_of
from setupsheet.plan.milling.milling import FLOOR_MM, WALL_MM
from setupsheet.plan.record import Step
from setupsheet.plan.sizes import length
from setupsheet.solid import column

_NOISE_MM = 0.006
_ABOVE_MM = 1.0
_SHARES = (0.07, 0.29, 0.51, 0.73, 0.93)


def with_expected_depth(bench: Bench, made: Step, feature: Feature) -> Step:
    """Return the step that finishes a floor with the height or depth that stands before its last, thin pass."""
    floor = floor_of(feature)
    heights = sorted({move.z for move in made.moves})
    if floor is None or len(heights) < 2 or not isinstance(feature, Level | Pocket | Slot):
        return made
    last, before = heights[:2]
    if abs(last - bench.z(floor.nominal_mm)) > _NOISE_MM or before - last > FLOOR_MM + _NOISE_MM:
        return made
    name, base = "depth", feature.face
    if isinstance(feature, Level) and feature.face is Face.TOP:
        name, base = "height", Face.BOTTOM
    counts_from = feature.mouth_mm if isinstance(feature, Pocket | Slot) else bench.part.box.at(base)
    size = length(abs(bench.z(counts_from) - before), bench.part.unit)
    return replace(made, words=(*made.words, f"before the last pass the {name} should measure {size}"))


def before_last_side(bench: Bench, removed: Removed, side: Face, cut: tuple[float, float]) -> tuple[str, ...]:
    """Return what is measured before the last pass along a side; nothing where the far side is still raw.

    ``cut``: where the side comes to lie, and how far down it is milled.
    """
    plane, floor = cut
    index, sign = bench.laid.where(side)
    far = side.opposite
    there = _surface(bench, removed, far, floor + _ABOVE_MM)
    finished = bench.laid.along(index, bench.part.box.at(far))
    if there is None or (far not in bench.part.stock.as_bought and abs(there - finished) > 1e-6):
        return ()
    size = length(abs(plane + sign * WALL_MM - there), bench.part.unit)
    return (f"before the last pass it should measure {size} over {far.value} and {side.value}",)


def _surface(bench: Bench, removed: Removed, face: Face, z: float) -> float | None:
    """Return where a side stands at a height, its outermost metal; None where there is none."""
    index, sign = bench.laid.where(face)
    box, other = bench.envelope, 1 - index
    met = []
    for share in _SHARES:
        at = [0.0, 0.0, z]
        at[other] = box.low[other] + box.size[other] * share
        point = bench.laid.to_part((at[0], at[1], at[2]))
        u, v = face.in_plane
        found = column.surface(bench.part.stock.box, removed, face, (point[u], point[v]))
        met += [] if found is None else [bench.laid.along(index, found)]
    return (max(met) if sign > 0 else min(met)) if met else None
