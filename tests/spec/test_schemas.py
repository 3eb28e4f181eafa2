"""The schemas: one with the builders and records, described throughout, and quick and full checker agree."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator
from pathlib import Path
from typing import Any, get_args

import jsonschema
import pytest
from hypothesis import given
from hypothesis import strategies as st

from setupsheet.length import Unit
from setupsheet.part.face import Face
from setupsheet.part.feature import Feature
from setupsheet.spec import shape, shape_quick
from setupsheet.spec.build import KINDS
from setupsheet.spec.build_pattern import KINDS as PATTERNS
from setupsheet.spec.build_setup import TURNS
from setupsheet.spec.build_stock import PLACES
from setupsheet.spec.project import SHARED
from setupsheet.spec.read import read

SPECS = Path(__file__).parents[2] / "specs"
NAMES = ("part", "shop")


def properties(rules: Any, path: str = "") -> Iterator[tuple[str, dict[str, Any]]]:
    """Return every property of a schema with its path."""
    if isinstance(rules, list):
        for index, item in enumerate(rules):
            yield from properties(item, f"{path}/{index}")
    if not isinstance(rules, dict):
        return
    for name, item in rules.get("properties", {}).items():
        if not path.endswith("/if"):
            yield f"{path}/{name}", item
    for key, item in rules.items():
        if key not in ("examples", "enum", "const"):
            yield from properties(item, f"{path}/{key}")


@pytest.mark.parametrize("name", NAMES)
def test_is_draft_7(name: str) -> None:
    """The schema itself is sound."""
    rules = shape.schema(name)
    assert "draft-07" in rules["$schema"]
    jsonschema.Draft7Validator.check_schema(rules)


@pytest.mark.parametrize("name", NAMES)
def test_every_property_is_described(name: str) -> None:
    """Hover text: what it is, in which unit, and an example; each example fits its own property."""
    root = shape.schema(name)
    units = (
        "unit",
        "mm",
        "Degrees",
        "degrees",
        "rpm",
        "watts",
        "micrometres",
        "whole number",
        "true or false",
        "from 1",
    )
    for path, rules in properties(root):
        assert any(word in rules["description"] for word in units), (path, rules["description"])
        assert rules["examples"], path
        for example in rules["examples"]:
            assert shape_quick.fits(example, rules, root), (path, example)


@pytest.mark.parametrize("name", NAMES)
def test_unknown_keys_are_refused_everywhere(name: str) -> None:
    """Every mapping with named keys refuses others; a feature does so through its kind."""
    for path, rules in all_objects(shape.schema(name)):
        if "properties" in rules and not path.endswith(("/if", "/feature")):
            assert rules.get("additionalProperties") is False, path


def all_objects(rules: Any, path: str = "") -> Iterator[tuple[str, dict[str, Any]]]:
    """Return every part of a schema that is itself a schema."""
    if isinstance(rules, list):
        for index, item in enumerate(rules):
            yield from all_objects(item, f"{path}/{index}")
    if isinstance(rules, dict):
        if not path.endswith(("/properties", "/definitions")):
            yield path, rules
        for key, item in rules.items():
            if key not in ("examples", "enum", "const"):
                yield from all_objects(item, f"{path}/{key}")


def test_kinds_agree() -> None:
    """Schema, builders and records know the same kinds of features."""
    in_schema = shape.schema("part")["definitions"]["feature"]["properties"]["kind"]["enum"]
    fields = [field for record in get_args(Feature) for field in dataclasses.fields(record)]
    records = [str(field.default) for field in fields if field.name == "kind"]
    assert sorted(in_schema) == sorted(KINDS) == sorted(records)
    cases = shape.schema("part")["definitions"]["feature"]["allOf"]
    assert [case["if"]["properties"]["kind"]["const"] for case in cases] == in_schema


def test_words_agree() -> None:
    """Faces, units, patterns, turns and tolerance rows are the same in schema and program."""
    root = shape.schema("part")
    assert root["properties"]["units"]["enum"] == [unit.value for unit in Unit]
    setup = root["properties"]["setups"]["items"]["properties"]
    assert setup["up"]["enum"] == [face.value for face in Face]
    assert tuple(setup["turn"]["enum"]) == TURNS
    assert set(PATTERNS) < set(root["definitions"]["pattern"]["properties"])
    assert set(root["properties"]["tolerances"]["properties"]) == {*PLACES, "angles"}
    assert set(root["definitions"]["shared"]["properties"]) == {"format", "units", "include", *SHARED}


def keywords(rules: Any, inside: str = "") -> Iterator[str]:
    """Return every keyword that a schema uses."""
    if isinstance(rules, list):
        for item in rules:
            yield from keywords(item)
    elif isinstance(rules, dict):
        names = inside in ("properties", "definitions")
        for key, item in rules.items():
            if not names:
                yield key
            if names or key not in ("examples", "enum", "const", "required"):
                yield from keywords(item, "" if names else key)


@pytest.mark.parametrize("name", NAMES)
def test_quick_checker_knows_every_keyword(name: str) -> None:
    """The quick checker understands all that the schemas say."""
    describing = {"$schema", "$id", "title", "description", "examples"}
    assert set(keywords(shape.schema(name))) <= shape_quick.KEYWORDS | describing


ODD = st.sampled_from([None, "", "x", 0, 1, -3.5, True, [], [1], [1, 2], [1, 2, 3], {}, {"x": 1}, "hole", "top"])


def places(value: Any) -> list[tuple[Any, Any]]:
    """Return every place inside plain values at which something else could stand."""
    keys = list(value) if isinstance(value, dict) else list(range(len(value))) if isinstance(value, list) else []
    return [(value, key) for key in keys] + [place for key in keys for place in places(value[key])]


@given(st.data())
def test_quick_and_full_checker_agree(data: st.DataObject) -> None:
    """Whatever is put in the place of a value, a key or an item: both checkers say the same."""
    name, file = data.draw(st.sampled_from([("part", "worm-bracket"), ("part", "indicator-foot"), ("shop", "shop")]))
    tree = read((SPECS / f"{file}.yaml").read_bytes(), "x")[0]
    assert tree is not None
    values = shape.plain(tree)
    for _ in range(data.draw(st.integers(1, 2))):
        holder, key = data.draw(st.sampled_from(places(values)))
        if data.draw(st.booleans()) and isinstance(holder, dict):
            holder[data.draw(st.sampled_from(["at", "to", "kind", "nonsense"]))] = holder.pop(key)
        else:
            holder[key] = data.draw(ODD)
    rules = shape.schema(name)
    assert shape_quick.fits(values, rules, rules) == (not list(shape.faults(values, rules)))


def test_schema_file_in_a_checkout() -> None:
    """The schema lies where the first line of each spec points."""
    assert shape.schema_path("part") == SPECS.parent / "schemas" / "part.schema.json"
