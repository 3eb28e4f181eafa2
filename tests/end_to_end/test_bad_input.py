"""Bad input through the command line: a finding or a plain sentence with an exit code, never a traceback."""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests import house
from tests.cli.runs import run

BRACKET = (house.PROJECT / "specs" / "worm-bracket.yaml").read_text(encoding="utf-8")

FIVE_MISTAKES = {
    "deburr: 0.3": "debur: 0.3",
    "corner: front right": "corner: front rigth",
    "fit: 12 H7": "fit: 12 H77",
    "at: [8, 54]": "at: [8, 540]",
    "clearance: M6 medium": "clearance: M6 medum",
}
"""What is written -> the slip; each on a line of its own."""


def _spec(folder: Path, *changes: tuple[str, str]) -> Path:
    """Write the bracket with some texts changed, and what it names beside it."""
    text = BRACKET
    for right, wrong in changes:
        assert text.count(right) == 1, right
        text = text.replace(right, wrong)
    for neighbour in (house.PROJECT / "specs").glob("*.yaml"):
        shutil.copy(neighbour, folder)
    (folder / "part.yaml").write_text(text, encoding="utf-8")
    return folder / "part.yaml"


def test_five_mistakes_give_a_finding_each_at_its_line(tmp_path: Path) -> None:
    """All faults come in one run, with file, line and column, for an editor to underline."""
    spec = _spec(tmp_path, *FIVE_MISTAKES.items())
    result = run("check", "--text-only", "--format", "json", str(spec))
    assert result.exit_code == 1
    errors = [one for one in json.loads(result.stdout) if one["severity"] == "error"]
    lines = spec.read_text(encoding="utf-8").splitlines()
    expected = [next(i for i, line in enumerate(lines, 1) if slip in line) for slip in FIVE_MISTAKES.values()]
    assert sorted(one["line"] for one in errors) == sorted(expected)
    assert all(one["file"].endswith("part.yaml") and one["column"] > 0 for one in errors)
    assert all(one["message"] and one["found"] for one in errors)


CHANGED = {
    "wrong units": (("units: mm  ", "units: cm  "), "not-a-choice"),
    "a hole outside the stock": (("at: [8, 54]", "at: [8, 540]"), "hole-outside-part"),
    "a level above the stock": (("to: =pad", "to: 40"), "height-above-part"),
    "an unknown datum": (("position: 0.2 to B", "position: 0.2 to Q"), "unknown-datum"),
    "a missing shop file": (("shop: shop.yaml", "shop: shed.yaml"), "file-not-read"),
}


@pytest.mark.parametrize("case", CHANGED)
def test_fault_of_the_text_gives_its_finding(tmp_path: Path, case: str) -> None:
    """The build stops with exit code 1 and names the fault at its place; nothing is written."""
    change, code = CHANGED[case]
    spec = _spec(tmp_path, change)
    line = next(i for i, text in enumerate(spec.read_text(encoding="utf-8").splitlines(), 1) if change[1] in text)
    result = run("build", str(spec), "--out", str(tmp_path / "out"))
    assert result.exit_code == 1
    assert result.stdout == ""
    assert f"part.yaml:{line}:" in result.stderr
    assert code in result.stderr
    assert not (tmp_path / "out").exists()


BROKEN = {
    "an empty file": b"",
    "only remarks": b"# nothing\n",
    "not YAML": b"part: [1, 2\n",
    "a list": b"- one\n- two\n",
    "a single word": b"hello\n",
    "not text": bytes(range(256)),
    "a bomb of aliases": b"a: &a [1,1]\n"
    + b"".join(b"%c: &%c [*%c,*%c]\n" % (n + 1, n + 1, n, n) for n in range(97, 121)),
}


@pytest.mark.parametrize("case", BROKEN)
@pytest.mark.parametrize("command", ["check", "build"])
def test_file_that_is_no_spec_gives_findings(tmp_path: Path, command: str, case: str) -> None:
    """Whatever the bytes are: findings that name the file, exit code 1, no traceback."""
    spec = tmp_path / "part.yaml"
    spec.write_bytes(BROKEN[case])
    more = ["--out", str(tmp_path / "out")] if command == "build" else ["--format", "short"]
    result = run(command, str(spec), *more)
    assert result.exit_code == 1
    assert "part.yaml" in result.stdout + result.stderr
    assert "Traceback" not in result.stdout + result.stderr
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize("path", ["nowhere.yaml", ".", "nowhere/part.yaml"])
def test_spec_that_is_not_there(path: str) -> None:
    """A name that leads to no file gives a finding, not a traceback."""
    result = run("check", "--text-only", path, "--format", "json")
    assert result.exit_code == 1
    assert [one["code"] for one in json.loads(result.stdout)] == ["file-not-read"]


WITHOUT = """
import sys
sys.modules[sys.argv[1]] = None
from setupsheet.cli.main import main
main(args=sys.argv[2:])
"""


@pytest.mark.parametrize("library", ["OCP", "weasyprint"])
def test_missing_library_gives_the_repair_command(tmp_path: Path, library: str) -> None:
    """A build without one of its libraries exits with 3 and says what to install; nothing is written."""
    words = [
        sys.executable,
        "-c",
        WITHOUT,
        library,
        "build",
        "specs/indicator-foot.yaml",
        "--out",
        str(tmp_path / "out"),
    ]
    done = subprocess.run(words, cwd=house.PROJECT, capture_output=True, text=True, check=False)
    assert done.returncode == 3, done.stderr
    assert "pip install" in done.stderr
    assert "Traceback" not in done.stderr
    assert done.stdout == ""
    assert not (tmp_path / "out").exists()


def test_one_faulty_spec_does_not_stop_the_other(tmp_path: Path) -> None:
    """With several specs each is refused by itself; the exit code is that of the worst."""
    spec = tmp_path / "part.yaml"
    spec.write_bytes(b"")
    result = run("check", "--text-only", "--format", "short", "specs/indicator-foot.yaml", str(spec))
    assert result.exit_code == 1
    assert "title-block-blank" in result.stdout
    assert "not-a-spec" in result.stdout
