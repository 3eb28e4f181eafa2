"""A hundred random sound parts: every drawing is free of errors, and the parts show every kind of feature."""

from __future__ import annotations

from collections import Counter

import pytest

from setupsheet.drawing.draw import draw
from setupsheet.drawing.needs import NEEDS
from setupsheet.finding import Severity
from setupsheet.solid.body import finished
from tests.drawing.random_parts import random_part

SEEDS = range(100)


@pytest.mark.parametrize("first", range(0, len(SEEDS), 10))
def test_drawings_have_no_error(first: int) -> None:
    """Neither the body nor the drawing of any of ten parts has an error."""
    for seed in SEEDS[first : first + 10]:
        part = random_part(seed)
        body = finished(part)
        sheets, findings = draw(part, body)
        assert sheets, seed
        wrong = [f.message for f in (*body.findings, *findings) if f.severity is Severity.ERROR]
        assert wrong == [], seed


def test_parts_show_every_kind() -> None:
    """Each kind of feature stands in at least twenty of the hundred parts, and every profile in twelve."""
    kinds: Counter[str] = Counter()
    profiles: Counter[tuple[str, str]] = Counter()
    for seed in SEEDS:
        part = random_part(seed)
        kinds.update({feature.kind for feature in part.features})
        profiles[(part.drawing.standard, part.drawing.projection)] += 1
    assert set(kinds) == set(NEEDS)
    assert min(kinds.values()) >= 20, kinds
    assert min(profiles.values()) >= 12, profiles
