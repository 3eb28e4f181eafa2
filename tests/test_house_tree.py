"""The house: DEVELOPERS.md lists the folders, tests mirror the package, each kind is known to each stage."""

from __future__ import annotations

import re
from collections import Counter

import pytest

from setupsheet.drawing.dimensions import RULES
from setupsheet.drawing.needs import NEEDS
from setupsheet.plan.milling.work import MAKERS
from setupsheet.solid import volumes
from setupsheet.spec.build import KINDS
from setupsheet.spec.shape import schema
from tests import house

OWN_TEST_FOLDERS = {"published", "end_to_end", "benchmarks"}
"""Folders of tests that belong to no single stage."""


BY_FIXTURE = {"spec/test_start.py"}
"""Tests that reach their stage by a fixture or a process of their own alone."""


def _listed() -> set[str]:
    """Return the folders that DEVELOPERS.md names in its list, with the slash taken off."""
    text = (house.PROJECT / "DEVELOPERS.md").read_text(encoding="utf-8")
    block = text.split("<!-- folders -->")[1]
    return {match.rstrip("/") for match in re.findall(r"^\| `([^`]+/)` \|", block, flags=re.MULTILINE)}


def _tracked_folders() -> set[str]:
    """Return the folders that hold tracked files: the top ones, all of the package's, the tests' own per stage."""
    folders = set()
    for name in house.tracked():
        parts = name.split("/")[:-1]
        depth = {"setupsheet": 3, "tests": 2}.get(parts[0], 1) if parts else 0
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
    """tests/plan/test_x.py is about setupsheet/plan/x.py, one side of it, or several files of that stage."""
    assert [name for name in house.test_modules() if "/test_" in name and not _has_subject(name)] == []


def _has_subject(name: str) -> bool:
    """Tell whether a file has its module's name (test_x.py, test_x_side.py, or build_x.py's), or imports its stage."""
    folder, _, file = name.rpartition("/")
    stage = folder.split("/")[0]
    inner, slash, name_alone = file.rpartition("/")
    subject = f"{inner}{slash}{name_alone.removeprefix('test_').removesuffix('.py')}"
    own = {module.rpartition("/")[2].removesuffix(".py") for module in house.modules() if module.startswith(folder)}
    if stage in OWN_TEST_FOLDERS or name in BY_FIXTURE:
        return True
    if any(subject == module or subject.startswith(f"{module}_") or module.endswith(f"_{subject}") for module in own):
        return True
    names = [full for full, _line in house.imported(house.test_modules()[name])]
    return any(full.startswith((f"setupsheet.{stage}.", f"tests.{stage}.")) for full in names)


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


def test_every_part_has_its_own_number() -> None:
    """A build's folder is named by the number, so two specs with one number would write over each other."""
    texts = {
        name: (house.PROJECT / name).read_text(encoding="utf-8")
        for name in house.tracked()
        if name.endswith(".yaml") and name.startswith(("specs/", "tests/corpus/"))
    }
    numbers = [number for text in texts.values() for number in re.findall(r"^number: *([^\s#]+)", text, re.MULTILINE)]
    assert len(numbers) > 50
    assert [number for number, count in Counter(numbers).items() if count > 1] == []
