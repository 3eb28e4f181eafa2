"""Angles as a rotary table shows them; turns of its handwheel and chords against printed examples."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setupsheet.part.shop import RotaryTable
from setupsheet.plan import angles
from setupsheet.plan.replay.shown_angles import reading_deg
from tests.parts import HERE

MINUTES = RotaryTable("t", 150.0, 80.0, 1 / 12, "min", 1, 90, 25.0, HERE)
TABLES = (
    MINUTES,
    replace(MINUTES, counts=-1),
    replace(MINUTES, step_deg=0.1, unit="deg"),
    replace(MINUTES, step_deg=1 / 120, unit="sec", turns=40),
)


@pytest.mark.parametrize(
    ("table", "angle", "text"),
    [
        (MINUTES, -90.0, "270°00'"),
        (MINUTES, 12.5, "12°30'"),
        (MINUTES, 360.0, "0°00'"),
        (TABLES[1], 90.0, "270°00'"),
        (TABLES[2], 12.5, "12.5°"),
        (TABLES[3], 90 + 1 / 120, "90°00'30\""),
    ],
)
def test_readings(table: RotaryTable, angle: float, text: str) -> None:
    """A reading lies in one turn, in the table's unit, counted the table's way."""
    assert angles.shown(table, angle) == text


@given(st.sampled_from(TABLES), st.integers(-50000, 50000))
def test_a_reading_says_its_angle(table: RotaryTable, count: int) -> None:
    """Every angle that can be set is read back by the replay's own rule as itself."""
    angle = count * table.step_deg
    read = reading_deg(angles.shown(table, angle))
    assert read is not None
    away = (read - angle * table.counts) % 360
    assert min(away, 360 - away) < 1e-3 * table.step_deg + 1e-6


@given(st.sampled_from(TABLES), st.floats(-400, 0), st.floats(0.5, 360))
def test_arcs_are_never_longer_than_asked(table: RotaryTable, start: float, sweep: float) -> None:
    """Ends are rounded inwards, by less than a step each."""
    low, high = angles.within(table, start, start + sweep)
    assert start - 1e-6 <= low < start + table.step_deg + 1e-6
    assert start + sweep - table.step_deg - 1e-6 < high <= start + sweep + 1e-6


@pytest.mark.parametrize(
    ("degrees", "text"),
    [
        (36.0, "9 turns"),  # 90:1, ten divisions: mrjones.id.au, note on division plates (E47)
        (90.0, "22 turns + 2°00'"),  # 90:1, a quarter: chaski.org t=108121, its muddle put right (E48)
        (4.0, "1 turn"),
        (2.0, "2°00'"),
    ],
)
def test_turns_of_the_handwheel(degrees: float, text: str) -> None:
    """Whole turns and the rest in degrees, so that turns can be counted."""
    assert angles.turns_text(MINUTES, degrees) == text


def test_21_divisions() -> None:
    """90:1, 21 divisions: 4 turns and 6/21 of one (mrjones.id.au, note on division plates, E47)."""
    assert angles.turns_text(TABLES[0], 360 / 21).startswith("4 turns + 1°0")
    a_turn = 360 / MINUTES.turns
    assert (360 / 21) / a_turn - 4 == pytest.approx(6 / 21)


def test_turns_need_a_ratio() -> None:
    """A table whose ratio nobody told has degrees only."""
    assert angles.turns_text(replace(MINUTES, turns=0), 90.0) == ""


def test_chord() -> None:
    """E10: 12 bolts 3.75 in apart stand on R 7.244 in (wyzant.com answer 1741)."""
    assert angles.chord(7.244, 30.0) == pytest.approx(3.75, abs=5e-4)
