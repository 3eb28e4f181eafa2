"""Findings as text, as short lines, as JSON."""

from __future__ import annotations

import json

import pytest

from setupsheet.cli import said
from setupsheet.finding import Place, caution, error, note

LONG = "the hole lies outside the finished part, and this sentence is made longer so that it has to be set in two lines"
FOUND = [
    error(
        "hole-outside-part",
        LONG,
        Place("part.yaml", 12, 8),
        feature="bore",
        found="x 90, y 29",
        allowed="x 0 to 80, y 0 to 62",
        try_="move it inwards",
    ),
    caution("no-shop", "no shop", Place("part.yaml", 1, 1)),
    note("setups-proposed", "three setups are proposed"),
]


def test_text_tells_place_what_feature_found_allowed_try_in_that_order() -> None:
    """A block starts with the place and tells everything that the finding holds, in a fixed order."""
    lines = said.as_text(FOUND[:1]).splitlines()
    assert lines[0] == "part.yaml:12:8: error hole-outside-part"
    labels = [line.split()[0] for line in lines if line.startswith("    ") and not line.startswith(" " * 12)]
    assert labels == ["feature", "found", "allowed", "try"]


def test_text_fits_in_80_columns() -> None:
    """No line is longer than 80 signs, and nothing of the message is lost."""
    text = said.as_text(FOUND)
    assert max(map(len, text.splitlines())) <= 80
    assert LONG in " ".join(text.split())


def test_short_is_one_line_a_finding() -> None:
    """Editors and grep take one line each, with place, severity, code and feature."""
    lines = said.as_short(FOUND).splitlines()
    assert len(lines) == len(FOUND)
    assert lines[0] == f"part.yaml:12:8: error: hole-outside-part: {LONG} [bore]"
    assert lines[2] == "note: setups-proposed: three setups are proposed"


def test_json_has_the_keys_of_the_contract() -> None:
    """Each object has at least the keys that other programs rely on."""
    contract = {"code", "severity", "message", "file", "line", "column", "feature", "found", "allowed", "try"}
    for one in json.loads(said.as_json(FOUND)):
        assert contract <= set(one)
    assert json.loads(said.as_json([])) == []


def test_counted() -> None:
    """Errors, cautions and notes are counted apart, with the right ending."""
    assert said.counted(FOUND) == "1 error, 1 caution, 1 note"
    assert said.counted([]) == "no faults"
    assert said.counted(FOUND[:1] * 2) == "2 errors"


def test_a_name_that_would_steer_the_terminal_is_shown_harmless() -> None:
    """Escape signs in a file's name or a value never reach the terminal."""
    hostile = error("file-not-read", "a\x1b[2Jb", Place("x\x1b]0;owned\x07.yaml", 1, 1), found="\x9b31m")
    for text in (said.as_text([hostile]), said.as_short([hostile])):
        assert not {"\x1b", "\x07", "\x9b"} & set(text)


@pytest.mark.parametrize(
    ("environment", "wanted"),
    [({"TERM": "xterm"}, True), ({"TERM": "xterm", "NO_COLOR": "1"}, False), ({"TERM": "dumb"}, False)],
)
def test_colour_only_where_a_terminal_wants_it(
    monkeypatch: pytest.MonkeyPatch, environment: dict[str, str], wanted: bool
) -> None:
    """NO_COLOR and plain terminals are respected."""
    monkeypatch.delenv("NO_COLOR", raising=False)
    for name, value in environment.items():
        monkeypatch.setenv(name, value)
    monkeypatch.setattr("sys.stdout.isatty", lambda: True, raising=False)
    assert said.wants_colour() is wanted
