"""How a part is held on a rotary table: table, packing, clamps, as words and as bodies in the setup frame."""

from __future__ import annotations

from collections.abc import Sequence

from setupsheet.finding import Finding, error
from setupsheet.length import Unit
from setupsheet.part.part import SetupAsked
from setupsheet.part.shop import RotaryTable, Shop
from setupsheet.plan import angles
from setupsheet.plan.bench import Bench, Removed
from setupsheet.plan.record import Body, Hold, Step
from setupsheet.plan.setup.clamp_places import Clamps, Strap, clamps
from setupsheet.plan.setup.hold import Grip
from setupsheet.plan.setup.rotary_zero import centring_words, is_on_rotary
from setupsheet.plan.sizes import length

PACKING_MM = 10.0
"""Height of the packing where nobody says: the cutter goes below the part, never into the table. Common practice."""

INSIDE_MM = {Unit.MM: 3.0, Unit.INCH: 3.175}
"""How far packing stays inside an edge that is cut through. Common practice, no source."""

_SIDES = {(0, -1): "your left", (0, 1): "your right", (1, -1): "the front", (1, 1): "the back"}


def no_table(shop: Shop, asked: SetupAsked) -> list[Finding]:
    """Return an error where a setup wants a rotary table and the shop has none."""
    if not is_on_rotary(asked) or shop.rotary_tables:
        return []
    return [
        error(
            "no-rotary-table",
            f"{asked.name} is held on a rotary table, and {shop.name or 'the shop'} has none",
            asked.hold.place if asked.hold else asked.place,
            found="no rotary-tables: in the shop file",
            allowed="rotary-tables: {rotary table 150: {diameter: 150, height: 80, step: 5 min}}",
            try_="write the table that you have into the shop file, or hold the part another way",
        )
    ]


def rotary_hold(
    bench: Bench, table: RotaryTable, held: Grip, removed: Removed, steps: Sequence[Step]
) -> tuple[Hold, list[Finding]]:
    """Return the hold of a part on a rotary table, and what stands in its way."""
    packing = _packing(bench)
    top = held.rest_z - packing
    placed = clamps(bench, table, removed, steps)
    face = Body(table.name, (0.0, 0.0, top - table.height_mm), (0.0, 0.0, top), table.diameter_mm / 2)
    words = (
        f"{table.name} flat on the mill's table, clamped; its face {length(table.height_mm, bench.part.unit)} up",
        *_on_packing(bench, packing),
        *centring_words(bench, removed),
        *_clamp_words(bench, placed),
        f"lock the table at {angles.text(table, 0.0)} for every straight cut and every hole; unlock it only to turn it",
    )
    before, after = held.box.high[2] - held.rest_z, _top_after(bench, held, steps) - held.rest_z
    rest = "packing" if packing else "table"
    hold = Hold("rotary table", words, 0.0, before, after, held.rest_z, rest, (face, *placed.bodies()))
    return hold, [*_too_few(bench, placed), *_into_table(bench, table, top, steps)]


def _packing(bench: Bench) -> float:
    rest = bench.asked.hold.rest if bench.asked.hold else None
    if rest is None:
        return PACKING_MM
    return (rest.height_mm or PACKING_MM) if rest.on in ("packing", "parallels") else 0.0


def _on_packing(bench: Bench, packing: float) -> tuple[str, ...]:
    if not packing:
        return ("straight on the face of the table, both wiped clean",)
    high, inside = length(packing, bench.part.unit), length(INSIDE_MM[bench.part.unit], bench.part.unit)
    return (
        f"on flat packing {high} high, all of one height, {inside} inside every edge that is cut through and clear of "
        "every hole drilled through; a piece under each clamp",
    )


def _clamp_words(bench: Bench, placed: Clamps) -> tuple[str, ...]:
    words = []
    if placed.washer is not None:
        name = bench.asked.hold.centred if bench.asked.hold else ""
        words.append(f"a bolt with a washer down through {name} into the table holds the middle")
    words += [f"clamp {i}: {_strap_words(bench, strap)}" for i, strap in enumerate(placed.straps, 1)]
    if words:
        words.append("these places only: there no cutter and no holder meets a clamp while the table turns")
    return tuple(words)


def _strap_words(bench: Bench, strap: Strap) -> str:
    x, y = (bench.shown(axis, bench.settle(axis, value)) for axis, value in zip("xy", strap.toe, strict=True))
    return f"over the edge at {_SIDES[(strap.axis, strap.sign)]}, its toe about X {x} Y {y}"


def _top_after(bench: Bench, held: Grip, steps: Sequence[Step]) -> float:
    faced = any(step.operation == "face" for step in steps)
    return bench.envelope.high[2] if faced else held.box.high[2]


def _too_few(bench: Bench, placed: Clamps) -> list[Finding]:
    if placed.enough:
        return []
    count = len(placed.straps)
    return [
        error(
            "no-room-for-clamps",
            f"{'one clamp' if count else 'no clamp'} has room on the part beside what {bench.asked.name} cuts",
            bench.asked.hold.place if bench.asked.hold else bench.asked.place,
            found=f"{count} free place{'' if count == 1 else 's'} for clamps",
            allowed="two clamps, or one and a bolt through a bore over the middle",
            because="the part slides or turns under the cutter",
            try_="make the bore earlier and centre on it, leave an end on that is cut off later, or cut less at once",
        )
    ]


def _into_table(bench: Bench, table: RotaryTable, top: float, steps: Sequence[Step]) -> list[Finding]:
    """Return an error for the first step that goes down into the table's face."""
    for step in steps:
        heights = [m.z for m in step.moves] + [a.z for a in step.arcs] + [p.z_to for p in step.positions]
        heights += [ring.z_to for ring in step.rings]
        if heights and min(heights) < top - 1e-6:
            deep = length(top - min(heights), bench.part.unit)
            return [
                error(
                    "cuts-into-rotary-table",
                    f"{step.title} goes {deep} into the face of {table.name}",
                    bench.asked.hold.place if bench.asked.hold else bench.asked.place,
                    feature=next(iter(step.features), ""),
                    found=deep,
                    allowed="nothing below the packing",
                    try_=f"write a higher packing under on:, by {deep} and a little more",
                )
            ]
    return []
