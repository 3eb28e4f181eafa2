"""A slot at an angle with a cutter of its width."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from tests.plan.planned import setup_of


def test_places_lie_on_the_centre_line_close_enough() -> None:
    """From (16, 12) to (36, 24) with a cutter of 6: never more than 2 sqrt(3^2 - 2.9^2) apart for ridges of 0.1."""
    step = next(s for s in setup_of("slot-slanted", 1).steps if "slot" in s.features)
    ends = [move.path[-1] for move in step.moves]
    assert ends[0] == pytest.approx((16.0, 12.0), abs=0.003)
    assert ends[-1] == pytest.approx((36.0, 24.0), abs=0.003)
    gaps = [math.dist(a, b) for a, b in pairwise(ends)]
    assert max(gaps) < 2 * math.sqrt(9 - 2.9**2) + 0.01
    assert all(move.entry == "plunge" for move in step.moves)
    for x, y in ends:
        assert abs((y - 12) * 20 - (x - 16) * 12) / math.hypot(20, 12) < 0.004
