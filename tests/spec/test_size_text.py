"""Written sizes: cut into nominal and tolerance."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setupsheet.spec.size_text import SizeText, decimals, split


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("12", SizeText("12")),
        ("12.70 mm", SizeText("12.70 mm")),
        ("1-1/2", SizeText("1-1/2")),
        ("12 H7", SizeText("12", fit="H7")),
        ("12H7", SizeText("12", fit="H7")),
        ("12 js6", SizeText("12", fit="js6")),
        ("1/2 in H7", SizeText("1/2 in", fit="H7")),
        ("24 -0.05/-0.15", SizeText("24", "-0.05", "-0.15")),
        ("12 +0.02/-0", SizeText("12", "+0.02", "-0")),
        ("12 +0.02/0", SizeText("12", "+0.02", "+0")),
        ("12 0/-0.02", SizeText("12", "+0", "-0.02")),
        ("34 ±0.05", SizeText("34", "+0.05", "-0.05")),
        ("34 +/-0.05", SizeText("34", "+0.05", "-0.05")),
        ("5/16 +0.005/-0", SizeText("5/16", "+0.005", "-0")),
        ("2-3/4 ±1/64", SizeText("2-3/4", "+1/64", "-1/64")),
        ("=pcd/2", SizeText("=pcd/2")),
        ("=pcd/2 ±0.1", SizeText("=pcd/2", "+0.1", "-0.1")),
        ("=pcd/2 to 3 places", SizeText("=pcd/2", places=3)),
        ("=a + b to 1 place ±0.2", SizeText("=a + b", "+0.2", "-0.2", places=1)),
        ("=bore H7", SizeText("=bore", fit="H7")),
    ],
)
def test_split(text: str, parts: SizeText) -> None:
    """Each form of a size comes apart as it is meant."""
    assert split(text) == parts


@pytest.mark.parametrize(
    ("text", "places"), [("12", 0), ("12.70", 2), ("1-1/2", -1), ("3/8 in", -1), (".500", 3), ("1.5 mm", 1)]
)
def test_decimals(text: str, places: int) -> None:
    """The number of written places decides the tolerance by places; a fraction has its own row."""
    assert decimals(text) == places


@given(st.text(max_size=30))
def test_any_text(text: str) -> None:
    """Any text comes apart without an exception."""
    assert isinstance(split(text), SizeText)
    assert decimals(text) >= -1
