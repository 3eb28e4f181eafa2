"""A round pocket bored with the head: settings that rise to the size and never pass it."""

from __future__ import annotations

import pytest

from setupsheet.part.shop import BoringHead
from setupsheet.plan.milling.round_openings import HEAD_CUT_MM, bore_settings
from tests.plan.planned import setup_of

DIAMETER = BoringHead("head", 10.0, 40.0, 10.0, 60.0, 40.0, "diameter", 0.02, True, 400)
RADIUS = BoringHead("head", 10.0, 40.0, 10.0, 60.0, 40.0, "radius", 0.0254, True, 400)


@pytest.mark.parametrize("head", [DIAMETER, RADIUS])
@pytest.mark.parametrize(("first", "target"), [(16.8, 18.0), (22.0, 24.016), (30.0, 30.9)])
def test_settings_are_divisions_that_end_at_the_size(head: BoringHead, first: float, target: float) -> None:
    """Each a whole number of divisions, none over the size, no bite over the limit, the last one twice."""
    division = head.division_mm * (1 if head.dial_reads == "diameter" else 2)
    settings = bore_settings(first, target, head)
    assert settings[-1] == settings[-2]
    assert target - division < settings[-1] <= target + 1e-6
    rising = settings[:-1]
    assert rising == sorted(set(rising))
    assert all(abs(s / division - round(s / division)) < 1e-3 for s in settings)
    assert all(b - a <= HEAD_CUT_MM + division + 1e-6 for a, b in zip([first, *rising], rising, strict=False))


def test_well_is_roughed_then_bored() -> None:
    """Points leave 0.3 on the radius for the head, whose edge faces outward."""
    steps = [s for s in setup_of("pocket-round", 1).steps if "well" in s.features]
    assert [s.method for s in steps] == ["table", "table", "boring_head"]
    rings = steps[-1].rings
    assert {ring.edge for ring in rings} == {"out"}
    assert max(ring.radius_outer for ring in rings) == pytest.approx(9.0)
    assert all(ring.centre == (16.0, 18.0) for ring in rings)
