"""Builds in processes of their own."""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

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
