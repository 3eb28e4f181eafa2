"""The plan's schema and the plan's records say the same, in both directions."""

from __future__ import annotations

import json
import types
import typing
from dataclasses import MISSING, fields, is_dataclass
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from setupsheet.finding import error
from setupsheet.plan import record
from setupsheet.plan.record import Plan, as_json
from setupsheet.plan.replay.replay import replay
from tests.plan.replay_parts import turned_over

SCHEMA: dict[str, Any] = json.loads((Path(__file__).parents[2] / "schemas" / "plan.schema.json").read_text("utf-8"))
UNITS = ("mm", "degrees", "kg", "rpm", "econds", "counted", "no unit", "+1 or -1")
BY_HAND = ("Piece", "Finding")
"""Definitions of what the records carry as plain dicts."""


def _records() -> dict[str, Any]:
    found: dict[str, Any] = {}

    def walk(kind: Any) -> None:
        if is_dataclass(kind) and isinstance(kind, type):
            if kind.__name__ in found:
                return
            found[kind.__name__] = kind
            for hint in typing.get_type_hints(kind).values():
                walk(hint)
        for inner in typing.get_args(kind):
            walk(inner)

    walk(Plan)
    return found


RECORDS = _records()


def _described(name: str) -> dict[str, Any]:
    return SCHEMA if name == "Plan" else SCHEMA["definitions"][name]


def _check(value: Any, shape: dict[str, Any]) -> None:
    jsonschema.Draft7Validator({**shape, "definitions": SCHEMA["definitions"]}).validate(value)


def _is(name: str) -> dict[str, Any]:
    return {"$ref": f"#/definitions/{name}"}


def _plain(shape: dict[str, Any]) -> Any:
    """Reduce a property to its type alone."""
    if "allOf" in shape or "anyOf" in shape:
        inner = _plain((shape.get("allOf") or shape["anyOf"])[0])
        return inner if "allOf" in shape else {"or null": inner}
    if "$ref" in shape:
        return shape["$ref"].rpartition("/")[2]
    kind = shape.get("type")
    if isinstance(kind, list):
        return {"or null": _plain({**shape, "type": kind[0]})}
    if kind == "array":
        items = shape["items"]
        inner = [_plain(item) for item in items] if isinstance(items, list) else _plain(items)
        return {"list of": inner, "length": shape.get("minItems") if "maxItems" in shape else None}
    if kind == "object":
        return {"map of": _plain(shape["additionalProperties"])}
    return kind


def _wanted(kind: Any) -> Any:
    """Reduce a record's type in the same way."""
    names = {str: "string", int: "integer", float: "number", bool: "boolean"}
    if kind in names:
        return names[kind]
    if is_dataclass(kind) and isinstance(kind, type):
        return kind.__name__
    origin, inner = typing.get_origin(kind), typing.get_args(kind)
    if origin in (typing.Union, types.UnionType):
        return {"or null": _wanted(next(one for one in inner if one is not type(None)))}
    if origin is dict:
        return "a dict" if inner[1] is Any else {"map of": _wanted(inner[1])}
    if inner[-1] is Ellipsis:
        return {"list of": _wanted(inner[0]), "length": 4 if kind == record.Matrix else None}
    same = len(set(inner)) == 1
    return {"list of": _wanted(inner[0]) if same else [_wanted(one) for one in inner], "length": len(inner)}


def test_every_record_has_a_definition_and_every_definition_a_record() -> None:
    """No record of the plan is missing in the schema, and the schema describes nothing else."""
    assert set(SCHEMA["definitions"]) == (set(RECORDS) - {"Plan"}) | set(BY_HAND)


@pytest.mark.parametrize("name", sorted(RECORDS))
def test_names_required_and_types_agree(name: str) -> None:
    """Same names, required exactly where the record has no default, same types, nothing more allowed."""
    told, kind = _described(name), RECORDS[name]
    hints = typing.get_type_hints(kind)
    needed = {f.name.rstrip("_") for f in fields(kind) if f.default is MISSING and f.default_factory is MISSING}
    assert set(told["properties"]) == {f.name.rstrip("_") for f in fields(kind)}
    assert set(told["required"]) == needed
    assert told["additionalProperties"] is False
    for field in fields(kind):
        found, wanted = _plain(told["properties"][field.name.rstrip("_")]), _wanted(hints[field.name])
        if wanted == {"list of": "a dict", "length": None}:
            assert found["list of"] in BY_HAND
        else:
            assert found == wanted, field.name


@pytest.mark.parametrize("name", [*sorted(RECORDS), *BY_HAND])
def test_every_property_is_described_with_unit_and_example(name: str) -> None:
    """A sentence for each; numbers name their unit or say that they have none; examples are sound."""
    for key, told in _described(name)["properties"].items():
        assert told["description"].endswith("."), key
        kind = _plain(told)
        if "number" in str(kind) or "integer" in str(kind):
            assert any(unit in told["description"] for unit in UNITS), key
        if kind in [*RECORDS, *({"or null": other} for other in RECORDS)]:
            continue
        assert told["examples"], key
        for example in told["examples"]:
            _check(example, told)


def test_the_schema_is_sound() -> None:
    """It is a draft-07 schema and every example of it is one."""
    jsonschema.Draft7Validator.check_schema(SCHEMA)


def test_a_finding_is_as_described() -> None:
    """Findings carry the fields that the schema names."""
    found = error("wall-thin", "The wall is thin.").as_json()
    _check(found, _is("Finding"))


def test_a_verdict_is_as_described() -> None:
    """A verdict with a gouge and metal left validates, and the steps of a hand-made plan do."""
    block = turned_over()
    plan = block.copy()
    plan["setups"][1]["steps"][0]["moves"][1]["path"] = [[-12.0, -30.0], [-12.0, 30.0]]
    plan["setups"][0]["steps"][0]["positions"].pop()
    plan["setups"][0]["steps"][1]["moves"][0]["z"] = -7.0
    verdict = replay(plan, block.least, block.most)
    assert verdict.gouge
    assert verdict.left
    _check(as_json(verdict), _is("Verdict"))
    for setup in plan["setups"]:
        _check(setup, _is("Setup"))


def test_an_unknown_key_is_refused() -> None:
    """A misspelt key of a step is not taken silently."""
    step = {**turned_over().plan["setups"][0]["steps"][0], "position": []}
    with pytest.raises(jsonschema.ValidationError, match="position"):
        _check(step, _is("Step"))
