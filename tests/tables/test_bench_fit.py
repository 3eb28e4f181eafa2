"""The JSON of the look-up ``fit``."""

from __future__ import annotations

import json

import pytest

from setupsheet.tables.bench_fit import fit_as_json
from setupsheet.tables.unknown import NotInTables


def test_a_fit_has_the_fields_of_the_contract() -> None:
    """25 H7/g6: 0.007 to 0.041 mm of play (ANSI B4.2-1978 table, from memory)."""
    found = fit_as_json("25 H7/g6")
    assert found["designation"] == "25 H7/g6"
    assert found["nominal_mm"] == 25
    assert found["clearance_um"] == {"min": 7, "max": 41}
    assert found["kind"] == "clearance"
    assert found["source"]
    for side, lower, upper in (("hole", 0, 21), ("shaft", -20, -7)):
        part = found[side]
        assert isinstance(part, dict)
        assert (part["lower_um"], part["upper_um"]) == (lower, upper)
    json.dumps(found, allow_nan=False)


@pytest.mark.parametrize(("text", "has", "lacks"), [("25 H7", "hole", "shaft"), ("25 g6", "shaft", "hole")])
def test_one_part_alone_leaves_the_other_out(text: str, has: str, lacks: str) -> None:
    """No empty hole, no clearance, no kind."""
    found = fit_as_json(text)
    assert has in found
    assert not {lacks, "clearance_um", "kind"} & set(found)


def test_an_inch_fit_reports_inches() -> None:
    """1.0000 RC4: hole +1.2, shaft -0.8/-1.6 thousandths (Machinery's Handbook 31st ed. table 8a)."""
    found = fit_as_json("1.0000 RC4")
    assert found["hole"] == {"lower_in": 0, "upper_in": 0.0012}
    assert found["shaft"] == {"lower_in": -0.0016, "upper_in": -0.0008}
    assert found["clearance_in"] == {"min": 0.0008, "max": 0.0028}
    assert "nominal_mm" not in found


def test_a_word_resolves_and_says_so() -> None:
    """'slide' is H7/g6, named in the answer."""
    found = fit_as_json("25 slide")
    assert (found["designation"], found["intent"]) == ("25 H7/g6", "slide")


@pytest.mark.parametrize("text", ["25 H77", "20 t6", "1 RC44", "", "slide", "25 H7/g6/h6"])
def test_bad_input_is_refused(text: str) -> None:
    """A message and the nearest thing, never a traceback."""
    with pytest.raises(NotInTables) as caught:
        fit_as_json(text)
    assert caught.value.nearest
