"""What the files of a build say about where they came from."""

from __future__ import annotations

import csv
import io
from dataclasses import replace

import pytest

from setupsheet.finding import Place
from setupsheet.papers.bundle import name_inside, positions_csv
from tests.papers.small_plan import plan

NAMES = ("specs/plate.yaml", "specs/ring.yaml")


@pytest.mark.parametrize(
    ("file", "name"),
    [
        ("/elsewhere/parts/specs/plate.yaml", "specs/plate.yaml"),
        ("../specs/ring.yaml", "specs/ring.yaml"),
        ("plate.yaml", "specs/plate.yaml"),
        ("/elsewhere/shop.yaml", "shop.yaml"),
    ],
)
def test_a_file_is_named_inside_its_project(file: str, name: str) -> None:
    """Neither an absolute path nor the folder that the program was called from gets into plan.json."""
    assert name_inside(Place(file, 3, 1), NAMES) == name


def test_a_finding_without_a_place_names_no_file() -> None:
    """What concerns no line of a file has an empty name."""
    assert name_inside(None, NAMES) == ""


def test_no_text_of_the_positions_is_run_as_a_formula() -> None:
    """A tool's name that begins with an equals sign gets an apostrophe; coordinates with a sign stay numbers."""
    whole = plan()
    named = replace(
        whole,
        setups=tuple(
            replace(
                setup,
                steps=tuple(
                    replace(step, tool=replace(step.tool, label=f"={step.tool.label}")) if step.tool else step
                    for step in setup.steps
                ),
            )
            for setup in whole.setups
        ),
    )
    plain, guarded = (list(csv.DictReader(io.StringIO(positions_csv(one)))) for one in (whole, named))
    assert len(guarded) == len(plain) > 0
    for row, before in zip(guarded, plain, strict=True):
        assert row == before | {"tool": f"'={before['tool']}"}
    assert any(row["z_tip_mm"].startswith("-") for row in guarded)
