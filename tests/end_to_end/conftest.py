"""Both demo parts built once for all tests of this folder: together, and each alone under other circumstances."""

from __future__ import annotations

import os
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path

import pytest

from tests import house

SPECS = {"ST-04-B": "specs/worm-bracket.yaml", "BT-02-A": "specs/indicator-foot.yaml"}
"""Folder of a build -> its spec."""

HERE = {"TZ": "UTC", "PYTHONHASHSEED": "1", "LC_ALL": "C.UTF-8"}
ELSEWHERE = {"TZ": "XYZ-13", "PYTHONHASHSEED": "4242", "LC_ALL": "C", "SOURCE_DATE_EPOCH": "1234567890"}


@dataclass(frozen=True, slots=True)
class Done:
    """A finished run: where its output is, its exit code, what it said."""

    out: Path
    code: int
    stdout: str
    stderr: str


def build(out: Path, *specs: str, **environment: str) -> Done:
    """Build in a process of its own."""
    words = [sys.executable, "-m", "setupsheet", "build", *specs, "--out", str(out)]
    done = subprocess.run(
        words, cwd=house.PROJECT, env={**os.environ, **environment}, capture_output=True, text=True, check=False
    )
    return Done(out, done.returncode, done.stdout, done.stderr)


@pytest.fixture(scope="session")
def built(tmp_path_factory: pytest.TempPathFactory) -> Done:
    """Both parts, built in one run."""
    return build(tmp_path_factory.mktemp("together"), *SPECS.values(), **HERE)


@pytest.fixture(scope="session")
def built_alone(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Each part built in a run of its own, in another time zone, with another hash seed, at another folder."""
    out = tmp_path_factory.mktemp("alone-in-a-folder-with-a-longer-name")
    with ThreadPoolExecutor() as pool:
        runs = list(pool.map(lambda spec: build(out, spec, **ELSEWHERE), SPECS.values()))
    assert [run.code for run in runs] == [0, 0], runs
    return out
