"""Every key, every finding's code and the words of the trade are explained."""

from __future__ import annotations

import ast
import re

import pytest

from setupsheet.cli import explain
from tests import house
from tests.cli.runs import run

_SAYS = {"error", "caution", "note", "wrong", "missing", "mind", "say"} | {
    "Finding",
    "Fault",
    "_say",
    "_fault",
    "_misplaced",
}
_CODE = re.compile(r"[a-z]+(-[a-z0-9]+)*")


def _codes() -> set[str]:
    """Return every code that the package's source gives to a finding, written out, in a table or as CODE."""
    codes: set[str] = set()
    for tree in house.modules().values():
        told = [node for node in ast.walk(tree) if isinstance(node, ast.Call) and _says(node)]
        codes |= {text for node in told for argument in node.args[:2] for text in _texts(argument)}
        by_name = any(isinstance(node.args[0], ast.Name) for node in told if node.args)
        for node in ast.walk(tree):
            if isinstance(node, ast.Assign) and ast.unparse(node.targets[0]) in ("_FAULTS", "CODE"):
                value = ast.literal_eval(node.value)
                codes |= {value} if isinstance(value, str) else set(value)
            if by_name and isinstance(node, ast.Tuple) and len(node.elts) in (2, 3):
                codes |= {text for text in _texts(node.elts[0]) if "-" in text}
    return codes


def _says(call: ast.Call) -> bool:
    return ast.unparse(call.func).split(".")[-1] in _SAYS


def _texts(argument: ast.expr) -> list[str]:
    """Return the codes that an argument can be."""
    if isinstance(argument, ast.IfExp):
        return [*_texts(argument.body), *_texts(argument.orelse)]
    is_code = isinstance(argument, ast.Constant) and isinstance(argument.value, str) and _CODE.fullmatch(argument.value)
    return [ast.literal_eval(argument)] if is_code else []


def test_every_code_of_the_source_is_explained() -> None:
    """A finding that nobody explains is half a finding: add it to cli/words/findings.toml."""
    assert _codes() - set(explain.findings()) == set()


def test_no_code_is_explained_that_is_never_given() -> None:
    """What is explained can happen."""
    assert set(explain.findings()) - _codes() == set()


@pytest.mark.parametrize("code", sorted(explain.findings()))
def test_explanation_is_whole(code: str) -> None:
    """Each says what is wrong, why it matters and what to do, in whole sentences."""
    entry = explain.findings()[code]
    assert set(entry) == {"what", "why", "try"}
    assert all(text[0].isupper() or text[0].isalpha() for text in entry.values())
    assert all(text.endswith(".") for text in entry.values())


def test_every_key_of_the_schemas_has_a_description() -> None:
    """``explain`` has something to say of every key that a spec or a shop file may hold."""
    assert [path for path, node in explain.described() if not node.get("description")] == []


def test_a_finding_is_explained() -> None:
    """A code gives what, why and try."""
    text = run("explain", "hole-outside-part").stdout
    assert [line.split()[0] for line in text.splitlines() if line.startswith("  ") and line[2] != " "] == [
        "what",
        "why",
        "try",
    ]


def test_a_key_is_explained_where_it_stands() -> None:
    """A key with its kind before it names one place, with an example."""
    text = run("explain", "features.hole.fit").stdout
    assert text.startswith("part.hole.fit: a key")
    assert "12 H7" in text


def test_a_kind_of_feature_comes_first_with_whole_examples() -> None:
    """The word slot names a kind and an area: the kind is told first; features: lists the kinds."""
    text = run("explain", "slot").stdout
    assert text.startswith("part.slot: a key")
    assert "{kind: slot, centres: [[15, 30], [40, 30]], width: 8, through: true}" in text
    assert "kinds    hole, level, round boss" in run("explain", "features").stdout


def test_a_trade_word_of_two_words_is_found() -> None:
    """Words behind the command belong together; hyphens and blanks are one."""
    assert run("explain", "edge", "finder").stdout == run("explain", "edge finder").stdout
    assert "half a tip" in run("explain", "edge finder").stdout
    assert "bolt circle: a word of the trade" in run("explain", "bolt-circle").stdout


def test_text_fits_in_80_columns() -> None:
    """No line of any explanation is longer than 80 signs."""
    for word in ("countersink", "do", "remove", "position", "zero"):
        assert max(map(len, run("explain", word).stdout.splitlines())) <= 80


def test_unknown_word_offers_the_nearest() -> None:
    """A word that is not known is wrong usage and gets the nearest ones."""
    result = run("explain", "countersnik")
    assert result.exit_code == 2
    assert "countersink" in result.stderr
