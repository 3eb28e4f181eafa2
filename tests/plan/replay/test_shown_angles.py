"""Texts and numbers of arcs: a sound arc passes; each thing that can be wrong with one is told."""

from __future__ import annotations

from typing import Any

import pytest

from setupsheet.plan.replay.shown_angles import angles_shown, reading_deg

Json = dict[str, Any]
ARC: Json = {
    "centre": [0.0, 0.0],
    "radius": 20.0,
    "from_deg": -90.0,
    "to_deg": 90.0,
    "z": -1.0,
    "shown": {"radius": "+20.000", "from": "270°00'", "to": "90°00'"},
}


def _said(angle_step: float = 0.083333333, counts: int = 1, **changed: Any) -> list[str]:
    setup = {
        "number": 1,
        "readout": {axis: {"angle_step_deg": angle_step if axis != "z" else 0.0} for axis in "xyz"},
        "counts": {"x": 1, "y": 1, "z": 1, "angle": counts},
    }
    return angles_shown(setup, {"number": 1, "arcs": [{**ARC, **changed}]})


def test_a_sound_arc() -> None:
    """Nothing is said of an arc whose angles can be set and are printed, nor of a step without arcs."""
    assert _said() == []
    assert _said(1 / 60) == []
    assert angles_shown({"number": 1, "readout": {}, "counts": {}}, {"number": 1, "arcs": []}) == []


@pytest.mark.parametrize(
    ("changed", "word"),
    [
        ({"from_deg": -89.9}, "no multiple"),
        ({"from_deg": -89.5}, "the sheet shows 270°00'"),
        ({"to_deg": 89.5}, "the sheet shows 90°00'"),
        ({"to_deg": -90.0}, "turns by nothing"),
        ({"centre": [1.0, 0.0]}, "the table's axis is zero"),
        ({"shown": {"from": "about 270", "to": "90°00'"}}, "no reading of a table"),
    ],
)
def test_faults(changed: Json, word: str) -> None:
    """Each fault is named."""
    assert any(word in words for words in _said(**changed))


def test_the_other_way_of_counting() -> None:
    """A table that counts the other way shows 90 at -90, so these texts are wrong there."""
    assert len(_said(counts=-1)) == 2
    assert _said(counts=-1, shown={"from": "90°00'", "to": "270°00'"}) == []


def test_arcs_without_a_table() -> None:
    """Arcs need something that turns."""
    assert "nothing in this setup turns" in _said(0.0)[0]


@pytest.mark.parametrize(("text", "degrees"), [("12.5°", 12.5), ("12°30'", 12.5), ("12°30'36\"", 12.51)])
def test_readings(text: str, degrees: float) -> None:
    """Decimals, minutes, seconds."""
    assert reading_deg(text) == pytest.approx(degrees)


@pytest.mark.parametrize("text", ["", "12", "12°5'", "-4°"])
def test_no_readings(text: str) -> None:
    """What no table shows is no reading."""
    assert reading_deg(text) is None
