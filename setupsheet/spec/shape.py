"""Tree against ``schemas/*.json``: unknown keys, missing keys, wrong forms, all in one run.

The only place that knows JSON Schema. A feature is held against the shape of its own ``kind`` alone,
so that one wrong key does not bring the faults of eleven kinds.
"""

from __future__ import annotations

import difflib
import functools
import json
import re
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

from setupsheet.finding import Finding, Findings, Place, error
from setupsheet.spec import shape_quick
from setupsheet.spec.tree import Mapping, Node, Scalar, Sequence

_PACKAGE = Path(__file__).parent.parent


def schema_path(name: str) -> Path:
    """Return the file of a schema ('part', 'shop', 'plan'): in an installed package or in a checkout."""
    inside = _PACKAGE / "schemas" / f"{name}.schema.json"
    return inside if inside.is_file() else _PACKAGE.parent / "schemas" / f"{name}.schema.json"


@functools.cache
def schema(name: str) -> dict[str, Any]:
    """Return a schema as plain values."""
    loaded: dict[str, Any] = json.loads(schema_path(name).read_text(encoding="utf-8"))
    return loaded


def check(tree: Mapping, name: str, definition: str = "") -> Findings:
    """Return every fault of a tree's shape against a schema, or against one of its definitions."""
    whole = schema(name)
    rules = whole if not definition else {**whole["definitions"][definition], "definitions": whole["definitions"]}
    values = plain(tree)
    if shape_quick.fits(values, rules, rules):
        return []
    found: Findings = []
    for fault in faults(values, rules):
        found += _findings(fault, tree)
    return list(dict.fromkeys(found))


def faults(values: Any, rules: dict[str, Any]) -> Iterator[Any]:
    """Return the faults that the full validator finds, in its own records; its start takes time, so only here."""
    import jsonschema  # noqa: PLC0415 - costs more than a whole spec, needed for its faults only

    return iter(jsonschema.Draft7Validator(rules).iter_errors(values))


_WHOLE = re.compile(r"-?(0|[1-9]\d*)$")
_DECIMAL = re.compile(r"-?(0|[1-9]\d*)\.\d+$")


def plain(node: Node) -> Any:
    """Return a tree as plain values for the schema; an empty value counts as not there."""
    if isinstance(node, Mapping):
        return {key: plain(entry.value) for key, entry in node.entries.items() if not _empty(entry.value)}
    if isinstance(node, Sequence):
        return [plain(item) for item in node.items]
    text = node.text
    if node.plain and text in ("true", "false"):
        return text == "true"
    if node.plain and len(text) < 16 and _WHOLE.match(text):
        return int(text)
    if node.plain and len(text) < 30 and _DECIMAL.match(text):
        return float(text)
    return text


def _empty(node: Node) -> bool:
    return isinstance(node, Scalar) and node.empty


def _findings(fault: Any, tree: Mapping) -> Iterable[Finding]:
    """Return the findings for one fault that the validator reports."""
    path = list(fault.absolute_path)
    node = find(tree, path)
    feature = _feature(path)
    if node is None or _empty(node):
        return ()
    reader = _READERS.get(fault.validator, _other)
    return tuple(reader(fault, node, path, feature))


def find(tree: Node, path: Iterable[str | int]) -> Node | None:
    """Return the node at a path of keys and list places (an empty item is skipped by none)."""
    node: Node | None = tree
    for step in path:
        if isinstance(node, Mapping) and isinstance(step, str):
            node = node.get(step)
        elif isinstance(node, Sequence) and isinstance(step, int) and step < len(node.items):
            node = node.items[step]
        else:
            return None
    return node


def _feature(path: list[str | int]) -> str:
    if len(path) > 1 and path[0] in ("features", "machines", "vises"):
        return str(path[1])
    if len(path) > 1 and path[0] == "setups":
        return f"setup {int(path[1]) + 1}"
    return ""


def nearest(word: str, known: Iterable[str]) -> str:
    """Return the known word that is spelled most like ``word``, '' if none is near."""
    close = difflib.get_close_matches(word, list(known), n=1, cutoff=0.55)
    return close[0] if close else ""


def _unknown_keys(fault: Any, node: Node, path: list[str | int], feature: str) -> Iterable[Finding]:
    known = tuple(fault.schema.get("properties", {}))
    for key in node.entries if isinstance(node, Mapping) else ():
        if key in known:
            continue
        near = nearest(key, [name for name in known if isinstance(node, Mapping) and name not in node.entries])
        yield error(
            "unknown-key",
            f"'{key}' is no key {_inside(path)}",
            node.key_place(key) if isinstance(node, Mapping) else node.place,
            feature=feature,
            found=key,
            allowed=", ".join(known),
            try_=f"did you mean '{near}'?"
            if near
            else f"delete it, or look at: setupsheet explain {_topic(node, path)}",
        )


def _topic(node: Node, path: list[str | int]) -> str:
    """Return the word that ``explain`` knows for a mapping: a feature's kind, else its key."""
    kind = node.get("kind") if isinstance(node, Mapping) else None
    if isinstance(kind, Scalar):
        return kind.text
    return str(next((step for step in reversed(path) if isinstance(step, str)), "part"))


def _inside(path: list[str | int]) -> str:
    names = [str(step) for step in path if isinstance(step, str)]
    return f"in {names[-1]}" if names else "at the top of the file"


def _missing(fault: Any, node: Node, path: list[str | int], feature: str) -> Iterable[Finding]:
    for key in fault.validator_value:
        if not isinstance(node, Mapping) or key in node.entries:
            continue
        example = fault.schema.get("properties", {}).get(key, {}).get("examples", [""])[0]
        shown = f"{key}: {written(example)}" if example != "" else f"{key}:"
        same = next((name for name in node.entries if name.lower() == key), "")
        place = node.key_place(same) if same else node.place if path else Place(node.place.file, 1, 1)
        yield error(
            "key-missing",
            f"{key}: is missing {_inside(path)}",
            place,
            feature=feature,
            found=", ".join(node.entries) or "nothing",
            allowed=f"{key}:",
            try_=f"write {key} for {same}" if same else f"add {shown}",
        )


def written(value: Any) -> str:
    """Return an example as it would be written in the file."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, list):
        return "[" + ", ".join(map(written, value)) + "]"
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key}: {written(item)}" for key, item in value.items()) + "}"
    return str(value)


def _not_a_choice(fault: Any, node: Node, path: list[str | int], feature: str) -> Iterable[Finding]:
    allowed = fault.validator_value if fault.validator == "enum" else [fault.validator_value]
    words = [written(value) for value in allowed]
    found = _shown(node)
    near = nearest(found, words)
    name = next((str(step) for step in reversed(path) if isinstance(step, str)), "value")
    yield error(
        "not-a-choice",
        f"{name}: {found} is not one of {', '.join(words)}"
        if len(words) > 1
        else f"{name}: {found}; only {words[0]} is known",
        node.place,
        feature=feature,
        found=found,
        allowed=", ".join(words),
        try_=f"write {near or words[0]}" if near or len(words) == 1 else "write one of these",
    )


def _shown(node: Node) -> str:
    if isinstance(node, Scalar):
        return node.text
    return "keys with values" if isinstance(node, Mapping) else "a list"


_FORMS = {
    "object": "keys with values",
    "array": "a list",
    "string": "a text",
    "number": "a number",
    "integer": "a whole number",
    "boolean": "true or false",
}


def _wrong_form(fault: Any, node: Node, path: list[str | int], feature: str) -> Iterable[Finding]:
    wanted = fault.validator_value if isinstance(fault.validator_value, list) else [fault.validator_value]
    words = " or ".join(dict.fromkeys(_FORMS[form] for form in wanted))
    name = next((str(step) for step in reversed(path) if isinstance(step, str)), "the file")
    examples = fault.schema.get("examples", [])
    yield error(
        "wrong-form",
        f"{name}: {_shown(node)} stands where {words} belongs",
        node.place,
        feature=feature,
        found=_shown(node),
        allowed=words,
        try_=f"write {name}: {written(examples[0])}" if examples else "",
    )


def _wrong_count(fault: Any, node: Node, path: list[str | int], feature: str) -> Iterable[Finding]:
    name = next((str(step) for step in reversed(path) if isinstance(step, str)), "the list")
    count = len(node.items) if isinstance(node, Sequence) else 0
    low, high = fault.schema.get("minItems", 0), fault.schema.get("maxItems")
    allowed = f"{low}" if low == high else f"at least {low}" if high is None else f"{low} to {high}"
    examples = fault.schema.get("examples", [])
    yield error(
        "wrong-count",
        f"{count} values stand in {name}; {allowed} belong there",
        node.place,
        feature=feature,
        found=str(count),
        allowed=allowed,
        try_=f"write {name}: {written(examples[0])}" if examples else "",
    )


def _bad_name(fault: Any, node: Node, path: list[str | int], feature: str) -> Iterable[Finding]:
    pattern = re.compile(fault.schema.get("propertyNames", {}).get("pattern", "") or fault.validator_value)
    for key in node.entries if isinstance(node, Mapping) else ():
        if pattern.search(key):
            continue
        letters = (
            "a capital letter"
            if path[-1:] == ["datums"]
            else "a letter first, then letters, digits and hyphens, up to 40"
        )
        yield error(
            "not-a-name",
            f"'{key}' cannot be a name {_inside(path)}",
            node.key_place(key) if isinstance(node, Mapping) else node.place,
            feature=feature,
            found=key,
            allowed=letters,
            try_="rename it; what the drawing says can stand under label: or note:",
        )


def _other(fault: Any, node: Node, _path: list[str | int], feature: str) -> Iterable[Finding]:
    yield error("wrong-value", fault.message, node.place, feature=feature, found=_shown(node))


_READERS = {
    "additionalProperties": _unknown_keys,
    "required": _missing,
    "enum": _not_a_choice,
    "const": _not_a_choice,
    "type": _wrong_form,
    "minItems": _wrong_count,
    "maxItems": _wrong_count,
    "propertyNames": _bad_name,
    "pattern": _bad_name,
}
