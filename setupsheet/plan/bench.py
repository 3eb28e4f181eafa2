"""The setup that is being planned: how the part lies, what must stand, what metal is there now.

Everything here is seen in the setup frame (Z up, origin at the zero). The metal that has gone so far is a
list of volumes in the part frame, because it lives on from setup to setup.
"""

from __future__ import annotations

from dataclasses import dataclass

from setupsheet.part.face import Box, Face
from setupsheet.part.feature import Feature, Level, Pocket, RingGroove, RoundBoss, Size, Slot
from setupsheet.part.part import Part, SetupAsked
from setupsheet.part.shape import BoxShape, CircleShape, PolygonShape
from setupsheet.part.shop import Machine, RotaryTable, Shop, Vise
from setupsheet.plan.milling import area
from setupsheet.plan.milling.area import Region
from setupsheet.plan.shown import Scale
from setupsheet.plane import Point2
from setupsheet.solid import column
from setupsheet.solid.laid import Laid
from setupsheet.solid.volume import Cone, Primitive, Prism

Removed = tuple[Primitive, ...]

BOSS_ROUGH_MM = 0.25
"""What the end mill leaves all round a boss for the boring head. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Bench:
    """One clamping while its work is planned. ``jaw_top`` is -inf where no jaw is in the cutter's way."""

    part: Part
    shop: Shop
    machine: Machine
    vise: Vise | None
    laid: Laid
    asked: SetupAsked
    scales: dict[str, Scale]
    number: int
    jaw_top: float
    jaws_x: tuple[float, float]
    finished: Removed
    """Everything that the finished part lacks of its envelope, as volumes in the part frame."""
    opened_by_others: frozenset[str] = frozenset()
    """Ids of holes that later setups look for, and that must be open right through."""
    rotary: RotaryTable | None = None
    """The rotary table that holds the part; its axis is X 0 Y 0."""
    approach: tuple[int, int] = (1, 1)
    """From which side dials come to X and Y: 1 from the left or the front, -1 from the right or the back."""

    @property
    def envelope(self) -> Box:
        """The finished envelope in the setup frame."""
        return self.laid.box(self.part.box)

    @property
    def stock(self) -> Box:
        """The stock in the setup frame."""
        return self.laid.box(self.part.stock.box)

    @property
    def up(self) -> Face:
        """The part face on top."""
        return self.laid.up

    def z(self, part_value: float) -> float:
        """Return a height (part coordinate along the up face's axis) as setup Z."""
        return self.laid.along(2, part_value)

    def shown(self, axis: str, value: float) -> str:
        """Return what the reader sees on an axis."""
        return self.scales[axis].text(value)

    def settle(self, axis: str, value: float) -> float:
        """Return the nearest value that an axis can show."""
        return self.scales[axis].settle(value)


def flat_box(box: Box) -> Region:
    """Return a box as seen from above."""
    return area.rectangle(box.low[:2], box.high[:2])


def corners(box: Box) -> tuple[Point2, Point2]:
    """Return the lower left and upper right corner of a box as seen from above."""
    return box.low[:2], box.high[:2]


def floor_of(feature: Feature) -> Size | None:
    """Return the floor of a feature that has one."""
    if isinstance(feature, Level):
        return feature.height
    if isinstance(feature, Pocket | Slot | RingGroove):
        return feature.floor
    return None


def bosses(bench: Bench) -> tuple[RoundBoss, ...]:
    """Return the round bosses that point up in this setup."""
    return tuple(f for f in bench.part.features if isinstance(f, RoundBoss) and f.face == bench.up)


def opening(bench: Bench, feature: Feature) -> Region:
    """Return the area that a level, pocket, window or slot takes out of the finished part, exact in kind."""
    region = area.nothing()
    if isinstance(feature, Level):
        whole = feature.area is None
        region = flat_box(bench.envelope) if whole else area.of_shape(bench.laid.shape(feature.area))  # type: ignore[arg-type]
        region = area.without(region, area.union(area.of_shape(bench.laid.shape(k.shape)) for k in feature.leave))
    elif isinstance(feature, Pocket | Slot):
        region = area.of_shape(bench.laid.shape(feature.shape))
    elif isinstance(feature, RingGroove):
        outer = CircleShape(feature.centre, feature.outer.nominal_mm)
        inner = CircleShape(feature.centre, feature.inner.nominal_mm)
        region = area.without(area.of_shape(bench.laid.shape(outer)), area.of_shape(bench.laid.shape(inner)))
    standing_round = [CircleShape(boss.at, boss.diameter.nominal_mm) for boss in bosses(bench)]
    return area.without(region, area.union(area.of_shape(bench.laid.shape(circle)) for circle in standing_round))


def standing(bench: Bench, z: float) -> Region:
    """Return where the finished part, seen from above, stands higher than ``z``; bosses as squares."""
    region = flat_box(bench.envelope)
    for feature in bench.part.features:
        if feature.face.axis != bench.up.axis:
            continue
        floor = floor_of(feature)
        through = isinstance(feature, Pocket | Slot) and floor is None
        from_here = floor is not None and feature.face == bench.up and bench.z(floor.nominal_mm) <= z + 1e-6
        if through or from_here:
            region = area.without(region, opening(bench, feature))
    circles = [CircleShape(boss.at, boss.diameter.nominal_mm) for boss in bosses(bench)]
    region = area.without(region, area.union(area.of_shape(bench.laid.shape(circle)) for circle in circles))
    return area.union([region, boss_squares(bench, z)])


def corner_squares(bench: Bench, z: float) -> Region:
    """Return squares about the metal that stays higher than ``z`` in the rounded corners of pockets below it.

    ``standing`` takes a pocket as its sharp outline; where a level meets such a corner, the round is a thin wall.
    """
    squares = []
    for feature in bench.part.features:
        if not isinstance(feature, Pocket) or feature.face.axis != bench.up.axis:
            continue
        radius = feature.shape.corner_radius_mm if isinstance(feature.shape, BoxShape | PolygonShape) else 0.0
        deep = feature.floor is None or (feature.face == bench.up and bench.z(feature.floor.nominal_mm) <= z + 1e-6)
        if deep and radius:
            outline = opening(bench, feature)
            rounds = area.without(outline, area.rounded_within(outline, radius))
            squares.append(area.squared(area.common(rounds, flat_box(bench.envelope))))
    return area.union(squares)


def boss_squares(bench: Bench, z: float) -> Region:
    """Return the squares that an end mill leaves about the round bosses that stand higher than ``z``."""
    squares = []
    for boss in bosses(bench):
        if bench.z(boss.top.nominal_mm) > z + 1e-6:
            half = boss.diameter.nominal_mm / 2 + BOSS_ROUGH_MM
            x, y = bench.laid.flat(boss.at)
            squares.append(area.of_shape(BoxShape((x - half, y - half), (x + half, y + half))))
    return area.union(squares)


def metal_above(bench: Bench, removed: Removed, z: float) -> Region:
    """Return where metal still stands higher than ``z`` (what was taken from the side is not counted)."""
    region = flat_box(bench.stock)
    top = bench.stock.high[2]
    for footprint, low, high in _columns(bench, removed):
        if low <= z + 1e-6 and high >= top - 1e-6:
            region = area.without(region, footprint)
    return region


def top_over(bench: Bench, removed: Removed, region: Region) -> float:
    """Return the greatest height of metal over a region; beside the stock there is none."""
    top = bench.stock.high[2]
    region = area.common(region, flat_box(bench.stock))
    lows = [low for print_, low, high in _columns(bench, removed) if high >= top - 1e-6 and area.covers(print_, region)]
    return min([top, *lows])


def surface_at(bench: Bench, removed: Removed, at: Point2) -> float | None:
    """Return the height of metal over a point now, seen from above; None where there is none."""
    spans = metal_at(bench, removed, at)
    return spans[-1][1] if spans else None


def metal_at(bench: Bench, removed: Removed, at: Point2) -> tuple[tuple[float, float], ...]:
    """Return the intervals of metal over a point now, rising, in setup Z."""
    point = bench.laid.to_part((at[0], at[1], 0.0))
    u, v = bench.up.in_plane
    spans = column.metal(bench.part.stock.box, removed, bench.up.axis, (point[u], point[v]))
    return _in_setup(bench, spans)


def _columns(bench: Bench, removed: Removed) -> list[tuple[Region, float, float]]:
    """Return the prisms that run along Z, as footprint and heights in the setup frame."""
    found = []
    for primitive in removed:
        if isinstance(primitive, Prism) and primitive.axis == bench.up.axis:
            low, high = sorted((bench.z(primitive.low), bench.z(primitive.high)))
            region = area.of_loop(primitive.outer, primitive.islands)
            found.append((area.carried(region, bench.laid.flat), low, high))
    return found


def open_holes(bench: Bench, removed: Removed, low: float, high: float) -> tuple[tuple[Point2, float], ...]:
    """Return the middle and radius of each hole along Z that is open from ``high`` down to ``low``, in setup X, Y."""
    found = []
    for shape in removed:
        if isinstance(shape, Cone) and shape.axis == bench.up.axis and shape.radius_low == shape.radius_high:
            ends = sorted((bench.z(shape.low), bench.z(shape.high)))
            if ends[0] <= low + 1e-6 and ends[1] >= high - 1e-6:
                found.append((bench.laid.flat(shape.centre), shape.radius_low))
    return tuple(found)


def finished_at(bench: Bench, at: Point2) -> tuple[tuple[float, float], ...]:
    """Return the intervals of metal over a point in the finished part, rising, in setup Z."""
    point = bench.laid.to_part((at[0], at[1], 0.0))
    u, v = bench.up.in_plane
    spans = column.metal(bench.part.box, bench.finished, bench.up.axis, (point[u], point[v]))
    return _in_setup(bench, spans)


def _in_setup(bench: Bench, spans: tuple[tuple[float, float], ...]) -> tuple[tuple[float, float], ...]:
    ends = [sorted((bench.z(low), bench.z(high))) for low, high in spans]
    return tuple(sorted((low, high) for low, high in ends))
