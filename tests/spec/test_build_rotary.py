"""Rotary tables of the shop file, and what is wrong in one."""

from __future__ import annotations

import pytest

from setupsheet.part.shop import RotaryTable

from .conftest import SHOP, Read

KEYS = "diameter: 150, height: 80, step: 5 min, counts: anticlockwise, turns: 90, bore: 25"
TABLE = f"rotary-tables:\n  table 150: {{{KEYS}}}\n"


def _table(read: Read, text: str = TABLE) -> RotaryTable:
    _, shop, found = read(shop=SHOP + text)
    assert shop is not None, found
    (table,) = shop.rotary_tables
    return table


def test_a_table_is_read(read: Read) -> None:
    """Sizes, the step in degrees and its unit, which way it counts, turns of the handwheel, bore."""
    table = _table(read)
    assert (table.name, table.diameter_mm, table.height_mm, table.bore_mm) == ("table 150", 150, 80, 25)
    assert table.step_deg == pytest.approx(1 / 12)
    assert (table.unit, table.counts, table.turns) == ("min", -1, 90)


@pytest.mark.parametrize(
    ("step", "degrees"), [("0.1 deg", 0.1), ("30 sec", 1 / 120), ("1 min", 1 / 60), ("1/2 deg", 0.5)]
)
def test_steps(read: Read, step: str, degrees: float) -> None:
    """A step is written in degrees, minutes or seconds; what is left out has a plain meaning."""
    table = _table(read, TABLE.replace("5 min, counts: anticlockwise, turns: 90, bore: 25", step))
    assert table.step_deg == pytest.approx(degrees)
    assert (table.counts, table.turns, table.bore_mm) == (1, 0, 0.0)


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("step: 5 min", "step: 5", "angle-step-not-clear"),
        ("step: 5 min", "step: 0 min", "angle-step-not-clear"),
        ("step: 5 min", "step: 7 min", "angle-step-not-clear"),  # 90 degrees are no whole number of them
        ("step: 5 min", "step: 2 deg", "angle-step-not-clear"),
        ("diameter: 150", "diameter: 0", "not-above-zero"),
        ("bore: 25", "bore: -1", "not-above-zero"),
        ("counts: anticlockwise", "counts: left", "not-a-choice"),
        ("turns: 90", "turns: =90.5", "not-a-count"),
        (", height: 80", "", "key-missing"),
    ],
)
def test_faults(read: Read, old: str, new: str, code: str) -> None:
    """Each wrong value has a finding of its own."""
    assert old in TABLE
    _, _, found = read(shop=SHOP + TABLE.replace(old, new))
    assert [finding.code for finding in found] == [code]
