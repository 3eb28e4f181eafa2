"""Build the wheel and use it without the checkout: a data file that was left out shows here and not at a user's."""

from __future__ import annotations

import subprocess
import sys
import tempfile
import zipfile
from pathlib import Path

PROJECT = Path(__file__).resolve().parent.parent

RUN = """
import sys
from pathlib import Path

sys.path.insert(0, sys.argv.pop(1))
import setupsheet

assert Path(setupsheet.__file__).is_relative_to(sys.path[0]), setupsheet.__file__
from setupsheet.cli.main import main

main(args=sys.argv[1:])
"""


def main() -> None:
    """Build, compare, use; exit 1 with a list of what is missing."""
    with tempfile.TemporaryDirectory() as folder:
        work = Path(folder)
        wheel = _built(work)
        missing = _tracked() - set(zipfile.ZipFile(wheel).namelist())
        if missing:
            sys.exit("not in the wheel: " + ", ".join(sorted(missing)))
        installed = work / "installed"
        zipfile.ZipFile(wheel).extractall(installed)
        script = work / "run.py"
        script.write_text(RUN, encoding="utf-8")
        for words in (["fit", "25 H7/g6"], ["explain", "fit"], ["new", "part"], ["build", "part/part.yaml"]):
            command = [sys.executable, "-P", str(script), str(installed), *words]
            subprocess.run(command, cwd=work, check=True, stdout=subprocess.DEVNULL)
    sys.stdout.write("the wheel holds every file and works without the checkout\n")


def _built(work: Path) -> Path:
    command = [sys.executable, "-m", "pip", "wheel", "--disable-pip-version-check", "-q", "--no-deps"]
    subprocess.run([*command, "--wheel-dir", str(work / "wheel"), str(PROJECT)], check=True)
    (wheel,) = (work / "wheel").glob("*.whl")
    return wheel


def _tracked() -> set[str]:
    """Return what the wheel must hold: every tracked file of the package and of the schemas."""
    listed = subprocess.run(
        ["git", "ls-files", "setupsheet", "schemas"], cwd=PROJECT, check=True, capture_output=True, text=True
    )
    names = listed.stdout.splitlines()
    return {f"setupsheet/{name}" if name.startswith("schemas/") else name for name in names}


main()
