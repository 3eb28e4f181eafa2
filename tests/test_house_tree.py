"""The house: DEVELOPERS.md lists the folders, tests mirror the package, each kind is known to each stage."""

from __future__ import annotations

import re

import pytest

from setupsheet.drawing.dimensions import RULES
from setupsheet.drawing.needs import NEEDS
from setupsheet.plan.work import MAKERS
from setupsheet.solid import volumes
from setupsheet.spec.build import KINDS
from setupsheet.spec.shape import schema
from tests import house

OWN_TEST_FOLDERS = {"published", "end_to_end", "benchmarks"}
"""Folders of tests that belong to no single stage."""

WHOLE_STAGE = {
    "drawing": {"random_parts", "sheets", "writers_agree"},
    "plan": {"plan_schema", "demo_parts", "turn_over"},
    "solid": {"against_other_kernel"},
    "spec": {"any_change", "bad_input", "demo_parts", "features", "schemas", "setups", "shop", "start"},
    "tables": {"hole_tables", "csv_files"},
    "cli": {"exit_codes", "look_ups"},
    "papers": set[str](),
}
"""Tests of a stage that look at several of its files at once."""


def _listed() -> set[str]:
    """Return the folders that DEVELOPERS.md names in its list, with the slash taken off."""
    text = (house.PROJECT / "DEVELOPERS.md").read_text(encoding="utf-8")
    block = text.split("<!-- folders -->")[1]
    return {match.rstrip("/") for match in re.findall(r"^\| `([^`]+/)` \|", block, flags=re.MULTILINE)}


def _tracked_folders() -> set[str]:
    """Return the folders that hold tracked files: the top ones, the package's and the tests' own."""
    folders = set()
    for name in house.tracked():
        parts = name.split("/")[:-1]
        depth = 2 if parts and parts[0] in ("setupsheet", "tests") else 1
        folders |= {"/".join(parts[:count]) for count in range(1, min(len(parts), depth) + 1)}
    return folders


def test_folder_list_equals_the_tree() -> None:
    """DEVELOPERS.md lists every folder and no other."""
    assert _listed() == _tracked_folders()


def test_every_stage_has_a_test_folder() -> None:
    """Each stage of the package has a folder of tests with its name (records without behaviour need none)."""
    folders = {name.split("/")[0] for name in house.test_modules() if "/" in name}
    assert set(house.STAGES) - {"part"} <= folders
    assert folders - set(house.STAGES) <= OWN_TEST_FOLDERS


def test_test_files_mirror_modules() -> None:
    """tests/plan/test_x.py is about setupsheet/plan/x.py, or about one side of it (test_x_side.py)."""
    assert [name for name in house.test_modules() if "/test_" in name and not _has_subject(name)] == []


def _has_subject(name: str) -> bool:
    """Tell whether a test file's module exists, or whether it is known to look at several."""
    stage, _, file = name.partition("/")
    subject = file.removeprefix("test_").removesuffix(".py")
    if stage in OWN_TEST_FOLDERS or subject in WHOLE_STAGE.get(stage, set()):
        return True
    own = {module.partition("/")[2].removesuffix(".py") for module in house.modules() if module.startswith(f"{stage}/")}
    return any(subject == module or subject.startswith(f"{module}_") for module in own)


KIND_TABLES = {
    "spec": set(KINDS),
    "solid": set(volumes.kinds()),
    "plan": {*MAKERS, "hole"},
    "drawing, what is dimensioned": set(RULES),
    "drawing, what must be given": set(NEEDS),
}


@pytest.mark.parametrize("stage", KIND_TABLES)
def test_every_kind_of_feature_is_known_to_the_stage(stage: str) -> None:
    """The schema's kinds and the rows of each stage's table are the same."""
    kinds = schema("part")["definitions"]["feature"]["properties"]["kind"]["enum"]
    assert KIND_TABLES[stage] == set(kinds)
