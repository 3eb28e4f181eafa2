"""The house: small files, small functions, plain names, nothing of one machine, no talk outside cli/."""

from __future__ import annotations

import ast
import re
import statistics

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


def test_files_are_short() -> None:
    """A file holds one idea: at most 400 lines."""
    lines = {name: len((house.PROJECT / name).read_text(encoding="utf-8").splitlines()) for name in ALL}
    assert {name: count for name, count in lines.items() if count > FILE_LINES} == {}


def _lines(function: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    return (function.end_lineno or function.lineno) - function.lineno + 1


def test_functions_are_short() -> None:
    """A function has at most 40 lines, 60 in tests."""
    long = [
        f"{name}: {one.name}: {_lines(one)} lines"
        for name, tree in ALL.items()
        for one in house.functions(tree)
        if _lines(one) > (FUNCTION_LINES if name.startswith("setupsheet/") else TEST_FUNCTION_LINES)
    ]
    assert long == []


def test_most_functions_are_shorter_still() -> None:
    """Nine functions of ten have at most 25 lines."""
    lengths = [_lines(one) for tree in house.modules().values() for one in house.functions(tree)]
    assert statistics.quantiles(lengths, n=10)[-1] <= USUAL_FUNCTION_LINES


def test_functions_have_few_parameters() -> None:
    """A function of the package has at most 6 parameters; beyond that it takes a record."""
    wide = []
    for name, tree in house.modules().items():
        for one in house.functions(tree):
            names = [arg.arg for arg in (*one.args.posonlyargs, *one.args.args, *one.args.kwonlyargs)]
            if len([arg for arg in names if arg not in ("self", "cls")]) > PARAMETERS:
                wide.append(f"{name}: {one.name}")
    assert wide == []


def test_names_say_something() -> None:
    """No file, folder or class is called by a word that fits everything."""
    empty = []
    for name, tree in ALL.items():
        words = set(re.split(r"[/_.]", name))
        for node in ast.walk(tree):
            if isinstance(node, ast.ClassDef):
                words |= {word.lower() for word in re.findall(r"[A-Z][a-z]*", node.name)}
        empty += [f"{name}: {word}" for word in sorted(words & NO_NAMES)]
    assert empty == []


def test_docstrings() -> None:
    """Every module, public class, public function and test says in a docstring what it is."""
    bare = [f"{name}: the module" for name, tree in ALL.items() if not ast.get_docstring(tree)]
    bare += [
        f"{name}: {node.name}" for name, tree in ALL.items() for node in _public(tree) if not ast.get_docstring(node)
    ]
    assert bare == []


def _public(node: ast.Module | ast.ClassDef) -> list[ast.ClassDef | ast.FunctionDef]:
    """Return the public classes, functions and methods of a module, not what stands inside a function."""
    found: list[ast.ClassDef | ast.FunctionDef] = []
    for one in node.body:
        if isinstance(one, ast.ClassDef | ast.FunctionDef) and not one.name.startswith("_"):
            found += [one, *(_public(one) if isinstance(one, ast.ClassDef) else ())]
    return found


def test_only_the_command_line_talks_and_exits() -> None:
    """No print, no exit, nothing on stderr and no bare Exception outside cli/."""
    found = [
        f"{name}, line {line}: {what}"
        for name, tree in house.modules().items()
        if not name.startswith("cli/")
        for node in ast.walk(tree)
        for line, what in _talk(node)
    ]
    assert found == []


_TALK = ("print", "exit", "quit", "sys.exit", "os._exit", "sys.stdout.write", "sys.stderr.write")
_BARE = ("Exception", "BaseException")


def _talk(node: ast.AST) -> list[tuple[int, str]]:
    """Return what a node does that only the command line may do."""
    if isinstance(node, ast.Call) and ast.unparse(node.func) in _TALK:
        return [(node.lineno, ast.unparse(node.func))]
    if isinstance(node, ast.ExceptHandler) and (node.type is None or ast.unparse(node.type) in _BARE):
        return [(node.lineno, "except without a kind")]
    if isinstance(node, ast.Raise) and node.exc is not None and ast.unparse(node.exc).split("(")[0] in _BARE:
        return [(node.lineno, "a bare Exception")]
    return []


MACHINE_PATH = re.compile(r"(?<![\w.*])/(?:" + "|".join(("work", "tmp", "root", "home", "Users")) + r")/\w")
REGISTRIES = ("python" + "hosted", "pypi" + ".org", "registry." + "npmjs", "deb." + "debian")
BINARY = (".png", ".otf", ".ttf", ".pdf", ".stl", ".step")


def test_tracked_files_name_no_machine() -> None:
    """No file holds a path of one machine or the host of a package registry."""
    found = []
    for name in house.tracked():
        if name.endswith(BINARY):
            continue
        text = (house.PROJECT / name).read_text(encoding="utf-8")
        found += [f"{name}: {match.group()}" for match in MACHINE_PATH.finditer(text)]
        found += [f"{name}: {host}" for host in REGISTRIES if host in text]
    assert found == []


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
