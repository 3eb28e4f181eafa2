"""``setupsheet explain``: a key of the spec or the shop file, a finding's code, a word of the trade."""

from __future__ import annotations

import difflib
import functools
import textwrap
import tomllib
from collections.abc import Iterator
from importlib import resources
from typing import Any

import click

from setupsheet.cli.command import Command
from setupsheet.plan.checks import table
from setupsheet.spec.shape import schema, written

EXAMPLE = """
setupsheet explain countersink
setupsheet explain features.hole.fit
setupsheet explain hole-outside-part
"""
SCHEMAS = ("part", "shop")


@click.command(cls=Command, example=EXAMPLE)
@click.argument("word", nargs=-1, required=True)
def command(word: tuple[str, ...]) -> None:
    """Explain a key of the spec or of the shop file, a finding's code, or a word of the trade."""
    asked = " ".join(" ".join(word).split()).rstrip(":")
    told = [*_finding(asked), *_trade(asked), *_keys(asked)]
    if not told:
        raise click.UsageError(f"nothing is known about {asked!r}{_near(asked)}")
    click.echo("\n\n".join(told))


@functools.cache
def findings() -> dict[str, dict[str, str]]:
    """Return code -> what, why, try; the checks before cutting tell theirs themselves."""
    return {**tomllib.loads(_words("findings.toml")), **table.explained()}


@functools.cache
def glossary() -> dict[str, str]:
    """Return trade word -> what it means."""
    return tomllib.loads(_words("glossary.toml"))


def described() -> Iterator[tuple[str, dict[str, Any]]]:
    """Yield every key of the spec and the shop file by its full name, with what the schema says of it."""
    for name in SCHEMAS:
        whole = schema(name)
        yield from _below(name, whole)
        for kind, one in whole.get("definitions", {}).items():
            yield f"{name}.{kind}", one
            yield from _below(f"{name}.{kind}", one)


def _below(path: str, node: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    """Yield the keys under a node; a key that has any name ('a feature's id') counts as none."""
    for key, value in node.get("properties", {}).items():
        yield f"{path}.{key}", value
        yield from _below(f"{path}.{key}", value)
    for inner in ("items", "additionalProperties"):
        if isinstance(node.get(inner), dict):
            yield from _below(path, node[inner])


def _words(file: str) -> str:
    return resources.files("setupsheet.cli").joinpath("words", file).read_text(encoding="utf-8")


def _finding(asked: str) -> Iterator[str]:
    entry = findings().get(asked.lower())
    if entry:
        rows = (("what", entry["what"]), ("why", entry["why"]), ("try", entry["try"]))
        yield "\n".join([f"{asked.lower()}: a finding", *(_row(label, text) for label, text in rows)])


def _trade(asked: str) -> Iterator[str]:
    for word in dict.fromkeys((asked.lower(), asked.lower().replace("-", " "))):
        if word in glossary():
            yield f"{word}: a word of the trade\n{_row('', glossary()[word])}"


def _keys(asked: str) -> Iterator[str]:
    """Yield what the schemas say, a kind of feature first; a text of several places is told once, with all of them."""
    wanted = asked.lower().replace(" ", "-").replace("features.", "part.")
    kind = schema("part")["definitions"].get(wanted, {})
    told: dict[str, list[str]] = {_about(kind): []} if "kind" in kind.get("properties", {}) else {}
    for path, node in described():
        if path == wanted or path.endswith(f".{wanted}"):
            told.setdefault(_about(node), []).append(path)
    for about, paths in told.items():
        yield f"{', '.join(paths)}: a key\n{about}"


def _about(node: dict[str, Any]) -> str:
    rows = [("", node.get("description", ""))]
    if "enum" in node:
        rows.append(("one of", ", ".join(map(str, node["enum"]))))
    rows += [("example", written(example)) for example in node.get("examples", [])[:4]]
    rows.append(("kinds", ", ".join(_kinds(node))))
    if "properties" in node:
        rows.append(("keys", ", ".join(node["properties"])))
    return "\n".join(_row(label, text) for label, text in rows if text)


def _kinds(node: dict[str, Any]) -> list[str]:
    """Return the kinds among which each entry of a node chooses; none where its entries have no kind."""
    entry = (node.get("additionalProperties") or {}).get("$ref", "").rpartition("/")[2]
    properties = schema("part")["definitions"].get(entry, {}).get("properties", {})
    return list(properties.get("kind", {}).get("enum", []))


def _row(label: str, text: str) -> str:
    indent = " " * 2 if not label else f"  {label:<9}"
    return textwrap.fill(text, 80, initial_indent=indent, subsequent_indent=" " * len(indent), break_on_hyphens=False)


def _near(asked: str) -> str:
    known = {*findings(), *glossary(), *(path.rpartition(".")[2] for path, _ in described())}
    near = difflib.get_close_matches(asked.lower(), sorted(known), n=3, cutoff=0.55)
    return f"; did you mean {', '.join(near)}?" if near else ""
