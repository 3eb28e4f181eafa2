"""A quick yes or no: whether plain values have the shape that a schema asks for.

Only the few keywords that our schemas use. ``shape`` asks here first and calls for the full
validator, whose start costs more than reading a whole spec, only where the answer is no. A test holds
both to the same answers.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Callable
from typing import Any

Rules = dict[str, Any]

_OF_VALUES = ("type", "const", "enum", "pattern", "items", "minItems", "maxItems")
_OF_KEYS = ("required", "properties", "additionalProperties", "propertyNames")
KEYWORDS = frozenset((*_OF_VALUES, *_OF_KEYS, "allOf", "if", "then", "$ref", "definitions"))
"""Keywords that this module understands, besides the ones that only describe."""

_TYPES: dict[str, Callable[[Any], bool]] = {
    "object": lambda value: isinstance(value, dict),
    "array": lambda value: isinstance(value, list),
    "string": lambda value: isinstance(value, str),
    "boolean": lambda value: isinstance(value, bool),
    "integer": lambda value: isinstance(value, int) and not isinstance(value, bool),
    "number": lambda value: isinstance(value, int | float) and not isinstance(value, bool),
}


def fits(value: Any, rules: Rules, root: Rules) -> bool:
    """Tell whether plain values fit the rules; ``root`` is the schema that ``$ref`` points into."""
    if "$ref" in rules:
        return fits(value, root["definitions"][rules["$ref"].rpartition("/")[2]], root)
    if not _itself(value, rules):
        return False
    if "if" in rules and fits(value, rules["if"], root) and not fits(value, rules.get("then", {}), root):
        return False
    if not all(fits(value, part, root) for part in rules.get("allOf", ())):
        return False
    if isinstance(value, dict):
        return _object(value, rules, root)
    return _array(value, rules, root) if isinstance(value, list) else True


def _itself(value: Any, rules: Rules) -> bool:
    wanted = rules.get("type")
    if wanted is not None:
        kinds = wanted if isinstance(wanted, list) else (wanted,)
        if not any(_TYPES[kind](value) for kind in kinds):
            return False
    if "const" in rules and not _same(value, rules["const"]):
        return False
    if "enum" in rules and not any(_same(value, one) for one in rules["enum"]):
        return False
    return "pattern" not in rules or not isinstance(value, str) or _pattern(rules["pattern"]).search(value) is not None


@functools.cache
def _pattern(text: str) -> re.Pattern[str]:
    return re.compile(text)


def _same(one: Any, other: Any) -> bool:
    """Tell whether two values are one; true is not 1."""
    return isinstance(one, bool) == isinstance(other, bool) and bool(one == other)


def _object(value: dict[str, Any], rules: Rules, root: Rules) -> bool:
    if any(key not in value for key in rules.get("required", ())):
        return False
    known = rules.get("properties", {})
    names = rules.get("propertyNames")
    more = rules.get("additionalProperties", True)
    for key, item in value.items():
        if names is not None and not fits(key, names, root):
            return False
        if key in known:
            if not fits(item, known[key], root):
                return False
        elif more is False or (isinstance(more, dict) and not fits(item, more, root)):
            return False
    return True


def _array(value: list[Any], rules: Rules, root: Rules) -> bool:
    if not rules.get("minItems", 0) <= len(value) <= rules.get("maxItems", len(value)):
        return False
    items = rules.get("items")
    return items is None or all(fits(item, items, root) for item in value)
