"""The bounds of known leftovers, worked out again from cutter and path."""

from __future__ import annotations

import math

import pytest

from setupsheet.plan.replay.leftover import bound_mm


@pytest.mark.parametrize(("wall", "cutter", "turn_deg"), [(4.0, 6.0, 30.0), (4.0, 6.0, 75.0), (20.0, 12.0, 15.0)])
def test_ridge_in_a_round_corner(wall: float, cutter: float, turn_deg: float) -> None:
    """Stops on a circle inside a round wall leave ridges as high as plane geometry says, however small that circle."""
    radius = cutter / 2
    way = wall - radius
    stops = [(way * math.cos(math.radians(turn_deg * k)), way * math.sin(math.radians(turn_deg * k))) for k in range(4)]
    half = math.radians(turn_deg / 2)
    ridge = wall - (way * math.cos(half) + math.sqrt(radius**2 - (way * math.sin(half)) ** 2))
    tool = {"diameter_mm": cutter, "profile": [[0, 0], [radius, 0], [radius, 20]], "corner_radius_mm": 0.0}
    step = {"tool": tool, "positions": [{"x": x, "y": y} for x, y in stops], "moves": []}
    leftover = {"kind": "cusp", "features": ["window"], "bound_mm": ridge, "words": ""}
    assert bound_mm({"features": []}, step, leftover) == pytest.approx(ridge, abs=1e-9)
