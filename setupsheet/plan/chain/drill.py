"""What is drilled before the finishing cutter: the pilot, the drill, the step before reamer or boring head."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from setupsheet.length import Unit
from setupsheet.part.cutter import Cutter
from setupsheet.plan.chain.record import ChainStep, HoleNeed, Way
from setupsheet.plan.chain.way import owned, practice_factor, practice_mm, standard_drills
from setupsheet.plan.chain.words import shown
from setupsheet.tables import loader, reaming

if TYPE_CHECKING:
    from setupsheet.part.shop import Shop

_NOISE_MM = 1e-6

ONE_PLACE = "Spot, drill and ream in one spindle position."
"""What is said of a located hole where no step says it already."""


def opening(way: Way, need: HoleNeed, shop: Shop | None) -> list[ChainStep]:
    """Return the steps that open the hole up to and with the finishing drill, bore or reamer."""
    if way.operation == "drill":
        return drilled(way.cutter, need, shop, (way.source, way.status))
    if way.operation == "bore":
        before = _before_boring(way.diameter_mm, need, shop)
        return [*before, _bore_step(way, before[-1].diameter_mm, need)]
    return [*_before_reaming(way, need, shop), _ream_step(way, need)]


def drilled(cutter: Cutter, need: HoleNeed, shop: Shop | None, print_: tuple[str, str] = ("", "")) -> list[ChainStep]:
    """Return the step of a drill, with a pilot before it where it is a thick one."""
    step = ChainStep("drill", cutter, cutter.diameter_mm, "drill depth", source=print_[0], status=print_[1])
    pilot = _pilot(cutter.diameter_mm, need, shop)
    return [pilot, step] if pilot else [step]


def _pilot(diameter_mm: float, need: HoleNeed, shop: Shop | None) -> ChainStep | None:
    if diameter_mm <= practice_mm("pilot for drills over"):
        return None
    least, most = (practice_factor(item) * diameter_mm for item in ("pilot least share", "pilot most share"))
    round_mm = 0.5 if need.unit is Unit.MM else float(need.unit.mm) / 32.0
    aim = round(practice_factor("pilot share") * diameter_mm / round_mm) * round_mm
    cutter = _pick_drill(least, most, aim, need, shop)
    return ChainStep(
        "pilot", cutter, cutter.diameter_mm, "drill depth", source=_practice_source(), status="common practice"
    )


def _practice_source() -> str:
    return loader.rows("hole_practice")[0]["source"]


def _pick_drill(least: float, most: float, aim: float, need: HoleNeed, shop: Shop | None) -> Cutter:
    """Return the owned drill between two sizes that is nearest to ``aim``, else the standard one to buy."""
    own = [cutter for cutter in owned(shop, "drill") if _between(cutter, least, most)]
    sold = standard_drills(least, most)
    metric = need.unit is Unit.MM
    sold = [cutter for cutter in sold if ("mm" in cutter.label) == metric] or sold
    choice = own or [cutter for cutter in sold if _handy(cutter, aim)] or sold
    choice = choice or standard_drills(0.0, math.inf)[-1:]
    return min(choice, key=lambda cutter: (round(abs(cutter.diameter_mm - aim), 6), cutter.diameter_mm, cutter.label))


def _handy(cutter: Cutter, aim: float) -> bool:
    """Tell whether a drill to get is a fraction or a half millimetre within half a millimetre of ``aim``."""
    common = "/" in cutter.label or ("mm" in cutter.label and cutter.diameter_mm % 0.5 == 0.0)
    return common and abs(cutter.diameter_mm - aim) <= 0.5


def _between(cutter: Cutter, least: float, most: float) -> bool:
    return least - _NOISE_MM <= cutter.diameter_mm <= most + _NOISE_MM


def _bore_step(way: Way, drilled_mm: float, need: HoleNeed) -> ChainStep:
    words = ["Bore in light cuts and measure between them; stop inside the limits."]
    if way.diameter_mm - drilled_mm > practice_mm("bore stock most") + _NOISE_MM:
        words.insert(0, f"Rough it out from {shown(drilled_mm, need.unit)} first, with the head or an end mill.")
    return ChainStep(
        "bore", way.cutter, way.diameter_mm, "full depth", words=tuple(words), source=way.source, status=way.status
    )


def _before_boring(size: float, need: HoleNeed, shop: Shop | None) -> list[ChainStep]:
    """Return the drill that leaves a boring head something to cut, and its pilot."""
    least, most = size - practice_mm("bore stock most"), size - practice_mm("bore stock least")
    head = shop.boring_head if shop else None
    entering = [cutter for cutter in owned(shop, "drill") if head and head.min_bore_mm <= cutter.diameter_mm <= most]
    if entering and entering[-1].diameter_mm < least:
        return drilled(entering[-1], need, shop, (_practice_source(), "common practice"))
    cutter = _pick_drill(max(least, 0.0), most, size - practice_mm("bore stock"), need, shop)
    return drilled(cutter, need, shop, (_practice_source(), "common practice"))


def _ream_step(way: Way, need: HoleNeed) -> ChainStep:
    words = ["Ream at once after drilling, never turn the reamer back."]
    if "UNVERIFIED" in way.status:
        words.append("What this reamer cuts is not known for sure: measure it or ream a trial hole.")
    if need.located:
        words.append(ONE_PLACE)
    if not need.through:
        words.append("Blind: drill deeper than the reamed depth, by the reamer's lead.")
    return ChainStep(
        "ream", way.cutter, way.diameter_mm, "full depth", words=tuple(words), source=way.source, status=way.status
    )


def _before_reaming(way: Way, need: HoleNeed, shop: Shop | None) -> list[ChainStep]:
    """Return the steps that leave what the reamer wants.

    First an owned drill inside the table's allowance, then one that the reamer just bears, then the
    boring head; else the drill to get is named. A drill that leaves more or less is never used.
    """
    size = way.diameter_mm
    stock = reaming.stock(size, need.material_group)
    aim = (stock.least_mm + stock.most_mm) / 2.0
    for most in (stock.most_mm, stock.limit_mm):
        own = [cutter for cutter in owned(shop, "drill") if _between(cutter, size - most, size - stock.least_mm)]
        if own:
            best = min(own, key=lambda cutter: (round(abs(size - cutter.diameter_mm - aim), 6), cutter.diameter_mm))
            return _core(best, size, stock, need, shop)
    head = shop.boring_head if shop else None
    if head and head.min_bore_mm <= size - aim <= head.max_bore_mm and (need.depth_mm or 0.0) <= head.reach_mm:
        return _bored_first(Cutter("boring head", head.label, size - aim), stock, need, shop)
    bought = _reaming_drill(size, stock, need)
    if bought is None:
        return _bored_first(Cutter("boring head", "boring head", size - aim, owned=False), stock, need, shop)
    return _core(bought, size, stock, need, shop)


def _reaming_drill(size: float, stock: reaming.Stock, need: HoleNeed) -> Cutter | None:
    """Return the standard drill to get before a reamer; in inches a fraction that leaves up to the limit."""
    aim = size - (stock.least_mm + stock.most_mm) / 2.0
    most = stock.limit_mm if need.unit is Unit.INCH else stock.most_mm
    sold = standard_drills(size - most, size - stock.least_mm)
    wanted = [cutter for cutter in sold if ("mm" if need.unit is Unit.MM else "/") in cutter.label] or sold
    return min(wanted, key=lambda cutter: (round(abs(cutter.diameter_mm - aim), 6), cutter.diameter_mm), default=None)


def _core(cutter: Cutter, size: float, stock: reaming.Stock, need: HoleNeed, shop: Shop | None) -> list[ChainStep]:
    leaves = shown(size - cutter.diameter_mm, need.unit)
    table = f"{shown(stock.least_mm, need.unit)} to {shown(stock.most_mm, need.unit)}"
    words = [f"Leaves {leaves} on diameter for the reamer (table {table})."]
    if size - cutter.diameter_mm > stock.most_mm + _NOISE_MM:
        words.append("That is the most it bears: feed gently, clear the chips.")
    if shop is not None and not cutter.owned:
        words.append("No drill here leaves the right amount: get this one.")
    steps = drilled(cutter, need, shop, (stock.source, stock.status))
    return [*steps[:-1], steps[-1]._replace(words=tuple(words))]


def _bored_first(cutter: Cutter, stock: reaming.Stock, need: HoleNeed, shop: Shop | None) -> list[ChainStep]:
    table = f"{shown(stock.least_mm, need.unit)} to {shown(stock.most_mm, need.unit)}"
    size = cutter.diameter_mm
    words = (f"Bore to {shown(size, need.unit)}: the reamer wants {table} on diameter.",)
    step = ChainStep("bore", cutter, size, "full depth", words=words, source=stock.source, status=stock.status)
    return [*_before_boring(size, need, shop), step]
