"""What the files of a build say about where they came from."""

from __future__ import annotations

import pytest

from setupsheet.finding import Place
from setupsheet.papers.bundle import name_inside

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
