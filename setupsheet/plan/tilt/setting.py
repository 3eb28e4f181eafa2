"""How an angle is set: which face stands on the bar, which roll goes up, the stack and its blocks.

The face that hangs less from level stands on the bar, so the bar is never set above 45 degrees: near 90 a small error
of the stack turns it a lot (practice example E16).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from setupsheet.length import fixed
from setupsheet.part.face import Face
from setupsheet.part.shop import AngleTools, Shop
from setupsheet.plan.milling.angle_setting import (
    BAR_MM,
    COMPLEMENT_OVER_DEG,
    angle_error_deg,
    block_stack,
    blocks_of,
    sine_stack,
)
from setupsheet.solid.tilted import Tilted

SEAT_MM = 25.0
"""Height of a sine bar's top over what it stands on. Common practice, no source."""

STACK_STEP = {"mm": 0.002, "inch": 0.0001}
"""The error of a stack that has to be reckoned with: 0.002 mm, .0001 in. Common practice, no source."""

ROUND_TO = {"mm": 0.001, "inch": 0.0001}
"""The finest that a set of blocks makes up."""

_UNIT = {"mm": 1.0, "inch": 25.4}


@dataclass(frozen=True, slots=True)
class How:
    """An angle as it is set: see ``record_angle.AngleSetting``. ``seat_mm`` is what the bar takes up under the part."""

    device: str
    owned: bool
    series: str
    raised: str
    tilt_deg: float
    rests_on: Face
    roll: str
    set_deg: float
    bar_mm: float
    seat_mm: float
    stack_mm: float
    blocks_mm: tuple[float, ...]
    step_deg: float

    @property
    def complement(self) -> bool:
        """Whether the bar is set to 90 less the tilt."""
        return self.tilt_deg > COMPLEMENT_OVER_DEG

    def size(self, value_mm: float, places: int | None = None) -> str:
        """Return a length in the unit of the blocks."""
        digits = places if places is not None else (4 if self.series == "inch" else 3)
        return fixed(value_mm / _UNIT[self.series], digits)


def how_set(tilted: Tilted, shop: Shop, series: str) -> How:
    """Return how a tilt is set with what the shop has; ``series`` of blocks and bar: 'mm' or 'inch'."""
    tilt, right = abs(tilted.turn_deg), tilted.turn_deg < 0
    steep = tilt > COMPLEMENT_OVER_DEG
    angle = 90.0 - tilt if steep else tilt
    rests = tilted.upright.face(0, -1 if right else 1) if steep else tilted.upright.up.opposite
    roll = ("left" if right else "right") if steep else ("right" if right else "left")
    raised = "right" if right else "left"
    if shop.angle.protractor_min and not shop.angle.bar_mm:
        step = shop.angle.protractor_min / 60
        return How("protractor", True, series, raised, tilt, rests, roll, angle, 0.0, 0.0, 0.0, (), step)
    return _by_bar(shop.angle, series, (raised, tilt, rests, roll, angle))


def _by_bar(tools: AngleTools, series: str, lies: tuple[str, float, Face, str, float]) -> How:
    raised, tilt, rests, roll, angle = lies
    unit, finest = _UNIT[series], ROUND_TO[series]
    bar = tools.bar_mm or BAR_MM[series]
    stack = round(sine_stack(bar, angle) / unit / finest) * finest
    blocks = tuple(block * unit for block in block_stack(stack, blocks_of(series), finest))
    step = angle_error_deg(bar, angle, STACK_STEP[series] * unit)
    owned = tools.bar_mm > 0 and tools.blocks
    seat = tools.bar_height_mm or SEAT_MM
    return How("sine bar", owned, series, raised, tilt, rests, roll, angle, bar, seat, stack * unit, blocks, step)


def prove_rise(set_deg: float, over_mm: float) -> float:
    """Return by how much a face at an angle rises over a way along X."""
    return over_mm * math.tan(math.radians(set_deg))


def set_words(how: How, level: tuple[str, ...]) -> tuple[str, ...]:
    """Return the sentences that say how the angle is set."""
    angle, tilt = fixed(how.set_deg, 3), fixed(how.tilt_deg, 3)
    lies = " and ".join(level)
    first = f"tilt {tilt} degrees, {how.raised} end up: {lies} {'lie' if len(level) > 1 else 'lies'} level"
    face = f"the part's {how.rests_on.value} face"
    less = f": 90 less {tilt}, because near 90 a small error of the stack turns the bar a lot" if how.complement else ""
    if how.device == "protractor":
        return first, f"set the protractor to {angle} degrees{less}; {face} lies along it, its {how.roll} end up"
    blocks = " + ".join(how.size(block).rstrip("0").rstrip(".") for block in how.blocks_mm)
    made = f" = {blocks}" if blocks else ""
    bar = how.size(how.bar_mm).rstrip("0").rstrip(".")
    buy = "" if how.owned else "; sine bar and gauge blocks are to buy or borrow"
    stack = f"stack {how.size(how.stack_mm)}{made}"
    return (
        first,
        f"{stack} under the {how.roll} roll of the {bar} sine bar: {angle} degrees{less}{buy}",
        f"{face} lies flat on the bar: no light between them; then clamp, and take bar and blocks out",
    )
