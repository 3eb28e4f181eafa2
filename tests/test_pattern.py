"""Patterns that are compiled late match as the library's own do."""

from __future__ import annotations

import re

from hypothesis import given
from hypothesis import strategies as st

from setupsheet.pattern import Pattern

LATE, EARLY = Pattern(r"(m)\d+", re.IGNORECASE), re.compile(r"(m)\d+", re.IGNORECASE)


@given(st.text("mM12 x", max_size=8))
def test_as_the_library(words: str) -> None:
    """Every way of matching gives the same spans and parts."""
    for way in ("match", "fullmatch", "search"):
        late, early = getattr(LATE, way)(words), getattr(EARLY, way)(words)
        assert (late and late.span()) == (early and early.span())
    assert LATE.findall(words) == EARLY.findall(words)
    assert LATE.split(words) == EARLY.split(words)
