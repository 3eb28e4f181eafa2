"""Accepted cautions: notes with the reason; errors cannot be accepted; what met nothing is told."""

from __future__ import annotations

from dataclasses import replace

from setupsheet.finding import Finding, Severity, caution, error, note
from setupsheet.part.part import Accepted, Part
from setupsheet.plan.accept import reason_for, with_accepted
from tests.parts import HERE, block


def _part(*rows: tuple[str, str, str]) -> Part:
    return replace(block(), accepted=tuple(Accepted(*row, HERE) for row in rows))


def _thin(feature: str) -> Finding:
    return caution("wall-thin", f"{feature} leaves a wall", feature=feature, try_="light cuts")


def test_for_the_whole_part() -> None:
    """A code alone accepts it for every feature; it becomes a note that ends with the reason."""
    told = with_accepted(_part(("wall-thin", "", "a box for cable")), [_thin("a"), _thin("b")])
    assert [f.severity for f in told] == [Severity.NOTE, Severity.NOTE]
    assert told[0].message == "a leaves a wall (accepted: a box for cable)"


def test_for_one_feature() -> None:
    """A feature's own acceptance counts for it alone, and before that of the whole part."""
    part = _part(("wall-thin", "a", "held by the lid"))
    assert [f.severity for f in with_accepted(part, [_thin("a"), _thin("b")])] == [Severity.NOTE, Severity.CAUTION]
    both = _part(("wall-thin", "", "all"), ("wall-thin", "a", "this one"))
    assert reason_for(both, _thin("a")) == "this one"
    assert reason_for(both, _thin("b")) == "all"


def test_errors_cannot_be_accepted() -> None:
    """What ruins the part or a finger stays an error, and its acceptance met nothing."""
    crash = error("jaw-in-cutters-way", "the mill runs into the jaw")
    told = with_accepted(_part(("jaw-in-cutters-way", "", "I dare")), [crash])
    assert told[0] == crash
    assert [f.code for f in told[1:]] == ["accepted-without-cause"]


def test_what_met_nothing() -> None:
    """A code that was not found is a note at its place, but only once every stage has run."""
    part = _part(("wal-thin", "", "misspelt"))
    assert with_accepted(part, [_thin("a")], whole=False) == [_thin("a")]
    idle = with_accepted(part, [_thin("a")])[-1]
    assert (idle.severity, idle.code, idle.place) == (Severity.NOTE, "accepted-without-cause", HERE)


def test_a_note_stays_as_it_is() -> None:
    """Only cautions are accepted."""
    said = note("setups-proposed", "two are proposed")
    assert with_accepted(_part(("setups-proposed", "", "fine")), [said])[0] == said
