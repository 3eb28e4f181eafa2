"""Layout lines: what a level leaves standing is scribed on the face before the level is cut.

In the machine a pointer in the spindle pricks the corners at the readings given; on the plate a height gauge draws the
same lines from the finished faces. A second line outside warns: between the two the cutter is fed with care.
"""

from __future__ import annotations

from collections.abc import Sequence

from setupsheet.part.feature import Feature, Level, RoundBoss
from setupsheet.part.shape import BoxShape, CircleShape, PolygonShape, Shape
from setupsheet.plan.bench import Bench, Removed, bosses, surface_at
from setupsheet.plan.draft import Draft, step
from setupsheet.plan.milling import area
from setupsheet.plan.record import Position
from setupsheet.plane import Point2, polar

WARN_MM = 2.0
"""How far outside the outline the warning line lies. Common practice, no source."""

_ROUND = 4
"""Pricks on a circle."""


def scribe_drafts(bench: Bench, removed: Removed, features: Sequence[Feature]) -> list[Draft]:
    """Return the step that scribes what the levels among a setup's features leave; nothing where they leave nothing."""
    levels = [feature for feature in features if isinstance(feature, Level) and feature.face is bench.up]
    shapes: dict[str, tuple[Level, Shape]] = {}
    for level in levels:
        for name, shape in _left(bench, level):
            shapes.setdefault(name, (level, shape))
    places = [
        (level, at)
        for level, shape in shapes.values()
        for at in _pricks(shape)
        if surface_at(bench, removed, at) is not None
    ]
    if not places:
        return []
    positions = tuple(_position(bench, removed, place, n) for n, place in enumerate(places, 1))
    warn = bench.scales["x"].plain(WARN_MM).lstrip("+")
    words = [
        f"a pointer in the spindle, spindle stopped: prick, join, and draw a warning line {warn} outside",
        *_rounds(bench, removed, shapes),
        *_on_the_plate(bench, shapes),
    ]
    made = step(
        "scribe",
        f"scribe {', '.join(shapes)}",
        tuple(dict.fromkeys(level.id for level, _ in shapes.values())),
        method="none",
        positions=positions,
        where="positions table",
        words=tuple(words),
    )
    return [Draft(made)]


def _left(bench: Bench, level: Level) -> list[tuple[str, Shape]]:
    """Return what a level leaves standing by name: named features, bosses in its area, plain shapes."""
    found: list[tuple[str, Shape]] = []
    for number, keep in enumerate(level.leave, 1):
        name = keep.feature or f"{level.id} {number}"
        found.append((name, bench.laid.shape(keep.shape)))
    named = {name for name, _ in found}
    found += [(boss.id, _circle(bench, boss)) for boss in bosses(bench) if boss.id not in named and _in(level, boss)]
    return found


def _circle(bench: Bench, boss: RoundBoss) -> Shape:
    return bench.laid.shape(CircleShape(boss.at, boss.diameter.nominal_mm))


def _in(level: Level, boss: RoundBoss) -> bool:
    return level.area is None or area.distance(area.of_shape(level.area), boss.at) <= 0


def _pricks(shape: Shape) -> list[Point2]:
    if isinstance(shape, BoxShape):
        (x0, y0), (x1, y1) = shape.low, shape.high
        return [(x0, y0), (x1, y0), (x1, y1), (x0, y1)]
    if isinstance(shape, PolygonShape):
        return list(shape.corners)
    if isinstance(shape, CircleShape):
        return [polar(shape.centre, shape.diameter_mm / 2, 360 * i / _ROUND) for i in range(_ROUND)]
    return [shape.start, shape.end]


def _position(bench: Bench, removed: Removed, place: tuple[Level, Point2], number: int) -> Position:
    level, at = place
    x, y = bench.settle("x", at[0]), bench.settle("y", at[1])
    top = surface_at(bench, removed, at)
    z = bench.settle("z", bench.envelope.high[2] if top is None else top)
    shown = {"x": bench.shown("x", x), "y": bench.shown("y", y)}
    return Position(f"line {number}", level.id, x, y, z, z, z, shown)


def _rounds(bench: Bench, removed: Removed, shapes: dict[str, tuple[Level, Shape]]) -> list[str]:
    """Return what to set the dividers to for round shapes, where their middle is metal to prick."""
    said = []
    for name, (_, shape) in shapes.items():
        if isinstance(shape, CircleShape) and surface_at(bench, removed, shape.centre) is not None:
            radii = [bench.scales["x"].plain(shape.diameter_mm / 2 + more).lstrip("+") for more in (0.0, WARN_MM)]
            said.append(f"{name} is round: dividers at {radii[0]} and {radii[1]}")
    return said


def _on_the_plate(bench: Bench, shapes: dict[str, tuple[Level, Shape]]) -> list[str]:
    """Return the heights of square outlines over the finished faces, where the shop has a height gauge."""
    if not any(gauge.kind == "height gauge" for gauge in bench.shop.gauges):
        return []
    said = []
    for name, (_, shape) in shapes.items():
        if isinstance(shape, BoxShape):
            lines = [_heights(bench, shape, index) for index in (0, 1)]
            said.append(f"{name} on the plate instead: height gauge {', '.join(lines)}")
    return said


def _heights(bench: Bench, shape: BoxShape, index: int) -> str:
    """Return the two heights of a box over the finished face that it is measured from."""
    axis, low = "xy"[index], bench.envelope.low[index]
    ends = [bench.scales[axis].plain(value - low).lstrip("+") for value in (shape.low[index], shape.high[index])]
    return f"over the {bench.laid.face(index, -1).value} face {ends[0]} and {ends[1]}"
