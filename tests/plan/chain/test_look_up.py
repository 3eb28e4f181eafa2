"""The bench look-ups: fields of the contract, units, and what they say to nonsense."""

from __future__ import annotations

import json
import math
import subprocess
import sys

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setupsheet.length import Unit
from setupsheet.plan.chain.look_up import hole_as_json
from setupsheet.plan.circle import circle_as_json
from setupsheet.tables.bench_fit import fit_as_json
from setupsheet.tables.unknown import NotInTables

FIELDS = {"designation", "steps", "result", "required", "thread_percent"}
STEP = {"operation", "tool", "diameter_mm", "source"}


@pytest.mark.parametrize(
    "text",
    ["M5", "10-32 UNF", "12 H7", "M6 clearance medium", "#8 clearance normal", "5/16-27 UNS", "1/4 NPT", "6BA", "6.5"],
)
def test_fields_of_the_contract(text: str) -> None:
    """Every callout of the contract gives its fields, as JSON."""
    found = json.loads(json.dumps(hole_as_json(text)))
    assert set(found) >= FIELDS
    assert all(set(step) >= STEP for step in found["steps"])
    assert found["result"]["lower_mm"] <= found["result"]["upper_mm"]


def test_limits_asked() -> None:
    """12 H7 is 12.000 to 12.018 (ISO 286-2); a bare size asks for none; RC4 at 1 in is +.0012/0 (B4.1)."""
    assert hole_as_json("12 H7")["required"] == {"lower_mm": 12.0, "upper_mm": 12.018}
    assert hole_as_json("6.5")["required"] is None
    rc4 = hole_as_json("1.0000 RC4", unit=Unit.INCH)["required"]
    assert rc4["lower_mm"] == pytest.approx(25.4)
    assert rc4["upper_mm"] == pytest.approx(25.4 + 0.0012 * 25.4, abs=1e-4)


def test_nothing_is_looked_up_beyond_the_tables() -> None:
    """A hole of 100 m is refused; one thinner than every drill says how far the thinnest is off."""
    with pytest.raises(NotInTables):
        hole_as_json("99999")
    assert "0.19 larger" in hole_as_json("0.01")["how_much"]


@pytest.mark.parametrize(("word", "fit"), [("press", "H7/p6"), ("slide", "H7/g6")])
def test_a_word_for_a_fit_stands_for_its_hole(word: str, fit: str) -> None:
    """'12 press' is drilled and reamed as its preferred fit (ANSI B4.2), and says which one that is."""
    by_word, by_fit = hole_as_json(f"12 {word}"), hole_as_json(f"12 {fit}")
    assert (by_word["designation"], by_word["required"]) == (f"12 {fit}", by_fit["required"])
    assert fit in by_word["words"][0]


@pytest.mark.parametrize("text", ["12 H7", "25 H7/g6", "1.0000 RC4", "280 M6"])
def test_the_status_of_a_fit_is_told(text: str) -> None:
    """The look-up says how well the limits were seen in print, as the look-up of the fit does."""
    told, fit = hole_as_json(text)["status"], fit_as_json(text)["status"]
    assert told
    assert str(told) in str(fit)


@pytest.mark.parametrize("text", ["M5.5", "1/0", "#81", "6.5 mm 1/4 in", "25 H77", "12 g6", "20 Ü6", "1.0000 RC14"])
def test_nonsense_is_not_in_the_tables(text: str) -> None:
    """What no table holds is said as such, with the nearest thing that exists."""
    with pytest.raises(NotInTables) as fault:
        hole_as_json(text)
    assert fault.value.message


def test_circle_of_a_published_example() -> None:
    """Six holes on 46 from 30 degrees: x = 23 cos 30 = 19.919, y = 11.5; the chord of six is the radius."""
    circle = circle_as_json(46.0, 6, 30.0)
    assert circle["positions"][0] == {"label": "1", "x": pytest.approx(19.918584), "y": 11.5}
    assert circle["positions"][1] == {"label": "2", "x": 0.0, "y": 23.0}
    assert (circle["chord"], circle["units"]) == (23.0, "mm")


@given(
    st.floats(0.5, 500.0),
    st.integers(1, 40),
    st.floats(-360.0, 360.0),
    st.tuples(st.floats(-100, 100), st.floats(-100, 100)),
)
def test_circle_places_lie_on_the_circle(pcd: float, count: int, start: float, centre: tuple[float, float]) -> None:
    """Every place is half the pitch circle from the centre; neighbours are a chord apart."""
    circle = circle_as_json(pcd, count, start, centre, Unit.INCH)
    points = [(place["x"], place["y"]) for place in circle["positions"]]
    assert len(points) == count
    assert all(math.dist(point, centre) == pytest.approx(pcd / 2, abs=1e-5) for point in points)
    if count > 1:
        assert math.dist(points[0], points[-1]) == pytest.approx(circle["chord"], abs=1e-5)
        assert circle["chord"] == pytest.approx(pcd * math.sin(math.pi / count), abs=1e-5)


@pytest.mark.parametrize(("pcd", "count"), [(0.0, 6), (-5.0, 6), (46.0, 0), (math.inf, 6), (math.nan, 6)])
def test_circle_that_is_none(pcd: float, count: int) -> None:
    """A circle without size or holes is refused with a sentence."""
    with pytest.raises(ValueError, match="none"):
        circle_as_json(pcd, count)


def test_nothing_heavy_is_imported() -> None:
    """The look-up loads no kernel, no PDF, no YAML, no plotting and no planning of areas."""
    code = (
        "import sys; from setupsheet.plan.chain.look_up import hole_as_json; hole_as_json('12 H7');"
        "print([name for name in ('OCP', 'weasyprint', 'yaml', 'jsonschema', 'matplotlib', 'shapely', 'manifold3d',"
        " 'ezdxf', 'jinja2', 'click') if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
