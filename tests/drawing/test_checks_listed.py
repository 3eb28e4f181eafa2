"""Each rule of practice that a program can compute is built somewhere, and DEVELOPERS.md says where."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from setupsheet.drawing import checks, completeness

ROOT = Path(__file__).parents[2]
WANTED = [f"{letter}{n}" for letter, count in (("S", 5), ("L", 10), ("D", 12), ("C", 18)) for n in range(1, count + 1)]
"""Rules for the sheet, lines, geometry of dimensions, content of dimensions."""
_ID = re.compile(r"\b[SLDC]\d{1,2}\b")
_ROW = re.compile(r"^\| ([SLDC]\d+) \| (.+) \|$", re.MULTILINE)


def _built() -> dict[str, set[str]]:
    """Return by rule the functions whose docstring names it."""
    found: dict[str, set[str]] = {}
    for rule in checks.RULES:
        file = rule.__module__.rpartition(".")[2]
        for name in _ID.findall((rule.__doc__ or "").partition(":")[0]) + _ID.findall(
            (rule.__doc__ or "").partition(";")[2]
        ):
            found.setdefault(name, set()).add(f"`{file}.py`: `{rule.__name__}`")
    found.setdefault("C2", set()).add(f"`completeness.py`: `{completeness.check_completeness.__name__}`")
    found.setdefault("L2", set()).add("`tests/drawing/test_dxf.py`: the writer alone knows layers")
    return found


def test_the_table_of_the_developers_says_where_each_rule_lives() -> None:
    """The rows are those of the docstrings, in order; none is missing."""
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8").split("<!-- drawing checks -->")[1]
    built = _built()
    assert _ROW.findall(text) == [(name, ", ".join(sorted(built.get(name, {"nowhere"})))) for name in WANTED]


@pytest.mark.parametrize("name", WANTED)
def test_each_rule_is_built(name: str) -> None:
    """No rule is left to the eye."""
    assert _built().get(name)
