"""Callouts: what an author writes for a hole."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setupsheet.length import Unit
from setupsheet.tables import clearance, threads
from setupsheet.tables.callout import KINDS, parse
from setupsheet.tables.unknown import NotInTables


@pytest.mark.parametrize(
    ("text", "kind", "diameter_mm"),
    [
        ("M5", "thread", 4.134),
        ("M8x1", "thread", 6.917),
        ("10-32 UNF", "thread", 3.9667),
        ("5/16-27 UNS", "thread", 6.9191),
        ("1/4 BSPP", "thread", 11.445),
        ("6BA", "thread", 2.16),
        ("12 H7", "fit", 12.0),
        ("6 H7", "fit", 6.0),
        ("25 H7/g6", "fit", 25.0),
        ("1.0000 RC4", "fit", 25.4),
        ("3/8 H7", "fit", 9.525),
        ("M4 medium", "clearance", 4.5),
        ("M6 clearance medium", "clearance", 6.6),
        ("M6 clearance", "clearance", 6.6),
        ("#10 clearance normal", "clearance", 5.6134),
        ("#8 close", "clearance", 4.572),
        ("#8-32 UNC clearance", "clearance", 4.9784),
        ("no. 7", "drill", 5.1054),
        ("#7", "drill", 5.1054),
        ("F", "drill", 6.5278),
        ("1/4", "drill", 6.35),
        ("6.5 mm", "drill", 6.5),
        ("6.53 mm", "plain", 6.53),
        ("12.70", "plain", 12.7),
        ("0.201 in", "plain", 5.1054),
    ],
)
def test_kinds_and_sizes(text: str, kind: str, diameter_mm: float) -> None:
    """Each way of writing is read as what it means, in a millimetre spec."""
    read = parse(text, Unit.MM)
    assert (read.kind, read.written) == (kind, text)
    assert read.diameter_mm == pytest.approx(diameter_mm, abs=5e-5)


@pytest.mark.parametrize(
    ("text", "marked", "near"),
    [
        ("25,4 H7", "25,4", "25.4 H7"),
        ("H7 12", "H7 12", "12 H7"),
        ("M6 6g", "6g", "M6"),
        ("M5x0.8-6g", "6g", "M5x0.8"),
        ("1/4-20 UNC 2A", "2A", "1/4-20 UNC"),
        ("\u0661\u0662 H7", "\u0661\u0662 H7", "12 H7"),
    ],
)
def test_slips_are_marked_and_mended(text: str, marked: str, near: str) -> None:
    """A decimal comma, words in the wrong order, a screw's class, foreign digits."""
    with pytest.raises(NotInTables) as refused:
        parse(text, Unit.MM)
    assert (refused.value.found, refused.value.nearest) == (marked, near)


@pytest.mark.parametrize("text", ["3/8 W", "3/8 Whit", "3/8 Whitworth", "3/8 BSW", "3/8-16 BSW"])
def test_names_of_the_whitworth_thread(text: str) -> None:
    """All names that it goes by mean 3/8 with 16 threads an inch."""
    thread = parse(text, Unit.MM).thread
    assert thread is not None
    assert thread.designation == "3/8-16 BSW"


def test_a_bare_decimal_takes_the_spec_s_unit_and_keeps_its_text() -> None:
    """12.70 in inches is 322.58 mm and is still printed 12.70."""
    read = parse("12.70", Unit.INCH)
    assert read.diameter_mm == pytest.approx(322.58)
    assert read.length is not None
    assert read.length.text() == "12.70"


@pytest.mark.parametrize(
    ("text", "near"),
    [
        ("M5.5", "M5, M6"),
        ("M5.5 clearance", "M5, M6"),
        ("1/0", "1/64"),
        ("#81", "no. 80"),
        ("6.5 mm 1/4 in", "6.5 mm"),
        ("M5 mm", "M5"),
        ("M4 clearance snug", "fine"),
    ],
)
def test_bad_callouts_name_the_nearest_thing(text: str, near: str) -> None:
    """What no table holds says why, what was found and what exists."""
    with pytest.raises(NotInTables) as fault:
        parse(text, Unit.MM)
    assert near in fault.value.nearest
    assert fault.value.message
    assert fault.value.found == text or fault.value.found in text


@pytest.mark.parametrize("text", ["", "rubbish", "x" * 300, "5\u00b2", "nan", "1:30", "0"])
def test_what_is_near_nothing_gets_examples(text: str) -> None:
    """For a text that is no callout at all nothing is 'nearest': it is not guessed that M5 was meant."""
    with pytest.raises(NotInTables) as fault:
        parse(text, Unit.MM)
    assert (fault.value.nearest, fault.value.examples[:2]) == ("", "M5")


@given(st.text(alphabet='M#GnoA.bBhH7/-x 0123456789UNCFSPTmi"', max_size=14), st.sampled_from(Unit))
def test_any_text_is_a_callout_or_not_in_the_tables(text: str, unit: Unit) -> None:
    """Nothing else ever comes out of a text, and a size is always above 0."""
    try:
        read = parse(text, unit)
    except NotInTables:
        return
    assert read.kind in KINDS
    assert read.diameter_mm > 0


@given(st.sampled_from(clearance.screws()), st.sampled_from(sorted(clearance.ROOM)))
def test_a_clearance_hole_clears_its_screw(screw: str, room: str) -> None:
    """Every clearance hole is wider than the thread that goes through it."""
    if not _has(screw, room):
        return
    read = parse(f"{screw} clearance {room}", Unit.MM)
    assert read.lower_mm is not None
    assert read.upper_mm is not None
    assert _major_mm(screw) < read.lower_mm < read.upper_mm


def _major_mm(screw: str) -> float:
    """Return a screw's major diameter; number sizes are .060 in and .013 in a number (ASME B1.1)."""
    if screw.startswith("#"):
        return (0.060 + 0.013 * int(screw[1:])) * 25.4
    if screw.startswith("M") or screw.endswith(("BA", "ME", "BSW")):
        return threads.find(screw).major_mm
    return float(Fraction(screw)) * 25.4


def _has(screw: str, room: str) -> bool:
    """Tell whether a screw has a hole of this kind (BA and model-engineer screws have one only)."""
    try:
        clearance.hole(screw, room)
    except NotInTables:
        return False
    return True
