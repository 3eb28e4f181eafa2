"""Zero on a rotary table: its middle comes under the spindle, and the part's point over its middle."""

from __future__ import annotations

from setupsheet.part.feature import Hole, RoundBoss
from setupsheet.part.part import Part, SetupAsked
from setupsheet.part.shop import RotaryTable, Shop
from setupsheet.plan.bench import Bench, Removed, surface_at
from setupsheet.plan.places import coordinate, feature_of
from setupsheet.plan.record import AxisZero
from setupsheet.plan.setup.hold import body_box

ROTARY_TABLE = "rotary table"
"""The word of ``hold: {in: ...}``."""

ALL_ROUND = {"mm": "0.01", "inch": "0.0005"}
"""How still an indicator has to stand all round, in each unit. Common practice, no source."""

_SIDES = {(0, -1): "on your left", (0, 1): "on your right", (1, -1): "in front", (1, 1): "at the back"}


def is_on_rotary(asked: SetupAsked) -> bool:
    """Tell whether a setup is held on a rotary table."""
    return asked.hold is not None and asked.hold.in_ == ROTARY_TABLE


def rotary_of(shop: Shop, asked: SetupAsked) -> RotaryTable | None:
    """Return the table that a setup is held on: the shop's first; None where it is held otherwise, or has none."""
    return shop.rotary_tables[0] if is_on_rotary(asked) and shop.rotary_tables else None


def table_axis(part: Part, asked: SetupAsked, axis: int) -> float | None:
    """Return where the table's axis goes through the part along a part axis; None on no rotary table."""
    if not is_on_rotary(asked) or asked.hold is None:
        return None
    return coordinate(part, asked.hold.centred, axis)


def on_table(bench: Bench, table: RotaryTable, removed: Removed, index: int) -> AxisZero:
    """Return how X or Y gets its zero: the spindle over the table's axis."""
    del removed
    letter = "xy"[index]
    words = (
        f"before the part is on: indicator in the spindle, round in {_middle(bench, table)}, the same all round within "
        f"{ALL_ROUND[bench.scales['x'].axis.unit]}"
        if index == 0
        else "at the same place; then write both down: the table's axis is zero for all radii"
    )
    return AxisZero(
        letter,
        bench.asked.hold.centred if bench.asked.hold else "",
        bench.laid.zero[bench.laid.axes[index]],
        "indicate",
        f"{table.name}, its middle",
        "inside",
        0.0,
        0.0,
        0.0,
        f"{letter.upper()} {bench.shown(letter, 0.0)}",
        words,
    )


def _middle(bench: Bench, table: RotaryTable) -> str:
    bore = f" {_size(bench, table.bore_mm)}" if table.bore_mm else ""
    return f"the bore{bore} of {table.name}"


def _size(bench: Bench, value_mm: float) -> str:
    return bench.scales["x"].plain(value_mm).lstrip("+")


def centring_words(bench: Bench, removed: Removed) -> tuple[str, ...]:
    """Return how the part's point comes over the table's axis, and how the part comes square to X."""
    name = bench.asked.hold.centred if bench.asked.hold else ""
    feature = feature_of(bench.part, name)
    still = f"still within {ALL_ROUND[bench.scales['x'].axis.unit]}"
    if isinstance(feature, Hole) and _is_made(bench, removed):
        size = _size(bench, feature.diameter.nominal_mm)
        how = f"{name} over the middle: a pin {size} in it and in the table's bore; or indicate {name}, turn, {still}"
    elif isinstance(feature, RoundBoss) and _is_turned(bench, removed, feature):
        how = f"{name} over the middle: indicator round it, turn the table, tap the part until it is {still}"
    else:
        how = _by_edges(bench, removed, name)
    edge = f"table at 0: indicate the {bench.laid.back.value} edge along X, then clamp, then try both again"
    return how, edge


def _is_made(bench: Bench, removed: Removed) -> bool:
    """Tell whether the metal over the table's axis is gone before this setup."""
    top = surface_at(bench, removed, (0.0, 0.0))
    return top is None or top < bench.envelope.high[2] - 1.0


def _is_turned(bench: Bench, removed: Removed, boss: RoundBoss) -> bool:
    """Tell whether a boss stands alone already: no metal beside it at its top."""
    beside = boss.diameter.nominal_mm / 2 + 1.0
    heights = [surface_at(bench, removed, at) for at in ((beside, 0.0), (-beside, 0.0), (0.0, beside), (0.0, -beside))]
    return all(height is None or height < bench.z(boss.top.nominal_mm) - 1.0 for height in heights)


def _by_edges(bench: Bench, removed: Removed, name: str) -> str:
    """Return the readings of the edge finder that bring a point without a bore over the axis."""
    body, half = body_box(bench.part, bench.laid, removed), bench.shop.edge_finder_mm / 2
    said = []
    for index, letter in enumerate("xy"):
        sign = -1 if -body.low[index] <= body.high[index] else 1
        surface = (body.low if sign < 0 else body.high)[index]
        reading = bench.shown(letter, bench.settle(letter, surface + sign * half))
        said.append(f"{letter.upper()} {reading} {_SIDES[(index, sign)]}")
    tip = _size(bench, 2 * half)
    return f"{name} over the middle: tap the part until the edge finder ({tip}) touches at {said[0]} and {said[1]}"
