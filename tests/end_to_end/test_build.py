"""A build through the command line: every paper is there, the record is true, the bytes never differ."""

from __future__ import annotations

import csv
import hashlib
import json
import re
import shutil
from pathlib import Path

import pytest

from tests import house
from tests.cli.runs import run
from tests.end_to_end.builds import SPECS, Done, build

PAPERS = {
    "drawing.dxf",
    "drawing.pdf",
    "setups.html",
    "setups.pdf",
    "plan.json",
    "positions.csv",
    "part.step",
    "part.stl",
    "part_least.stl",
    "part_most.stl",
    "written.json",
}
COLUMNS = "setup,step,feature,label,operation,tool,x_mm,y_mm,z_tip_mm,x_shown,y_shown,z_shown,shown_unit"

FOLDERS = pytest.mark.parametrize("folder", SPECS)


def _files(folder: Path) -> dict[str, bytes]:
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


def test_both_parts_are_built_in_one_run(built: Done) -> None:
    """Exit code 0, and the list of files on standard output is what stands on the disk."""
    assert built.code == 0, built.stderr
    listed = [Path(line) for line in built.stdout.splitlines()]
    assert set(listed) == {path for path in built.out.rglob("*") if path.is_file()}
    assert {path.name for path in built.out.iterdir()} == set(SPECS)


@FOLDERS
def test_every_paper_is_there(built: Done, folder: str) -> None:
    """The folder holds what the contract names, views too, and nothing is empty."""
    files = _files(built.out / folder)
    assert set(files) >= PAPERS
    others = set(files) - PAPERS
    assert others
    assert all(re.fullmatch(r"views/[a-z0-9-]+\.dxf|drawing-\d+\.dxf", name) for name in others)
    assert all(len(data) > 100 for data in files.values())


@FOLDERS
def test_record_is_true(built: Done, folder: str) -> None:
    """written.json names every other file with its SHA-256, and the hash of the spec that plan.json names."""
    files = _files(built.out / folder)
    record = json.loads(files.pop("written.json"))
    assert record["files"] == {name: hashlib.sha256(data).hexdigest() for name, data in files.items()}
    assert record["spec_sha256"] == json.loads(files["plan.json"])["spec_sha256"]
    assert re.fullmatch(r"\d+\.\d+\.\d+", record["version"])


@FOLDERS
def test_same_spec_gives_the_same_bytes(built: Done, built_alone: Path, folder: str) -> None:
    """Another process, time zone, hash seed, output folder and neighbour in the run change no byte of any file."""
    here, there = _files(built.out / folder), _files(built_alone / folder)
    assert set(here) == set(there)
    assert [name for name in here if here[name] != there[name]] == []


@FOLDERS
def test_no_paper_names_this_machine(built: Done, folder: str) -> None:
    """No file holds the path of the project or of the output."""
    for name, data in _files(built.out / folder).items():
        for path in (house.PROJECT, built.out):
            assert str(path).encode() not in data, name


@FOLDERS
def test_positions_have_the_columns_of_the_contract(built: Done, folder: str) -> None:
    """positions.csv starts with the agreed columns and has a row for every place of every hole-like step."""
    lines = (built.out / folder / "positions.csv").read_text(encoding="utf-8").splitlines()
    assert lines[0].startswith(COLUMNS)
    rows = list(csv.DictReader(lines))
    plan = json.loads((built.out / folder / "plan.json").read_text(encoding="utf-8"))
    places = sum(len(step["positions"]) for setup in plan["setups"] for step in setup["steps"])
    assert len(rows) == places


@FOLDERS
def test_replay_agrees(built: Done, folder: str) -> None:
    """The plan was machined again: nothing is gouged, nothing is left that the sheet does not name."""
    verdict = json.loads((built.out / folder / "plan.json").read_text(encoding="utf-8"))["replay"]
    assert verdict["gouge"] == []
    assert verdict["left"] == []


def test_fault_leaves_the_old_papers_alone(built: Done, tmp_path: Path) -> None:
    """A spec with an error exits with 1, says where, and touches nothing of what was there."""
    out = tmp_path / "out"
    shutil.copytree(built.out / "ST-04-B", out / "ST-04-B")
    before = {path: (path.stat().st_mtime_ns, path.read_bytes()) for path in out.rglob("*") if path.is_file()}
    shutil.copytree(house.PROJECT / "specs", tmp_path / "specs")
    spec = tmp_path / "specs" / "worm-bracket.yaml"
    spec.write_text(spec.read_text(encoding="utf-8").replace("fit: 12 H7", "fit: 12 H77"), encoding="utf-8")
    done = build(out, str(spec))
    assert done.code == 1
    assert done.stdout == ""
    assert "not-in-tables" in done.stderr
    assert "Traceback" not in done.stderr
    after = {path: (path.stat().st_mtime_ns, path.read_bytes()) for path in out.rglob("*") if path.is_file()}
    assert after == before


def test_new_part_builds_at_once(tmp_path: Path) -> None:
    """What ``setupsheet new`` writes builds without an error."""
    assert run("new", str(tmp_path / "plate")).exit_code == 0
    done = build(tmp_path / "out", str(tmp_path / "plate" / "part.yaml"))
    assert done.code == 0, done.stderr
    assert set(_files(tmp_path / "out" / "ST-20-A")) >= PAPERS


def test_folder_that_cannot_be_written_is_told(tmp_path: Path) -> None:
    """A file where the output folder belongs gives wrong usage and a plain sentence, at once."""
    (tmp_path / "out").write_text("a file", encoding="utf-8")
    for out in (tmp_path / "out", tmp_path / "out" / "deeper"):
        result = run("build", "specs/indicator-foot.yaml", "--out", str(out))
        assert result.exit_code == 2
        assert "cannot be written" in result.stderr
        assert "--out" in result.stderr
