"""A rotary table of the shop file: its size, the step of its reading, which way it counts."""

from __future__ import annotations

import re
from fractions import Fraction

from setupsheet.part.shop import RotaryTable
from setupsheet.spec.desk import Desk
from setupsheet.spec.tree import Entry, Mapping, Node, Scalar

COUNTS = {"clockwise": 1, "anticlockwise": -1}
"""Which way the table turns, seen from above, as its reading grows."""

_STEP = re.compile(r"^(\d+|\d*\.\d+|\d+/[1-9]\d*)\s*(deg|min|sec)$")
_PARTS = {"deg": 1, "min": 60, "sec": 3600}
_QUARTER_DEG = 90


def rotary_table(desk: Desk, entry: Entry) -> RotaryTable:
    """Return one rotary table; what could not be read is a finding on the desk."""
    desk.feature = entry.key.text
    own = desk.mapping(entry.value)
    step, unit = _step(desk, own.get("step"))
    found = RotaryTable(
        entry.key.text,
        _above_zero(desk, own, "diameter"),
        _above_zero(desk, own, "height"),
        step,
        unit,
        COUNTS[desk.choice(own.get("counts"), tuple(COUNTS), "clockwise")],
        desk.count(own.get("turns"), 0),
        _above_zero(desk, own, "bore") if "bore" in own.entries else 0.0,
        entry.key.place,
    )
    desk.feature = ""
    return found


def _above_zero(desk: Desk, own: Mapping, key: str) -> float:
    node = own.get(key)
    length = desk.length(node)
    if length.exact_mm <= 0 and isinstance(node, Scalar):
        desk.wrong("not-above-zero", f"{node.text}: too small", node.place, found=node.text, allowed="more than 0")
        return 1.0
    return length.mm


def _step(desk: Desk, node: Node | None) -> tuple[float, str]:
    """Return the step in degrees and the unit that it is read in; a quarter turn is a whole number of steps."""
    scalar = desk.scalar(node)
    match = _STEP.match(scalar.text.strip()) if scalar else None
    step = Fraction(match[1]) / _PARTS[match[2]] if match else Fraction(0)
    if match and 0 < step <= 1 and (_QUARTER_DEG / step).denominator == 1:
        return float(step), match[2]
    if scalar:
        desk.wrong(
            "angle-step-not-clear",
            f"{scalar.text}: to which angle can the table be set?",
            scalar.place,
            found=scalar.text,
            allowed="5 min, 0.1 deg, 30 sec: up to 1 deg, and a whole number of them in a quarter turn",
        )
    return 1.0, "deg"
