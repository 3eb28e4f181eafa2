"""YAML -> tree: what is kept, what is refused, and that hostile files end quickly."""

from __future__ import annotations

import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setupsheet.spec.raw_text import MAX_BYTES
from setupsheet.spec.read import MAX_DEPTH, read
from setupsheet.spec.tree import Mapping, Scalar, Sequence, child


def text_at(source: str, *path: str) -> str:
    """Return the written text at a path."""
    tree, found = read(source.encode(), "x.yaml")
    assert not found
    node = child(tree, *path)
    assert isinstance(node, Scalar)
    return node.text


@pytest.mark.parametrize(
    "word", ["no", "yes", "on", "010", "6:1", "1e3", "12.70", "0x10", "null", "~", "2026-01-02", "1_000"]
)
def test_scalars_stay_text(word: str) -> None:
    """YAML's own guesses never happen."""
    assert text_at(f"a: {word}\n", "a") == word
    assert text_at(f"a: {{b: {word}}}\n", "a", "b") == word


def test_places() -> None:
    """Keys and values know line and column, counted from 1."""
    tree, _ = read(b"a: 1\nb:\n  c: [x, yy]\n", "s.yaml")
    assert tree is not None
    inner = child(tree, "b")
    assert isinstance(inner, Mapping)
    assert str(inner.entries["c"].key.place) == "s.yaml:3:3"
    items = inner.get("c")
    assert isinstance(items, Sequence)
    assert str(items.items[1].place) == "s.yaml:3:10"


def faults(source: str | bytes) -> list[tuple[str, int]]:
    """Return codes and lines of what is wrong."""
    raw = source.encode() if isinstance(source, str) else source
    return [(finding.code, finding.place.line if finding.place else 0) for finding in read(raw, "x.yaml")[1]]


@pytest.mark.parametrize(
    ("source", "expected"),
    [
        ("", [("not-a-spec", 1)]),
        ("# only a comment\n", [("not-a-spec", 1)]),
        ("- a\n", [("not-a-spec", 1)]),
        ("just words\n", [("not-a-spec", 1)]),
        ("a: 1\nb: 2\na: 3\n", [("key-twice", 3)]),
        ("a: {b: 1, b: 2}\n", [("key-twice", 1)]),
        ("drill: #7\nb: 1\n", [("value-is-comment", 1)]),
        ("a: # a remark\nb: 1\n", [("value-missing", 1)]),
        ("a:\nb: 1\n", [("value-missing", 1)]),
        ("a: [1, , 2]\n", [("not-yaml", 1)]),
        ("a: {radius: =max(a, b)}\n", [("expression-split", 1)]),
        ("a: [=max(a, b), 3]\n", [("expression-split", 1)]),
        ("a: {r: =max(min(a, b), c), s: 1}\n", [("expression-split", 1)]),
        ("a: b: c\n", [("not-yaml", 1)]),
        ("a: 'b\n", [("not-yaml", 1)]),
        ("a: [1, 2\nb: 3\n", [("not-yaml", 2)]),
        ("a: @b\n", [("not-yaml", 1)]),
        ("a: !!int 3\n", [("tag", 1)]),
        ("a: !x {b: 1}\n", [("tag", 1)]),
        ("a: 1\n---\nb: 2\n", [("two-documents", 2)]),
        ("a:\n\tb: 1\n", [("tab", 2)]),
        ("a: *x\n", [("unknown-alias", 1)]),
        ("a: &x [*x]\n", [("alias-cycle", 1)]),
        ("[1, 2]: 3\n", [("key-not-text", 1)]),
        ("<<: 3\n", [("merge", 1)]),
        (b"a: \xff\n", [("not-utf-8", 1)]),
        ("a: b".encode("utf-16"), [("not-utf-8", 1)]),
        ("a: \x07\n", [("control-character", 1)]),
        ("a: 1\x00\n", [("control-character", 1)]),
        ('a: "x\\0y"\n', [("control-character", 1)]),
        ('"a\\e[2J": 1\n', [("control-character", 1)]),
        ("a: {b: 5,5, c: 1}\n", [("decimal-comma", 1)]),
        ("a: {b: 5,25 mm}\n", [("decimal-comma", 1)]),
        ("a: {b: #7, c: 1}\nd: 2\n", [("not-yaml", 2)]),
        ("a: x\u202ey\n", [("control-character", 1)]),
        ("a: x\u200by\n", [("control-character", 1)]),
        ('a: "\\ud800"\n', [("not-yaml", 1)]),
        ("\ufeffa: 1\n", [("byte-order-mark", 1)]),
    ],
)
def test_fault(source: str | bytes, expected: list[tuple[str, int]]) -> None:
    """Each fault of the text is one finding at its line."""
    assert faults(source) == expected


def test_key_twice_names_both_lines() -> None:
    """A key that stands twice is told with both lines."""
    found = read(b"a: 1\nb: 2\na: 3\n", "x.yaml")[1]
    assert "line 1" in found[0].message
    assert "line 3" in found[0].message


def test_comment_trap_says_how_to_write_it() -> None:
    """The finding for ``drill: #7`` shows the line and the way out."""
    found = read(b"drill: #7\n", "x.yaml")[1][0]
    assert found.found == "drill: #7"
    assert "no. 7" in found.try_


def test_comment_inside_of_braces_says_so() -> None:
    """``{drill: #7}`` leaves the brace open; the finding names the comment and not the line below."""
    found = read(b"h: {drill: #7, through: true}\nd: 2\n", "x.yaml")[1][0]
    assert '"#7"' in found.try_


@pytest.mark.parametrize(("written", "meant"), [("5,5", "5.5"), ("5,25 mm", "5.25 mm"), ("1,000.5", "1000.5")])
def test_decimal_comma_is_offered_with_a_point(written: str, meant: str) -> None:
    """What was cut at the comma is put together again."""
    found = read(f"a: {{b: {written}, c: 1}}\n".encode(), "x.yaml")[1][0]
    assert (found.code, found.found, found.try_) == ("decimal-comma", written, f"write {meant}")


def test_split_expression_costs_one_finding() -> None:
    """The rest of a split expression brings no second finding, and the key stays known as empty."""
    tree, found = read(b"a: {r: =max(a, b), s: 1}\n", "x.yaml")
    assert [finding.code for finding in found] == ["expression-split"]
    inner = child(tree, "a")
    assert isinstance(inner, Mapping)
    assert list(inner.entries) == ["r", "s"]


def test_quoted_expression_is_whole() -> None:
    """In quotes the comma does not split."""
    assert text_at('a: {r: "=max(a, b)"}\n', "a", "r") == "=max(a, b)"


def test_alias_and_merge() -> None:
    """Aliases give the value again; a merge adds keys, the mapping's own win."""
    source = "x: &x {a: 1, b: 2}\ny: {<<: *x, b: 3}\nz: *x\n"
    assert text_at(source, "y", "a") == "1"
    assert text_at(source, "y", "b") == "3"
    assert text_at(source, "z", "b") == "2"


def test_windows_line_ends() -> None:
    """Line ends of another system change nothing."""
    assert text_at("a: 1\r\nb: 2\r\n", "b") == "2"


def billion_laughs() -> str:
    """Return aliases of aliases that would unfold to ten to the ninth values."""
    lines = ["a: &a [x, x, x, x, x, x, x, x, x, x]"]
    lines += [f"{chr(98 + i)}: &{chr(98 + i)} [{', '.join(['*' + chr(97 + i)] * 10)}]" for i in range(9)]
    return "\n".join(lines) + "\n"


@pytest.mark.parametrize(
    ("source", "code"),
    [
        (billion_laughs(), "aliases-unfold"),
        ("[" * 100_000, "too-deep"),
        ("{a: " * 100_000, "too-deep"),
        ("- " * 100_000 + "x", "too-deep"),
        ("".join(" " * i + "a:\n" for i in range(MAX_DEPTH * 2)), "too-deep"),
        ("a: [" + "1," * 200_000 + "1]", "too-many-values"),
        ("a: " + "x" * MAX_BYTES, "file-too-large"),
        ("a: &a {<<: *a}\n", "alias-cycle"),
    ],
)
def test_hostile_file(source: str, code: str) -> None:
    """A hostile file is refused in a moment, with one finding."""
    start = time.process_time()
    found = read(source.encode(), "x.yaml")[1]
    assert [finding.code for finding in found] in ([code], ["not-yaml"])
    assert time.process_time() - start < 3


@given(st.binary(max_size=200))
def test_any_bytes(raw: bytes) -> None:
    """Any bytes give a tree or findings, never an exception."""
    tree, found = read(raw, "x.yaml")
    assert tree is not None or found


@given(st.text(":-{}[]&*!|>'\"%@`# \nabc,?<", max_size=60))
def test_any_yaml_like_text(source: str) -> None:
    """The same for texts of YAML's own signs."""
    tree, found = read(source.encode(), "x.yaml")
    assert tree is not None or found
