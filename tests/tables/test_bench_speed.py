"""The JSON of the look-up ``speed``, and what a look-up may load."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest

from setupsheet.tables.bench_speed import SpeedAsked, speed_as_json
from setupsheet.tables.speeds import Spindle
from setupsheet.tables.unknown import NotInTables


def test_a_drill_has_the_fields_of_the_contract() -> None:
    """6 mm in aluminium at 61 m/min (200 sfm, US Navy 14345) is 3236 rpm: 1000 v / (pi D)."""
    found = speed_as_json(SpeedAsked(6, "aluminium 6082"))
    assert {"rpm", "rpm_ideal", "cutting_speed_m_per_min", "feed_mm_per_min", "source"} <= set(found)
    assert found["rpm_ideal"] == pytest.approx(3236.2, abs=0.1)
    assert found["rpm"] == 3200
    json.dumps(found, allow_nan=False)


def test_the_machine_decides_the_rpm() -> None:
    """The same drill on a mill whose top speed is 1800."""
    found = speed_as_json(SpeedAsked(6, "aluminium", spindle=Spindle((100, 600, 1800), stepless=False)))
    assert (found["rpm"], found["too_fast"]) == (1800, False)


def test_an_end_mill_s_feed_counts_its_flutes() -> None:
    """Twice the flutes, twice the feed: vf = fz z n (tool maker's milling formulae)."""
    two, four = (speed_as_json(SpeedAsked(12, "mild steel", "mill", flutes=flutes)) for flutes in (2, 4))
    assert isinstance(two["feed_mm_per_min"], float)
    assert four["feed_mm_per_min"] == pytest.approx(2 * two["feed_mm_per_min"], abs=0.1)


def test_a_tap_has_no_feed_of_the_table() -> None:
    """Its feed is its pitch."""
    assert speed_as_json(SpeedAsked(5, "brass", "tap"))["feed_mm_per_min"] is None


@pytest.mark.parametrize(
    "asked", [SpeedAsked(0, "brass"), SpeedAsked(6, "unobtainium"), SpeedAsked(6, "brass", "punch")]
)
def test_bad_input_is_refused(asked: SpeedAsked) -> None:
    """A message, never a traceback."""
    with pytest.raises(NotInTables):
        speed_as_json(asked)


def test_look_ups_load_nothing_heavy() -> None:
    """A fresh process that answers both look-ups has only the standard library and tables loaded."""
    code = (
        "import sys\n"
        "from setupsheet.tables.bench_fit import fit_as_json\n"
        "from setupsheet.tables.bench_speed import SpeedAsked, speed_as_json\n"
        "fit_as_json('25 H7/g6'); fit_as_json('1 RC4'); speed_as_json(SpeedAsked(6, 'brass'))\n"
        "print(','.join(sorted({name.partition('.')[0] for name in sys.modules})))\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    loaded = set(done.stdout.strip().split(","))
    heavy = {"click", "yaml", "jsonschema", "OCP", "manifold3d", "shapely", "numpy", "ezdxf", "weasyprint", "jinja2"}
    assert not loaded & (heavy | {"matplotlib", "fontTools", "rich", "hypothesis", "importlib_resources"})
    assert "setupsheet" in loaded
