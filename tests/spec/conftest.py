"""A small sound part as text, and a way to read a changed copy of it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from setupsheet.finding import Findings
from setupsheet.part.part import Part
from setupsheet.part.shop import Shop
from setupsheet.spec.reader import read_part

PLATE = """\
format: 1
part: Test plate
number: T-01
revision: A
units: mm
material: aluminium 6082
tolerances: ISO 2768-1 m
shop: shop.yaml
title_block: {owner: us, drawn_by: me, approved_by: you, date: 2026-01-02}
stock:
  form: plate
  size: [64, 44, 13]
size: [60, 40, 12]
datums: {A: bottom, B: left, C: front}
features:
  bore:
    kind: hole
    at: [20, 15]
    fit: 10 H7
    through: true
"""

SHOP = """\
format: 1
shop: test shop
units: mm
machines:
  mill:
    kind: mill
    travel: [400, 145, 330]
    speeds: [100, 1000]
    axes: {x: {readout: 0.005}, y: {readout: 0.005}, z: {readout: 0.005}}
"""

Read = Callable[..., tuple[Part | None, Shop | None, Findings]]


@pytest.fixture
def read(tmp_path: Path) -> Read:
    """Return a reader of the plate: ``read(("old", "new"), more="...")`` changes and lengthens its text."""

    def run(*changes: tuple[str, str], more: str = "", **files: str) -> tuple[Part | None, Shop | None, Findings]:
        text = PLATE
        for old, new in changes:
            assert old in text
            text = text.replace(old, new, 1)
        (tmp_path / "shop.yaml").write_text(files.pop("shop", SHOP), encoding="utf-8")
        for name, content in files.items():
            (tmp_path / f"{name}.yaml").write_text(content, encoding="utf-8")
        spec = tmp_path / "plate.yaml"
        spec.write_text(text + more, encoding="utf-8")
        return read_part(spec)

    return run
