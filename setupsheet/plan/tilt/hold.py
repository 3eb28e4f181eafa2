"""What holds a part at an angle: the jaws of the vise, or clamps against an angle plate; how high they stand.

The part stands with one corner down. The bar lies under it on the bed or on the table, raised by parallels or packing
until jaws or plate stay below the lowest cut.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from setupsheet.finding import Finding, caution, error
from setupsheet.part.shop import Shop
from setupsheet.plan.milling import area
from setupsheet.plan.record import Body, Hold
from setupsheet.plan.setup.hold import JAW_THICKNESS_MM, LEAST_GRIP_MM
from setupsheet.plan.sizes import length
from setupsheet.plan.tilt.lie import Lie
from setupsheet.plan.tilt.section import over
from setupsheet.plan.tilt.setting import How

CLEAR_MM = 2.0
"""How far jaws, plate and clamps stay below the lowest cut. Common practice, no source."""

LEAST_SHARE = 0.25
"""Least part of the outline that has to lie between the jaws. Common practice, no source."""

PLATE_MM = 75.0
"""Height of an angle plate that has to be borrowed. Common practice, no source."""

BAR_WIDE_MM = 25.0
"""Width of a sine bar: a thinner part cannot be gripped while the bar lies under it. Common practice, no source."""

CLAMPS_MM = 6.0
"""How far clamps reach up on the part at least, over its low corner. Common practice, no source."""

_WIDE_MM = 60.0
_JAW_MM = 40.0


@dataclass(frozen=True, slots=True)
class Stand:
    """Where things stand: the bed or table, the tops of jaws or plate, what lies under the bar and how high it is."""

    plate: bool
    bed: float
    top: float
    under: str
    owned: bool
    back_fixed: bool = True
    front: float = 0.0
    """Top of what stands in front of the part: the jaw, or the clamps, which stay below a pin."""


def stand_of(lie: Lie, shop: Shop, how: How, below: float) -> tuple[Stand, list[Finding]]:
    """Return where bed and jaw tops are, so that they clear the lowest cut and hold as much as they can.

    Clamps stay ``below`` a height as well, that of a pin.
    """
    plate = bool(lie.asked.hold and lie.asked.hold.in_ == "angle plate")
    vise = shop.vises[0] if shop.vises else None
    high = (shop.angle.plate_mm or PLATE_MM) if plate else (vise.jaw_height_mm if vise else _JAW_MM)
    reach = high - how.seat_mm
    lift = max(0.0, lie.low + reach - (lie.floor - CLEAR_MM))
    wanted = lie.asked.hold.grip_mm if lie.asked.hold else None
    lift = max(lift, reach - wanted) if wanted else lift
    lift, under = _lifted(lie, shop, lift)
    top = lie.low + reach - lift
    owned = not plate or shop.angle.plate_mm > 0
    front = max(min(top, below - CLEAR_MM), lie.low + CLAMPS_MM) if plate else top
    stand = Stand(plate, top - high, top, under, owned, vise is None or vise.fixed == "back", front)
    return stand, [*_bar_in_jaws(lie, stand, how), *_faults(lie, stand, wanted)]


def _lifted(lie: Lie, shop: Shop, lift: float) -> tuple[float, str]:
    """Return how far the bar is raised and on what: parallels that the shop has, else packing."""
    if lift < 1e-6:
        return 0.0, ""
    enough = sorted((p for p in shop.parallels if p.height_mm >= lift - 1e-6), key=lambda p: p.height_mm)
    step = float(lie.part.unit.mm) / (16 if lie.part.unit.value == "inch" else 1)
    packing = math.ceil(lift / step - 1e-6) * step
    if enough and enough[0].height_mm <= packing + 4.0:
        high = enough[0].height_mm
        return high, f"parallels {length(high, lie.part.unit)} high"
    return packing, f"packing {length(packing, lie.part.unit)} high"


def _bar_in_jaws(lie: Lie, stand: Stand, how: How) -> list[Finding]:
    """Tell of a part that is thinner than the bar under it: the jaws would close on the bar."""
    thick = lie.y[1] - lie.y[0]
    if stand.plate or not how.seat_mm or thick >= BAR_WIDE_MM:
        return []
    unit = lie.part.unit
    return [
        error(
            "bar-wider-than-part",
            f"the part is {length(thick, unit)} thick: the jaws close on the sine bar under it, not on the part",
            lie.asked.hold.place if lie.asked.hold else lie.asked.place,
            found=length(thick, unit),
            allowed=f"{length(BAR_WIDE_MM, unit)} and more between the jaws",
            try_="hold: {in: angle plate}: there the bar stands free on the table",
        )
    ]


def _faults(lie: Lie, stand: Stand, wanted: float | None) -> list[Finding]:
    grip = stand.top - lie.low
    place = lie.asked.hold.place if lie.asked.hold else lie.asked.place
    if grip < LEAST_GRIP_MM:
        return [
            error(
                "grip-too-low-at-angle",
                f"only {length(max(grip, 0.0), lie.part.unit)} of the low corner is held: the bar fills the jaws",
                place,
                found=length(max(grip, 0.0), lie.part.unit),
                allowed=f"{length(LEAST_GRIP_MM, lie.part.unit)} and more, all below the cut",
                try_="hold: {in: angle plate}, or stand the part up another way",
            )
        ]
    share = area.size(over(lie.metal, -1e4, stand.top)) / area.size(lie.metal)
    if share >= LEAST_SHARE or wanted is not None:
        return []
    return [
        caution(
            "held-by-a-corner",
            f"only {share:.0%} of the part's side lies between {'clamps and plate' if stand.plate else 'the jaws'}",
            place,
            found=f"{share:.0%}",
            allowed=f"{LEAST_SHARE:.0%} and more",
            try_="light cuts; or hold it at an angle plate that stands higher beside the cut",
        )
    ]


def hold_of(lie: Lie, stand: Stand, shop: Shop, how: How) -> Hold:
    """Return the hold as the plan carries it."""
    unit = lie.part.unit
    sizes = {
        "grip": stand.top - lie.low,
        "proud_before": lie.top - stand.top,
        "proud_after": lie.top_after - stand.top,
    }
    return Hold(
        "angle plate" if stand.plate else "vise",
        _words(stand, how),
        sizes["grip"],
        sizes["proud_before"],
        sizes["proud_after"],
        stand.top,
        how.device,
        _bodies(lie, stand, shop),
        {name: length(value, unit) for name, value in sizes.items()},
    )


def _words(stand: Stand, how: How) -> tuple[str, ...]:
    on = f"on {stand.under}" if stand.under else ""
    below = "the table" if stand.plate else "the vise's bed"
    rest = f"{how.device} {on or 'on ' + below}" if how.seat_mm else f"its low corner {on or 'on ' + below}"
    if stand.plate:
        return (
            f"{rest}, beside the plate" if how.seat_mm else rest,
            "the plate's face square to the table and parallel to X by the indicator"
            + ("" if stand.owned else "; an angle plate is to buy or borrow"),
            "clamp the part flat against the plate, two clamps low down, clear of the cut; a stop under the low corner",
        )
    return (
        f"{rest}, between the jaws",
        "close the jaws on the part alone: they must not touch the bar"
        if how.seat_mm
        else "close the jaws on the part",
    )


def _bodies(lie: Lie, stand: Stand, shop: Shop) -> tuple[Body, ...]:
    (y0, y1), (x0, x1) = lie.y, lie.x
    vise = shop.vises[0] if shop.vises and not stand.plate else None
    half = vise.jaw_length_mm / 2 if vise else (x1 - x0) / 2 + 10.0
    left, right = (x0 + x1) / 2 - half, (x0 + x1) / 2 + half
    back, front = (y1, y1 + JAW_THICKNESS_MM), (y0 - JAW_THICKNESS_MM, y0)
    fixed, moving = (back, front) if stand.back_fixed or stand.plate else (front, back)
    names = ("angle plate", "clamps", "table") if stand.plate else ("fixed jaw", "moving jaw", "vise bed")
    return (
        Body(names[0], (left, fixed[0], stand.bed), (right, fixed[1], stand.top)),
        Body(names[1], (left, moving[0], stand.bed), (right, moving[1], stand.front)),
        Body(names[2], (left, y0 - _WIDE_MM, stand.bed - 20.0), (right, y1 + _WIDE_MM, stand.bed)),
    )
