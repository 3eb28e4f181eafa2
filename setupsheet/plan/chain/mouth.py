"""The cutters that work at a hole's mouth: spot drill, countersink, chamfer, counterbore, spotface."""

from __future__ import annotations

from typing import TYPE_CHECKING

from setupsheet.length import Unit
from setupsheet.part.cutter import Cutter
from setupsheet.plan.chain.record import ChainStep, HoleNeed
from setupsheet.plan.chain.way import owned, practice_mm, to_buy
from setupsheet.plan.chain.words import shown
from setupsheet.tables import loader

if TYPE_CHECKING:
    from setupsheet.part.mouth import Counterbore, HoleChamfer
    from setupsheet.part.shop import Shop

_NOISE_MM = 1e-6
_PRACTICE = "common practice, no source"


def spot(first_mm: float, need: HoleNeed, shop: Shop | None) -> ChainStep:
    """Return the spotting step; ``first_mm`` is the drill that follows.

    The mark is no wider than the hole plus its chamfer at the end that is drilled from, so that
    nothing of it is left; where the spot drill's angle is the chamfer's, it makes the chamfer too.
    """
    chamfer = _started_chamfer(need)
    wanted = chamfer.diameter_mm if chamfer else first_mm
    cutter = _spot_drill(wanted, need, shop)
    tip = cutter.diameter_mm
    made = min(tip, wanted)
    words = ("The spot makes the chamfer.",) if chamfer and spotted(chamfer, cutter) else ()
    return ChainStep("spot", cutter, made, "to diameter", end=need.started_from, words=words, source=_PRACTICE)


def _started_chamfer(need: HoleNeed) -> HoleChamfer | None:
    return next((chamfer for chamfer in need.chamfers if chamfer.end == need.started_from), None)


def spotted(chamfer: HoleChamfer, cutter: Cutter) -> bool:
    """Tell whether a spot drill is wide enough for a chamfer and has its angle."""
    same = abs(cutter.point_angle_deg - chamfer.angle_deg) < 0.5
    return same and cutter.diameter_mm >= chamfer.diameter_mm - _NOISE_MM


def _spot_drill(wanted: float, need: HoleNeed, shop: Shop | None) -> Cutter:
    """Return the thinnest owned spot drill that is wide enough, else the widest, else a centre drill."""
    for kind in ("spot drill", "centre drill"):
        own = owned(shop, kind)
        if own:
            wide = [cutter for cutter in own if cutter.diameter_mm >= wanted - _NOISE_MM]
            return wide[0] if wide else own[-1]
    return _pointed("spot drill", min(wanted, practice_mm("spot drill to buy up to")), 90.0, need)


def _pointed(kind: str, wanted: float, angle: float, need: HoleNeed) -> Cutter:
    """Return the standard pointed cutter that is wide enough, thinnest first; the widest if none is."""
    series = "metric" if need.unit is Unit.MM else "inch"
    rows = [row for row in loader.rows("pointed_cutters") if row["kind"] == kind]
    fitting = [row for row in rows if float(row["angle_deg"]) == angle] or rows
    rows = [row for row in fitting if row["series"] == series] or fitting
    rows = sorted(rows, key=lambda row: float(row["diameter_mm"]))
    row = next((row for row in rows if float(row["diameter_mm"]) >= wanted - _NOISE_MM), rows[-1])
    label = f"{kind} {row['name']} x {row['angle_deg']}"
    return Cutter(kind, label, float(row["diameter_mm"]), owned=False, point_angle_deg=float(row["angle_deg"]))


def sinks(hole_mm: float, first: ChainStep, need: HoleNeed, shop: Shop | None) -> list[ChainStep]:
    """Return the countersink and the chamfers that the spot has not made; ``hole_mm`` is the drilled hole."""
    steps = []
    if need.countersink:
        sink = need.countersink
        words = (f"Countersink {sink.written}: try with the screw.",) if sink.screw else ()
        mouth = sink.diameter.nominal_mm
        cutter = _sink_cutter(mouth, sink.angle_deg, hole_mm, need, shop)
        steps.append(
            ChainStep(
                "countersink", cutter, mouth, "to diameter", end=sink.end, words=words, source=sink.diameter.source
            )
        )
    for chamfer in need.chamfers:
        if chamfer.end == need.started_from and spotted(chamfer, first.cutter):
            continue
        cutter = _sink_cutter(chamfer.diameter_mm, chamfer.angle_deg, hole_mm, need, shop)
        steps.append(
            ChainStep("chamfer", cutter, chamfer.diameter_mm, "to diameter", end=chamfer.end, source=_PRACTICE)
        )
    return steps


def _sink_cutter(mouth: float, angle: float, hole_mm: float, need: HoleNeed, shop: Shop | None) -> Cutter:
    """Return an owned countersink (else spot drill) of this angle that reaches the mouth, else one to buy."""
    for kind in ("countersink", "spot drill"):
        for cutter in owned(shop, kind):
            wide = cutter.diameter_mm >= mouth - _NOISE_MM
            if wide and abs(cutter.point_angle_deg - angle) < 0.5 and cutter.tip_mm <= hole_mm:
                return cutter
    return _pointed("countersink", mouth, angle, need)


def counterbores(hole_mm: float, need: HoleNeed, shop: Shop | None) -> list[ChainStep]:
    """Return the counterbore or spotface step, empty if the hole has none."""
    if need.counterbore is None:
        return []
    bore = need.counterbore
    size = bore.diameter
    cutter = _flat_cutter(bore, hole_mm, need, shop)
    words = [_depth_words(bore, need)] if bore.depth_mm > 0 else []
    if cutter.kind == "end mill":
        words.append("End mill of the same size: table locked, feed by the quill.")
    if cutter.kind == "boring head":
        words.append("No counterbore of this size: bore it, flat at the bottom.")
    operation = "spotface" if bore.spotface else "counterbore"
    made = cutter.diameter_mm if cutter.kind != "boring head" else size.nominal_mm
    return [ChainStep(operation, cutter, made, "fixed", bore.depth_mm, words=tuple(words), source=size.source)]


def _depth_words(bore: Counterbore, need: HoleNeed) -> str:
    return f"Depth {shown(bore.depth_mm, need.unit)} below the mouth."


def _flat_cutter(bore: Counterbore, hole_mm: float, need: HoleNeed, shop: Shop | None) -> Cutter:
    """Return an owned counterbore, an end mill of the size, a standard counterbore, or the boring head."""
    for kind in ("counterbore", "end mill"):
        fitting = [cutter for cutter in owned(shop, kind) if _makes(cutter, bore, hole_mm)]
        if fitting:
            near = bore.diameter.nominal_mm
            return min(fitting, key=lambda cutter: (round(abs(cutter.diameter_mm - near), 6), cutter.label))
    for row in loader.rows("counterbores"):
        size = float(row["diameter_mm"])
        if abs(size - bore.diameter.nominal_mm) < 1e-3:
            return to_buy("counterbore", f"counterbore {shown(size, need.unit)}", size)
    head = shop.boring_head if shop else None
    near = bore.diameter.nominal_mm
    if head and head.min_bore_mm <= near <= head.max_bore_mm:
        return Cutter("boring head", head.label, near)
    if near >= practice_mm("boring head from"):
        return to_buy("boring head", "boring head", near)
    return to_buy("counterbore", *_nearest_counterbore(near, need))


def _nearest_counterbore(near: float, need: HoleNeed) -> tuple[str, float]:
    sizes = sorted({float(row["diameter_mm"]) for row in loader.rows("counterbores")})
    size = min(sizes, key=lambda one: (abs(one - near), one))
    return f"counterbore {shown(size, need.unit)}", size


def _makes(cutter: Cutter, bore: Counterbore, hole_mm: float) -> bool:
    """Tell whether a cutter lies inside the counterbore's limits, is flat, and its pilot enters the hole."""
    size = bore.diameter
    inside = min(size.lower_mm, size.nominal_mm) - _NOISE_MM <= cutter.diameter_mm <= size.upper_mm + _NOISE_MM
    return inside and cutter.corner_radius_mm == 0.0 and cutter.pilot_mm <= hole_mm + _NOISE_MM
