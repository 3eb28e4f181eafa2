"""The examples that the schema gives for each kind of feature: they can be copied into a part and hold."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from setupsheet.finding import Severity
from setupsheet.spec.build import KINDS
from setupsheet.spec.reader import read_part
from setupsheet.spec.shape import schema

PLATE = {
    "format": 1,
    "part": "Plate",
    "number": "ST-99",
    "revision": "A",
    "units": "mm",
    "material": "aluminium 6082",
    "tolerances": "ISO 2768-1 m",
    "stock": {"form": "plate", "size": [84, 64, 22]},
    "size": [80, 60, 20],
    "datums": {"A": "bottom", "B": "left", "C": "front"},
}
EXAMPLES = [
    (kind, example)
    for kind in KINDS
    for example in schema("part")["definitions"][kind.replace(" ", "-")].get("examples", [])
]


def test_every_kind_has_one() -> None:
    """No kind of feature is left without an example."""
    assert {kind for kind, _ in EXAMPLES} == set(KINDS)


@pytest.mark.parametrize(("kind", "example"), EXAMPLES, ids=[f"{kind}-{i}" for i, (kind, _) in enumerate(EXAMPLES)])
def test_example_is_a_sound_part(kind: str, example: dict[str, Any], tmp_path: Path) -> None:
    """Put alone into a plate of 80 x 60 x 20 it is read without an error, as the kind that it says."""
    spec = tmp_path / "part.yaml"
    spec.write_text(json.dumps({**PLATE, "features": {"it": example}}), encoding="utf-8")
    part, _, findings = read_part(spec)
    assert [finding.message for finding in findings if finding.severity is Severity.ERROR] == []
    assert part is not None
    assert [feature.kind for feature in part.features] == [kind]
