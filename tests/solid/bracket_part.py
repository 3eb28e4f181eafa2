"""The worm bracket of specs/worm-bracket.yaml as records, for tests of the solid alone."""

from __future__ import annotations

from setupsheet.part.face import Face
from setupsheet.part.feature import (
    CornerRadius,
    Countersink,
    EdgeCut,
    Hole,
    HoleChamfer,
    Keep,
    Level,
    RoundBoss,
    Size,
    Spot,
)
from setupsheet.part.part import Part
from setupsheet.part.shape import BoxShape, CircleShape
from setupsheet.plane import Point2, polar
from tests.parts import HERE, block, size

BORE = (34.0, 29.0)
_PAD = BoxShape((62.0, 0.0), (80.0, 62.0))
_RELIEF = BoxShape((24.0, 0.0), (60.0, 62.0))


def bracket() -> Part:
    """Return the bracket: boss, levels, outline, bore, ring of screws, tapped holes, countersink, relief."""
    return block(*_levels(), *_outline(), *_holes(), high=(80.0, 62.0, 15.0))


def _levels() -> tuple[RoundBoss, Level, Level, Level]:
    return (
        RoundBoss("boss", HERE, Face.TOP, BORE, size(24, 23.85, 23.95), size(15)),
        Level("flange-level", HERE, Face.TOP, None, size(6), (Keep(CircleShape(BORE, 24.0), "boss"), Keep(_PAD))),
        Level("pad-level", HERE, Face.TOP, _PAD, size(8)),
        Level("relief", HERE, Face.BOTTOM, _RELIEF, size(1.5)),
    )


def _outline() -> tuple[EdgeCut, CornerRadius, EdgeCut]:
    half = 0.5**0.5
    return (
        EdgeCut("slant", HERE, Face.TOP, ((68.0, 62.0), (80.0, 50.0)), (half, half), None, None),
        CornerRadius("round-corner", HERE, Face.TOP, (70.0, 10.0), size(10), (1, -1), "front right"),
        EdgeCut("left-end", HERE, Face.TOP, ((0.0, 0.0), (0.0, 62.0)), (-1.0, 0.0), Face.LEFT, None),
    )


def _holes() -> tuple[Hole, ...]:
    screw, pivot, thread = size(4.5, 4.5, 4.68), size(6.6, 6.6, 6.82), size(4.134, 4.134, 4.334)
    ring = [polar(BORE, 21.0, 15 + 60 * i) for i in range(6)]
    return (
        _hole("bearing-bore", size(12, 12.0, 12.018), [(BORE, 15.0)], _chamfers(13.0)),
        _hole("cover-screws", screw, [(at, 6.0) for at in ring]),
        _hole("pivot-hole", pivot, [((70.0, 10.0), 8.0)]),
        _hole("motor-screws", thread, [((71.0, 26.0), 8.0), ((71.0, 42.0), 8.0)], _chamfers(5.5)),
        _hole("cable-clip", screw, [((8.0, 54.0), 6.0)], (), Countersink(size(9, 8.8, 9.2), 90.0, "for M4")),
    )


def _chamfers(diameter: float) -> tuple[HoleChamfer, ...]:
    return tuple(HoleChamfer(diameter, 90.0, end, "both ends") for end in ("mouth", "exit"))


def _hole(
    id_: str,
    diameter: Size,
    places: list[tuple[Point2, float]],
    chamfers: tuple[HoleChamfer, ...] = (),
    countersink: Countersink | None = None,
) -> Hole:
    spots = tuple(
        Spot(f"{id_}{i}", at, mouth, 1.5 if _RELIEF.low[0] < at[0] < _RELIEF.high[0] else 0.0)
        for i, (at, mouth) in enumerate(places)
    )
    return Hole(
        id_, HERE, Face.TOP, "plain", diameter, diameter.written, spots, countersink=countersink, chamfers=chamfers
    )
