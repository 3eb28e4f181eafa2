"""The house: imports point upstream, and each outside library is known to one file."""

from __future__ import annotations

import ast
import subprocess
import sys

import pytest

from tests import house

RANK = {
    "__init__": 0,
    "finding": 0,
    "length": 0,
    "plane": 0,
    "pattern": 0,
    "part": 1,
    "tables": 2,
    "spec": 3,
    "solid": 3,
    "plan": 4,
    "drawing": 5,
    "papers": 6,
    "flow": 7,
    "cli": 8,
    "__main__": 9,
}
"""Stage or file of the package -> how far downstream it is; nothing imports what is not upstream of it."""

KERNEL_FILES = {
    f"solid/{name}.py" for name in ("body", "cutters", "edge_curve", "export", "outline", "pierced", "section")
}
"""The files of the CAD kernel: bodies, cutters as shapes, edges, export, outlines, pierced blocks, sections."""

HOME = {
    "OCP": KERNEL_FILES,
    "manifold3d": {"plan/replay/metal.py"},
    "numpy": {"plan/replay/metal.py", "solid/export.py"},
    "shapely": {"plan/milling/area.py", "plan/milling/passes.py", "plan/milling/rim_ways.py"},
    "ezdxf": {"drawing/dxf.py"},
    "fontTools": {"drawing/lettering.py"},
    "weasyprint": {"papers/pdf.py"},
    "pydyf": {"papers/pdf.py"},
    "jinja2": {"papers/html.py"},
    "markupsafe": {"papers/html.py"},
    "matplotlib": {"papers/chart.py"},
    "yaml": {"spec/read.py"},
    "jsonschema": {"spec/shape.py"},
    "rich": {"cli/progress.py"},
}
"""Outside library -> the files that may import it; click belongs to all of cli/."""

LAZY = {"flow.py", "cli/hole.py", "plan/chain/chain.py", "plan/chain/look_up.py"}
"""Files that import their own package inside a function: a look-up loads no kernel, and only its callout's tables."""


def _place(module: str) -> str:
    return module.removesuffix(".py").split("/")[0]


def _own(name: str) -> str:
    """Return the stage or file that a name of the package belongs to; '' for an outside library."""
    parts = name.split(".")
    if parts[0] != "setupsheet":
        return ""
    return parts[1] if len(parts) > 1 and parts[1] in RANK else "__init__"


def _upstream(module: str, name: str) -> bool:
    here, there = _place(module), _own(name)
    return not there or (here == there and "/" in module) or RANK[there] < RANK[here] or _both_first(here, there)


def _both_first(here: str, there: str) -> bool:
    """Tell whether both are among the first four files, which may know each other (no circle: Python would say)."""
    return RANK[here] == RANK[there] == 0


def test_every_stage_has_a_rank() -> None:
    """A new folder or file at the top of the package has to say where in the flow it stands."""
    assert {_place(module) for module in house.modules()} <= set(RANK)


def test_imports_point_upstream() -> None:
    """No module imports a stage that comes later, or another stage of the same rank."""
    against = [
        f"{module}, line {line}: {name}"
        for module, tree in house.modules().items()
        for name, line in house.imported(tree)
        if not _upstream(module, name)
    ]
    assert against == []


def test_outside_libraries_are_at_home() -> None:
    """An outside library is imported by the files that it belongs to and by no other."""
    stray = [
        f"{module}, line {line}: {name}"
        for module, tree in house.modules().items()
        for name, line in house.imported(tree)
        if not _at_home(module, name.split(".")[0])
    ]
    assert stray == []


def _at_home(module: str, library: str) -> bool:
    if library == "setupsheet" or library in sys.stdlib_module_names:
        return True
    return module in HOME.get(library, set()) or (library == "click" and module.startswith("cli/"))


def test_no_own_module_is_imported_inside_a_function() -> None:
    """A late import of an own module hides a circle."""
    late = [
        f"{module}, line {line}: {name}"
        for module, tree in house.modules().items()
        if module not in LAZY
        for function in house.functions(tree)
        for name, line in house.imported(function)
        if name.startswith("setupsheet")
    ]
    assert late == []


LIGHT = (
    ["--help"],
    ["check", "--text-only", "specs/worm-bracket.yaml"],
    ["fit", "25 H7/g6"],
    ["hole", "M5"],
    ["circle", "--pcd", "46", "--count", "6"],
    ["speed", "--diameter", "6", "--material", "aluminium 6082"],
)

PROBE = """
import sys
from setupsheet.cli.main import main
try:
    main(args=sys.argv[1:])
except SystemExit as end:
    assert end.code == 0, end.code
heavy = {"OCP", "weasyprint", "pydyf", "ezdxf", "shapely", "manifold3d", "matplotlib", "numpy", "jinja2", "rich"}
print("loaded:", sorted(heavy & set(sys.modules)))
if sys.argv[1] in ("--help", "fit", "hole", "circle", "speed"):
    print("reader:", sorted({"yaml", "jsonschema"} & set(sys.modules)))
"""


@pytest.mark.parametrize("words", LIGHT, ids=lambda words: words[0])
def test_light_commands_load_no_heavy_library(words: list[str]) -> None:
    """Help, a check of the text and the look-ups load neither kernel nor PDF library nor other slow ones."""
    run = subprocess.run(
        [sys.executable, "-c", PROBE, *words], cwd=house.PROJECT, capture_output=True, text=True, check=False
    )
    assert run.returncode == 0, run.stderr
    assert "loaded: []" in run.stdout
    if words[0] != "check":
        assert "reader: []" in run.stdout


def test_records_of_a_stage_are_frozen() -> None:
    """Every record that a stage hands on (part, plan, ink, finding) is frozen."""
    loose = []
    for module, tree in house.modules().items():
        if not module.startswith("part/") and module not in ("finding.py", "plan/record.py", "drawing/ink.py"):
            continue
        for node in ast.walk(tree):
            if isinstance(node, ast.ClassDef):
                loose += [f"{module}: {node.name}" for one in node.decorator_list if not _is_frozen(one)]
    assert loose == []


def _is_frozen(decorator: ast.expr) -> bool:
    """Tell whether a decorator is no dataclass, or a frozen one."""
    words = ast.unparse(decorator)
    return "dataclass" not in words or "frozen=True" in words
