"""The look-ups at the bench through the command line: numbers, JSON, refusals."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.runs import run


def test_fit_shows_limits_first() -> None:
    """25 H7/g6: hole 25.000 to 25.021, shaft 24.980 to 24.993 (ISO 286-2, tables for H and g)."""
    lines = run("fit", "25 H7/g6").stdout.splitlines()
    assert lines[0].startswith("25.000 to 25.021 mm  hole H7")
    assert lines[1].startswith("24.980 to 24.993 mm  shaft g6")
    assert lines[2].startswith("0.007 to 0.041 mm ")


def test_interference_is_shown_above_zero() -> None:
    """25 H7/s6 presses: 0.014 to 0.048 too large (ISO 286-2: s6 at 25 mm is +35 to +48)."""
    assert "0.014 to 0.048 mm    interference" in run("fit", "25 H7/s6").stdout


def test_inch_fit_shows_inches() -> None:
    """1.0000 RC4: hole 1.0000 to 1.0012 (ANSI B4.1 table of running fits)."""
    assert run("fit", "1.0000 RC4").stdout.startswith("1.0000 to 1.0012 in  hole")


def test_hole_shows_the_chain_in_order() -> None:
    """M5 is spotted, drilled 4.2 (ISO 2306) and tapped."""
    tools = [line[:30] for line in run("hole", "M5").stdout.splitlines()[:3]]
    assert [tool.split()[0] for tool in tools] == ["1", "2", "3"]
    assert "drill 4.2 mm" in tools[1]
    assert "tap M5" in tools[2]


def test_hole_takes_the_shop_s_cutters_first() -> None:
    """With the demo shop nothing has to be got for 12 H7."""
    result = json.loads(run("hole", "12 H7", "--shop", "specs/shop.yaml", "--json").stdout)
    assert all(step["owned"] for step in result["steps"])
    assert result["steps"][-1]["operation"] == "ream"


def test_circle_in_inches_about_a_centre() -> None:
    """Five holes on 1-1/2 inch: the first lies at the centre's X plus 0.75."""
    result = json.loads(
        run("circle", "--pcd", "1-1/2", "--count", "5", "--centre", "-1.25,0.5", "--units", "inch", "--json").stdout
    )
    assert result["units"] == "inch"
    assert result["positions"][0] == {"label": "1", "x": -0.5, "y": 0.5}


def test_circle_as_text_has_one_line_a_hole() -> None:
    """A head, six holes, the chord: on 46 with six holes it is the radius, 23."""
    lines = run("circle", "--pcd", "46", "--count", "6", "--start", "30").stdout.splitlines()
    assert len(lines) == 8
    assert lines[-1].startswith("23.000 mm")


def test_speed_comes_from_the_machine() -> None:
    """With a shop the rpm is one that the spindle has."""
    result = json.loads(
        run("speed", "--diameter", "12", "--material", "steel 1018", "--shop", "specs/shop.yaml", "--json").stdout
    )
    assert result["rpm"] in (100, 200, 350, 600, 1000, 1800)


KEYS = {
    ("fit", "25 H7/g6"): {"designation", "nominal_mm", "hole", "shaft", "clearance_um", "kind", "source"},
    ("hole", "10-32 UNF"): {"designation", "steps", "result", "required", "thread_percent"},
    ("circle", "--pcd", "46", "--count", "6"): {"positions", "chord", "units"},
    ("speed", "--diameter", "6", "--material", "aluminium 6082"): {
        "rpm",
        "rpm_ideal",
        "cutting_speed_m_per_min",
        "feed_mm_per_min",
        "source",
    },
}


@pytest.mark.parametrize("words", KEYS, ids=lambda words: words[0])
def test_json_has_the_fields_of_the_contract(words: tuple[str, ...]) -> None:
    """Other programs find the fields that were promised."""
    result = run(*words, "--json")
    assert result.exit_code == 0
    assert KEYS[words] <= set(json.loads(result.stdout))


REFUSED = {
    ("fit", "25 H77"): "nearest: 25 H7",
    ("fit", "20 t6"): "nearest",
    ("hole", "M5.5"): "nearest: M5",
    ("hole", "#81"): "nearest: no. 80",
    ("hole", "1/0"): "0 below the line",
    ("hole", "M5", "--depth", "-3"): "above 0",
    ("hole", "M5", "--material", "cheese"): "cheese",
    ("circle", "--pcd", "0", "--count", "6"): "above 0",
    ("circle", "--pcd", "46", "--count", "0"): "count",
    ("circle", "--pcd", "46", "--count", "6", "--centre", "3"): "comma",
    ("circle", "--pcd", "46", "--count", "6", "--start", "nan"): "angle",
    ("speed", "--diameter", "0", "--material", "brass"): "diameter",
    ("speed", "--diameter", "6 furlongs", "--material", "brass"): "not a length",
}


@pytest.mark.parametrize("words", REFUSED, ids=" ".join)
def test_wrong_callout_is_refused_with_the_nearest(words: tuple[str, ...]) -> None:
    """A callout that means nothing gives exit code 2, a reason and nothing on standard output."""
    result = run(*words)
    assert result.exit_code == 2
    assert result.stdout == ""
    assert REFUSED[words] in result.stderr


def test_shop_with_an_error_is_refused_with_its_finding() -> None:
    """A spec given as the shop names its own faults; the exit code is that of a faulty file."""
    result = run("hole", "M5", "--shop", "specs/worm-bracket.yaml")
    assert result.exit_code == 1
    assert "specs/worm-bracket.yaml:" in result.stderr


def test_speed_stays_below_the_chuck_s_limit(tmp_path: Path) -> None:
    """A chuck for 700 rpm: a drill takes the step below it and says so, an end mill does not care."""
    shop = tmp_path / "shop.yaml"
    shop.write_text(Path("specs/shop.yaml").read_text(encoding="utf-8").replace("speed: 3000", "speed: 700"))
    words = ("speed", "--diameter", "6", "--material", "brass", "--shop", str(shop))
    drilled, milled = run(*words), run(*words, "--operation", "mill")
    assert drilled.stdout.startswith("600 rpm")
    assert "bears no more" in drilled.stdout
    assert "bears no more" not in milled.stdout


def test_unknown_machine_lists_those_of_the_shop() -> None:
    """A machine that is not in the shop names those that are."""
    result = run("speed", "--diameter", "6", "--material", "brass", "--shop", "specs/shop.yaml", "--machine", "lathe")
    assert result.exit_code == 2
    assert "bench mill" in result.stderr
