"""What the house tests read: the package's files as syntax trees, and the tracked files."""

from __future__ import annotations

import ast
import functools
import subprocess
from pathlib import Path

PROJECT = Path(__file__).resolve().parent.parent
PACKAGE = PROJECT / "setupsheet"
STAGES = ("part", "tables", "spec", "solid", "plan", "drawing", "papers", "cli")


@functools.cache
def modules() -> dict[str, ast.Module]:
    """Return every module of the package by its path inside the package ('spec/read.py')."""
    return _trees(PACKAGE)


@functools.cache
def test_modules() -> dict[str, ast.Module]:
    """Return every module of the tests by its path inside ``tests``."""
    return _trees(PROJECT / "tests")


def _trees(folder: Path) -> dict[str, ast.Module]:
    files = sorted(path for path in folder.rglob("*.py") if "__pycache__" not in path.parts)
    return {path.relative_to(folder).as_posix(): ast.parse(path.read_text(encoding="utf-8")) for path in files}


@functools.cache
def tracked() -> tuple[str, ...]:
    """Return the files under version control, from the project's folder."""
    listed = subprocess.run(["git", "ls-files"], cwd=PROJECT, check=True, capture_output=True, text=True)
    return tuple(name for name in listed.stdout.splitlines() if (PROJECT / name).is_file())


def imported(tree: ast.AST) -> list[tuple[str, int]]:
    """Return the full name of every module that is imported anywhere in a tree, with its line."""
    names: list[tuple[str, int]] = []
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            names += [(alias.name, node.lineno) for alias in node.names]
        elif isinstance(node, ast.ImportFrom) and node.module:
            names += [(f"{node.module}.{alias.name}", node.lineno) for alias in node.names]
    return names


def functions(tree: ast.Module) -> list[ast.FunctionDef | ast.AsyncFunctionDef]:
    """Return every function and method of a module, inner ones too."""
    return [node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)]
