"""Where each new cutter finds Z again: every change of cutter loses it on a manual mill.

The place lies on a surface that exists then and that nothing in this setup cuts afterwards, as far as can be
from edges and holes, so that the same place serves every cutter of the setup.
"""

from __future__ import annotations

from dataclasses import dataclass

from setupsheet.part.feature import Hole, Level, Pocket, RingGroove, Slot
from setupsheet.part.shape import CircleShape
from setupsheet.plan.bench import Bench, Removed, bosses, flat_box, metal_at, opening, surface_at
from setupsheet.plan.milling import area
from setupsheet.plan.milling.area import Region
from setupsheet.plan.record import TouchOff
from setupsheet.plan.setup.zero import feeler_for
from setupsheet.plane import Point2

CLEAR_MM = 1.5
"""Least distance of the place from an edge or hole. Common practice, no source."""

_GRID = 24
_COARSE = 9


@dataclass(frozen=True, slots=True)
class Places:
    """Where cutters may find Z in one setup, best first: on the lasting top, and on the stock as it comes."""

    lasting: tuple[Point2, ...]
    raw: tuple[Point2, ...]


def places(bench: Bench) -> Places:
    """Return the places of a setup; they do not change while it is worked on."""
    return Places(_ranked(bench, lasting_top(bench), _GRID), _ranked(bench, flat_box(bench.stock), _COARSE))


def touch_off(bench: Bench, removed: Removed, known: Places) -> TouchOff | None:
    """Return where a cutter finds Z with the metal that is there now; None where nothing is fit for it."""
    top = bench.envelope.high[2]
    best = _standing(bench, removed, known.lasting, top)
    name = f"the finished {bench.up.value}"
    if best is None:
        top = _highest(bench, removed)
        best = _standing(bench, removed, known.raw, top)
        name = f"the {'raw ' if top > bench.envelope.high[2] + 1e-6 else ''}{bench.up.value}"
    if best is None:
        return None
    x, y = best
    z, feeler = bench.settle("z", top), feeler_for(bench)
    reading = bench.settle("z", top + feeler)
    shown = {"x": bench.shown("x", x), "y": bench.shown("y", y), "z": bench.shown("z", reading)}
    shown["feeler"] = bench.scales["z"].plain(feeler).lstrip("+")
    return TouchOff(x, y, z, feeler, f"Z {shown['z']}", name, shown)


def lasting_top(bench: Bench) -> Region:
    """Return the part of the finished top that no feature opens."""
    region = flat_box(bench.envelope)
    top = bench.envelope.high[2]
    for feature in bench.part.features:
        if isinstance(feature, Level | Pocket | Slot | RingGroove) and feature.face.axis == bench.up.axis:
            through = not isinstance(feature, Level) and feature.floor is None
            if feature.face is bench.up or through:
                region = area.without(region, opening(bench, feature))
    rounds = [b for b in bosses(bench) if bench.z(b.top.nominal_mm) >= top - 1e-6]
    circles = [CircleShape(b.at, b.diameter.nominal_mm - 0.5) for b in rounds]
    region = area.union([region, *(area.of_shape(bench.laid.shape(c)) for c in circles)])
    return area.without(region, _holes(bench))


def _holes(bench: Bench) -> Region:
    circles: list[tuple[Point2, float]] = []
    for feature in bench.part.features:
        if isinstance(feature, Hole) and feature.face.axis == bench.up.axis:
            widest = [feature.diameter.upper_mm, *(c.diameter_mm for c in feature.chamfers)]
            widest += [s.diameter.upper_mm for s in (feature.counterbore, feature.countersink) if s]
            circles += [(bench.laid.flat(spot.at), max(widest) / 2) for spot in feature.spots]
    return area.discs(circles)


def _highest(bench: Bench, removed: Removed) -> float:
    heights = [surface_at(bench, removed, point) for point in _grid(bench, _COARSE)]
    return max((h for h in heights if h is not None), default=bench.stock.high[2])


def _ranked(bench: Bench, region: Region, count: int) -> tuple[Point2, ...]:
    """Return the places in a region that are clear of its edges, farthest from them first."""
    if area.is_empty(region):
        return ()
    clear = [(area.distance_to_edge(region, point), point) for point in _grid(bench, count)]
    fit = sorted((c for c in clear if c[0] >= CLEAR_MM), key=lambda c: (-round(c[0], 1), c[1][1], c[1][0]))
    return tuple((bench.settle("x", x), bench.settle("y", y)) for _, (x, y) in fit)


def _standing(bench: Bench, removed: Removed, ranked: tuple[Point2, ...], top: float) -> Point2 | None:
    """Return the first place where metal ends at ``top`` now."""
    for at in ranked:
        spans = metal_at(bench, removed, at)
        if spans and abs(spans[-1][1] - top) < 1e-6:
            return at
    return None


def _grid(bench: Bench, count: int) -> list[Point2]:
    """Return places over the part in whole millimetres (or twentieths of an inch) of the zero."""
    step = 1.0 if bench.scales["x"].axis.unit == "mm" else 1.27
    (x0, y0), (x1, y1) = bench.envelope.low[:2], bench.envelope.high[:2]
    xs = sorted({round((x0 + (x1 - x0) * (i + 0.5) / count) / step) * step for i in range(count)})
    ys = sorted({round((y0 + (y1 - y0) * (i + 0.5) / count) / step) * step for i in range(count)})
    return [(x, y) for y in ys for x in xs]
