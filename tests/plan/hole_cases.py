"""Needs and shops for the tests of the chain of cutters; plain builders, no tests here."""

from __future__ import annotations

from setupsheet.finding import Place
from setupsheet.length import Unit
from setupsheet.part.feature import Counterbore, Countersink, HoleChamfer, Size
from setupsheet.part.shop import BoringHead, Cutter, Shop
from setupsheet.plan.chain.look_up import size_of
from setupsheet.plan.chain.record import HoleNeed
from setupsheet.tables.callout import parse

PLACE = Place("shop.yaml", 1, 1)
MAKING = {"thread": "tap", "fit": "fit", "clearance": "clearance", "drill": "plain", "plain": "plain"}

HEAD = BoringHead("boring head", 10.0, 40.0, 10.0, 60.0, 40.0, "diameter", 0.02, True, 400)


def shop(*cutters: Cutter, head: BoringHead | None = None) -> Shop:
    """Return a shop that owns these cutters and nothing else."""
    return Shop("shop", (), (), (), cutters, head, 10.0, 0.1, (), "0" * 64)


def drill(diameter_mm: float) -> Cutter:
    """Return an owned drill."""
    return Cutter("drill", f"drill {diameter_mm:g}", diameter_mm)


def drills(first: int, last: int) -> tuple[Cutter, ...]:
    """Return owned drills by tenths of a millimetre, ``first`` to ``last`` in tenths."""
    return tuple(drill(tenth / 10.0) for tenth in range(first, last + 1))


def reamer(diameter_mm: float, fit: str = "H7", measured_mm: float | None = None) -> Cutter:
    """Return an owned reamer."""
    return Cutter("reamer", f"reamer {diameter_mm:g} {fit}".strip(), diameter_mm, fit=fit, measured_mm=measured_mm)


def spot_drill(diameter_mm: float) -> Cutter:
    """Return an owned spot drill of 90 degrees."""
    return Cutter("spot drill", f"spot drill {diameter_mm:g} x 90", diameter_mm, point_angle_deg=90.0)


def countersink(diameter_mm: float, angle_deg: float = 90.0) -> Cutter:
    """Return an owned countersink with a tip of 1 mm."""
    label = f"countersink {diameter_mm:g} x {angle_deg:g}"
    return Cutter("countersink", label, diameter_mm, point_angle_deg=angle_deg, tip_mm=1.0)


def tap(thread: str, kind: str = "") -> Cutter:
    """Return an owned tap."""
    return Cutter("tap", f"tap {thread} {kind}".strip(), 1.0, thread=thread, tap_kind=kind)


def chamfer(diameter_mm: float, end: str = "mouth") -> HoleChamfer:
    """Return a 90 degree chamfer up to a diameter."""
    return HoleChamfer(diameter_mm, 90.0, end, f"to {diameter_mm:g}")


def exact(size_mm: float, plus_minus: float = 0.2) -> Size:
    """Return a size with the same limit on both sides."""
    return Size(size_mm, size_mm - plus_minus, size_mm + plus_minus, f"{size_mm:g}", "limits")


def counterbore(diameter_mm: float, depth_mm: float) -> Counterbore:
    """Return a counterbore for a screw's head."""
    return Counterbore(exact(diameter_mm), depth_mm, f"{diameter_mm:g} x {depth_mm:g}")


def sink(diameter_mm: float, angle_deg: float = 90.0) -> Countersink:
    """Return a countersink at the mouth."""
    return Countersink(exact(diameter_mm), angle_deg, f"{diameter_mm:g} x {angle_deg:g}")


def need(text: str, unit: Unit = Unit.MM, group: str = "mild steel", depth_mm: float | None = None) -> HoleNeed:
    """Return what a callout needs: through, or blind where a depth is given."""
    read = parse(text, unit)
    return HoleNeed(
        MAKING[read.kind],
        size_of(read),
        thread=read.thread,
        through=depth_mm is None,
        depth_mm=depth_mm,
        material_group=group,
        unit=unit,
    )
