"""How the program ends: exit codes, plain words in the place of tracebacks, help with an example first."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from setupsheet import flow
from setupsheet.cli import build, check, fit, progress, trouble
from setupsheet.cli.main import COMMANDS
from setupsheet.finding import Place, caution, error
from tests import house
from tests.cli.runs import run


def _raises(problem: BaseException) -> Callable[..., object]:
    def raising(*_words: object) -> object:
        raise problem

    return raising


@pytest.mark.parametrize("command", ["", *COMMANDS])
def test_help_shows_an_example_first(command: str) -> None:
    """Every help starts with an example that a reader can type."""
    result = run(*([command] if command else []), "--help")
    assert result.exit_code == 0
    lines = result.stdout.splitlines()
    assert lines[0] in ("Example:", "Examples:")
    assert lines[1].startswith(f"  setupsheet {command}".rstrip())
    assert max(map(len, lines)) <= 80


@pytest.mark.parametrize("command", COMMANDS)
def test_example_of_a_look_up_works(command: str) -> None:
    """The examples of the help that need no kernel are run as they stand."""
    lines = run(command, "--help").stdout.split("Usage:")[0].splitlines()[1:]
    for line in lines:
        if command in ("build", "new") or (command == "check" and "--text-only" not in line) or not line.strip():
            continue
        done = subprocess.run(
            line.replace("setupsheet", f"{sys.executable} -m setupsheet", 1),
            shell=True,
            cwd=house.PROJECT,
            capture_output=True,
            text=True,
            check=False,
        )
        assert done.returncode == 0, done.stderr
        assert done.stdout or command == "check"


def test_unknown_command_names_the_nearest() -> None:
    """Wrong usage gives 2 and a way out."""
    result = run("chek", "part.yaml")
    assert result.exit_code == trouble.WRONG_USAGE
    assert "did you mean check?" in result.stderr


def test_fault_of_our_own_gives_70_and_a_report(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """A bug shows no traceback; the report file holds it."""
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    monkeypatch.setattr(fit, "fit_as_json", _raises(ZeroDivisionError("a secret bug")))
    result = run("fit", "25 H7")
    assert result.exit_code == trouble.OUR_FAULT
    assert result.stdout == ""
    assert "Traceback" not in result.stderr
    (report,) = tmp_path.iterdir()
    assert str(report) in result.stderr
    assert "ZeroDivisionError: a secret bug" in report.read_text(encoding="utf-8")


MISSING = {
    "libGL.so.1": ImportError("libGL.so.1: cannot open shared object file: No such file or directory"),
    "pango": OSError("cannot load library 'libpango-1.0-0': libpango-1.0-0: cannot open shared object file"),
    "python module": ModuleNotFoundError("No module named 'OCP'", name="OCP"),
}


@pytest.mark.parametrize("problem", MISSING.values(), ids=MISSING)
def test_missing_library_gives_3_and_the_repair(monkeypatch: pytest.MonkeyPatch, problem: Exception) -> None:
    """What this machine lacks is named with the command that installs it."""
    monkeypatch.setattr(flow, "build", _raises(problem))
    result = run("build", "specs/worm-bracket.yaml")
    assert result.exit_code == trouble.IMPOSSIBLE
    assert "install" in result.stderr.partition("try:")[2]
    assert "Traceback" not in result.stderr


def test_what_a_library_prints_is_no_result(monkeypatch: pytest.MonkeyPatch) -> None:
    """A banner that a library prints on the way never mixes with the list of files or with JSON."""

    def noisy(_path: Path, _bar: object) -> flow.Built:
        sys.stdout.write("a banner")
        return flow.Built(None, None, [])

    monkeypatch.setattr(flow, "check", noisy)
    assert run("check", "--format", "json", "part.yaml").stdout == "[]\n"


def test_system_libraries_are_named_alike_everywhere() -> None:
    """The message and the set-up install the same packages."""
    set_up = (house.PROJECT / ".start" / "set-up").read_text(encoding="utf-8")
    assert f'libraries="{trouble.SYSTEM_LIBRARIES}"' in set_up


def test_own_missing_module_is_our_fault() -> None:
    """A broken import of our own code is a bug and nothing to install."""
    broken = ModuleNotFoundError("No module named 'setupsheet.gone'", name="setupsheet.gone")
    assert trouble.repair_command(broken) == ""
    assert trouble.repair_command(FileNotFoundError(2, "No such file")) == ""


def test_interrupt_gives_130(monkeypatch: pytest.MonkeyPatch) -> None:
    """Ctrl-C ends without a traceback."""
    monkeypatch.setattr(flow, "build", _raises(KeyboardInterrupt()))
    result = run("build", "specs/worm-bracket.yaml")
    assert result.exit_code == trouble.INTERRUPTED
    assert "Traceback" not in result.stderr


def test_interrupt_while_a_library_loads_gives_130(monkeypatch: pytest.MonkeyPatch) -> None:
    """The CAD kernel turns Ctrl-C during its start into an ImportError; that is no fault of ours."""
    problem = ImportError("initialization failed")
    problem.__cause__ = KeyboardInterrupt()
    monkeypatch.setattr(flow, "build", _raises(problem))
    result = run("build", "specs/worm-bracket.yaml")
    assert (result.exit_code, result.stderr) == (trouble.INTERRUPTED, "")


def test_reader_that_leaves_early_sees_no_traceback() -> None:
    """``setupsheet ... | head -1`` ends quietly."""
    words = [sys.executable, "-m", "setupsheet", "circle", "--pcd", "46", "--count", "2000"]
    with subprocess.Popen(words, cwd=house.PROJECT, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as process:
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.close()
        said = process.stderr.read()
    assert said == b""


def test_terminal_without_our_signs_gets_question_marks() -> None:
    """An old terminal's encoding is no reason to fail."""
    done = subprocess.run(
        [sys.executable, "-m", "setupsheet", "fit", "25 H7/g6"],
        cwd=house.PROJECT,
        env={**os.environ, "PYTHONIOENCODING": "koi8-r"},
        capture_output=True,
        check=False,
    )
    assert done.returncode == 0
    assert b"+21 ?m" in done.stdout


SPECS = (Path("a.yaml"), Path("b.yaml"))
FAULT = error("key-missing", "units: is missing", Place("a.yaml", 1, 1))
HINT = caution("no-shop", "no shop", Place("a.yaml", 1, 1))


def test_only_errors_give_1(monkeypatch: pytest.MonkeyPatch) -> None:
    """Cautions and notes leave the exit code at 0."""
    monkeypatch.setattr(flow, "check_text", lambda _path: [HINT])
    assert run("check", "--text-only", "a.yaml").exit_code == trouble.FINE
    monkeypatch.setattr(flow, "check_text", lambda _path: [HINT, FAULT])
    assert run("check", "--text-only", "a.yaml").exit_code == trouble.FAULTS


def test_two_specs_of_one_folder_are_both_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    """Neither check nor build lets one part's papers replace those of the other."""
    built = flow.Built(None, None, [], "P-1-A")
    for module in (check, build):
        monkeypatch.setattr(module.flow, "build", lambda _path, _bar: built)
        monkeypatch.setattr(module.flow, "check", lambda _path, _bar: built)
    for command in ("check", "build"):
        result = run(command, *map(str, SPECS))
        assert result.exit_code == trouble.FAULTS
        assert (result.stdout + result.stderr).count("two-specs-one-folder") == 2


def test_bar_waits_and_needs_a_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without a terminal, and in the first half second, nothing is drawn."""
    started: list[str] = []
    monkeypatch.setattr(progress.Bar, "_start", lambda _self: started.append("bar"))
    now = [0.0]
    monkeypatch.setattr("time.monotonic", lambda: now[0])
    for terminal in (False, True):
        monkeypatch.setattr("sys.stderr.isatty", lambda found=terminal: found, raising=False)
        with progress.Bar("part") as bar:
            bar("solid", 1, 5)
            assert started == []
            now[0] += 0.6
            bar("plan", 2, 5)
            assert started == (["bar"] if terminal else [])
