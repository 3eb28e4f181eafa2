"""Exit codes, and plain words for what no command expects: a missing library, a fault of our own."""

from __future__ import annotations

import os
import sys

import click

from setupsheet import __version__

FINE = 0
FAULTS = 1
WRONG_USAGE = 2
IMPOSSIBLE = 3
OUR_FAULT = 70
INTERRUPTED = 130
"""What a shell gives for a program that was stopped by Ctrl-C."""
READER_LEFT = 141
"""What a shell gives for a program whose output nobody reads any more."""

SYSTEM_LIBRARIES = "libgl1 libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0"
"""Debian packages that the CAD kernel and the PDF library load."""

_DISTRIBUTIONS = {"OCP": "cadquery-ocp-novtk>=8.0,<8.1", "yaml": "pyyaml", "fontTools": "fonttools"}
"""Import name -> what to install, where the two differ."""


def tell(problem: Exception) -> int:
    """Say on stderr what happened and return the exit code."""
    if _interrupted(problem):
        return INTERRUPTED
    repair = repair_command(problem)
    if repair:
        click.echo(f"a library is missing: {_one_line(problem)}\ntry: {repair}", err=True)
        return IMPOSSIBLE
    click.echo(f"this is a fault of setupsheet, not of your spec: {_one_line(problem)}", err=True)
    click.echo(f"nothing was written; {_report(problem)}", err=True)
    return OUR_FAULT


def _interrupted(problem: BaseException) -> bool:
    """Tell whether Ctrl-C is behind a problem: a library that is just being loaded makes an ImportError of it."""
    chain: list[BaseException] = []
    link: BaseException | None = problem
    while link is not None and link not in chain:
        chain.append(link)
        link = link.__cause__ or link.__context__
    return any(isinstance(one, KeyboardInterrupt) for one in chain)


def repair_command(problem: Exception) -> str:
    """Return the command that installs the library whose absence this is; '' if it is something else."""
    text = str(problem)
    if isinstance(problem, ModuleNotFoundError):
        top = (problem.name or "").split(".")[0]
        if top in ("", "setupsheet"):
            return ""
        return f"{sys.executable} -m pip install '{_DISTRIBUTIONS.get(top, top)}'"
    shared_object = isinstance(problem, ImportError) and ".so" in text
    by_name = isinstance(problem, OSError) and "cannot load library" in text
    return f"apt-get install -y {SYSTEM_LIBRARIES}   (as root)" if shared_object or by_name else ""


def _one_line(problem: Exception) -> str:
    lines = str(problem).strip().splitlines()
    return f"{type(problem).__name__}: {lines[0]}" if lines else type(problem).__name__


def _report(problem: Exception) -> str:
    """Write what a developer needs into a file in the temporary folder; say where it is."""
    import platform  # these three are slow to load, and only trouble needs them
    import tempfile
    import traceback

    told = "".join(traceback.format_exception(problem))
    head = f"setupsheet {__version__}, Python {platform.python_version()}, {platform.platform()}"
    try:
        handle, name = tempfile.mkstemp(prefix="setupsheet-report-", suffix=".txt")
        with os.fdopen(handle, "w", encoding="utf-8", errors="replace") as file:
            file.write(f"{head}\narguments: {sys.argv[1:]}\n\n{told}")
    except OSError as full:
        return f"a report could not be written: {full.strerror}"
    return f"please send the report {name}"
