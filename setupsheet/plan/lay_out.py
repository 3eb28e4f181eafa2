"""What to lay out before the first clamping: every cutter and gauge, owned or to buy or borrow."""

from __future__ import annotations

from setupsheet.part.part import Part
from setupsheet.part.shop import Shop
from setupsheet.plan.record import Setup, ToolLine
from setupsheet.plan.scribed import METHOD


def tool_lines(part: Part, shop: Shop, setups: tuple[Setup, ...]) -> tuple[ToolLine, ...]:
    """Return the list, cutters in the order in which they are first used, then what holds and finds."""
    used: dict[str, tuple[bool, list[int], str]] = {}
    for setup in setups:
        for step in setup.steps:
            if step.tool is None:
                continue
            entry = used.setdefault(step.tool.label, (step.tool.owned, [], step.title))
            if setup.number not in entry[1]:
                entry[1].append(setup.number)
    lines = [ToolLine(label, owned, tuple(numbers), why) for label, (owned, numbers, why) in used.items()]
    finders = [s.number for s in setups if any(z.method == "edge finder" for z in s.zero)]
    if finders:
        size = f"{shop.edge_finder_mm / float(part.unit.mm):.4g}"
        lines.append(ToolLine(f"edge finder, tip {size}", shop.edge_finder_mm > 0, tuple(finders), "find zero"))
    scribed = [s.number for s in setups if any(z.method == METHOD for z in s.zero)]
    if scribed:
        lines.append(ToolLine("scriber, layout blue, rule, centre punch", True, tuple(scribed), "mark out"))
    indicated = [s.number for s in setups if any(z.method == "indicate" for z in s.zero)]
    if indicated:
        owned = any(g.kind == "indicator" for g in shop.gauges)
        lines.append(ToolLine("indicator with a spindle holder", owned, tuple(indicated), "find zero"))
    return (*lines, *_angle_lines(shop, setups), *_pins(setups), *_feelers(part, shop, setups))


def _pins(setups: tuple[Setup, ...]) -> list[ToolLine]:
    """Return a line for each pin that shows before the first cut whether the part lies the right way."""
    used: dict[str, list[int]] = {}
    for setup in setups:
        if setup.witness:
            used.setdefault(setup.witness.shown["pin"], []).append(setup.number)
    return [ToolLine(f"pin or drill shank {pin}", True, tuple(numbers), "witness") for pin, numbers in used.items()]


def _feelers(part: Part, shop: Shop, setups: tuple[Setup, ...]) -> tuple[ToolLine, ...]:
    """Return a line for each feeler; a thicker one than the shop's is needed where a readout does not show that."""
    used: dict[float, list[int]] = {}
    for setup in setups:
        thick = next((zero.feeler_mm for zero in setup.zero if zero.axis == "z" and zero.feeler_mm), shop.feeler_mm)
        used.setdefault(round(thick, 6), []).append(setup.number)
    return tuple(
        ToolLine(
            f"feeler {thick / float(part.unit.mm):.4g}", abs(thick - shop.feeler_mm) < 1e-6, tuple(numbers), "find Z"
        )
        for thick, numbers in sorted(used.items())
    )


def _angle_lines(shop: Shop, setups: tuple[Setup, ...]) -> list[ToolLine]:
    """Return what parts are set to an angle with, and the pins and plates that this takes."""
    told = [(s.number, s.angle_setting, s.hold.in_) for s in setups if s.angle_setting is not None]
    lines = []
    for device in dict.fromkeys(setting.device for _, setting, _ in told):
        rows = [(number, setting) for number, setting, _ in told if setting.device == device]
        label = f"sine bar {rows[0][1].shown['bar']} and gauge blocks" if device == "sine bar" else device
        numbers = tuple(number for number, _ in rows)
        lines.append(ToolLine(label, rows[0][1].owned, numbers, "set the angle"))
    plates = tuple(number for number, _, held in told if held == "angle plate")
    if plates:
        lines.append(ToolLine("angle plate", shop.angle.plate_mm > 0, plates, "hold the part at an angle"))
    pins = {round(s.pin[2], 4): number for number, s, _ in told if s.pin is not None}
    for size, number in sorted(pins.items()):
        text = next(s.shown["pin"] for _, s, _ in told if s.pin is not None and round(s.pin[2], 4) == size)
        owned = any(g.kind == "pins" and g.low_mm <= size <= g.high_mm for g in shop.gauges)
        lines.append(ToolLine(f"pin {text}", owned, (number,), "find zero"))
    return lines
