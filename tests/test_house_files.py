"""The house: small files, small functions, plain names, nothing of one machine, no talk outside cli/."""

from __future__ import annotations

import ast
import re
import statistics

import pytest

from tests import house

FILE_LINES = 400
FUNCTION_LINES = 40
TEST_FUNCTION_LINES = 60
"""In tests, where a record that is written out is long and plain."""
USUAL_FUNCTION_LINES = 25
PARAMETERS = 6

NO_NAMES = {"utils", "util", "helpers", "helper", "common", "manager", "base", "misc", "core"}
"""Words that say nothing about what a file or a class is for."""

ALL = {f"setupsheet/{name}": tree for name, tree in house.modules().items()} | {
    f"tests/{name}": tree for name, tree in house.test_modules().items()
}


@pytest.mark.parametrize("name", sorted(ALL))
def test_file_is_short(name: str) -> None:
    """A file holds one idea: at most 400 lines."""
    assert len((house.PROJECT / name).read_text(encoding="utf-8").splitlines()) <= FILE_LINES


def _lines(function: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    return (function.end_lineno or function.lineno) - function.lineno + 1


@pytest.mark.parametrize("name", sorted(ALL))
def test_functions_are_short(name: str) -> None:
    """A function has at most 40 lines (60 in tests) and 6 parameters (self and test fixtures not counted)."""
    limit = FUNCTION_LINES if name.startswith("setupsheet/") else TEST_FUNCTION_LINES
    long = [f"{one.name}: {_lines(one)} lines" for one in house.functions(ALL[name]) if _lines(one) > limit]
    wide = []
    for one in house.functions(ALL[name]) if name.startswith("setupsheet/") else ():
        names = [arg.arg for arg in (*one.args.posonlyargs, *one.args.args, *one.args.kwonlyargs)]
        count = len([arg for arg in names if arg not in ("self", "cls")])
        if count > PARAMETERS:
            wide.append(f"{one.name}: {count} parameters")
    assert long + wide == []


def test_most_functions_are_shorter_still() -> None:
    """Nine functions of ten have at most 25 lines."""
    lengths = [_lines(one) for tree in house.modules().values() for one in house.functions(tree)]
    assert statistics.quantiles(lengths, n=10)[-1] <= USUAL_FUNCTION_LINES


@pytest.mark.parametrize("name", sorted(ALL))
def test_names_say_something(name: str) -> None:
    """No file, folder or class is called by a word that fits everything."""
    words = set(re.split(r"[/_.]", name))
    for node in ast.walk(ALL[name]):
        if isinstance(node, ast.ClassDef):
            words |= {word.lower() for word in re.findall(r"[A-Z][a-z]*", node.name)}
    assert words & NO_NAMES == set()


@pytest.mark.parametrize("name", sorted(ALL))
def test_docstrings(name: str) -> None:
    """Every module, public class, public function and test says in a docstring what it is."""
    tree = ALL[name]
    bare = [] if ast.get_docstring(tree) else ["the module"]
    bare += [node.name for node in _public(tree) if not ast.get_docstring(node)]
    assert bare == []


def _public(node: ast.Module | ast.ClassDef) -> list[ast.ClassDef | ast.FunctionDef]:
    """Return the public classes, functions and methods of a module, not what stands inside a function."""
    found: list[ast.ClassDef | ast.FunctionDef] = []
    for one in node.body:
        if isinstance(one, ast.ClassDef | ast.FunctionDef) and not one.name.startswith("_"):
            found += [one, *(_public(one) if isinstance(one, ast.ClassDef) else ())]
    return found


@pytest.mark.parametrize("name", sorted(name for name in house.modules() if not name.startswith("cli/")))
def test_only_the_command_line_talks_and_exits(name: str) -> None:
    """No print, no exit, nothing on stderr and no bare Exception outside cli/."""
    found = []
    for node in ast.walk(house.modules()[name]):
        if isinstance(node, ast.Call):
            called = ast.unparse(node.func)
            if called in ("print", "exit", "quit", "sys.exit", "os._exit", "sys.stdout.write", "sys.stderr.write"):
                found.append(f"line {node.lineno}: {called}")
        if isinstance(node, ast.ExceptHandler) and (node.type is None or ast.unparse(node.type) in _BARE):
            found.append(f"line {node.lineno}: except without a kind")
        if isinstance(node, ast.Raise) and node.exc is not None and ast.unparse(node.exc).split("(")[0] in _BARE:
            found.append(f"line {node.lineno}: a bare Exception")
    assert found == []


_BARE = ("Exception", "BaseException")

MACHINE_PATH = re.compile(r"(?<![\w.*])/(?:" + "|".join(("work", "tmp", "root", "home", "Users")) + r")/\w")
REGISTRIES = ("python" + "hosted", "pypi" + ".org", "registry." + "npmjs", "deb." + "debian", "files.python" + "hosted")
BINARY = (".png", ".otf", ".ttf", ".pdf", ".stl", ".step")


@pytest.mark.parametrize("name", [name for name in house.tracked() if not name.endswith(BINARY)])
def test_tracked_file_names_no_machine(name: str) -> None:
    """No file holds a path of one machine or the host of a package registry."""
    text = (house.PROJECT / name).read_text(encoding="utf-8")
    assert MACHINE_PATH.search(text) is None
    assert [host for host in REGISTRIES if host in text] == []


TOP_LEVEL = {
    "README.md",
    "DEVELOPERS.md",
    "pyproject.toml",
    "LICENSE",
    "specs",
    "setupsheet",
    "schemas",
    "tests",
    "out",
}


def test_top_level_is_tidy() -> None:
    """Only the agreed names stand at the top, and names that start with a dot."""
    names = {name.split("/")[0] for name in house.tracked()}
    assert {name for name in names if not name.startswith(".")} <= TOP_LEVEL
