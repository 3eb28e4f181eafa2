"""Ring grooves: by the boring head where there is one, else plunged, and said so."""

from __future__ import annotations

import pytest

from tests.plan.planned import checked, setup_of


def test_head_cuts_outside_wall_then_inside_wall() -> None:
    """26 outside, 20 inside: one tool narrower than the 3 between, two settings."""
    step = next(s for s in setup_of("ring-groove", 1).steps if "seal" in s.features)
    out, inside = step.rings
    assert (out.edge, inside.edge) == ("out", "in")
    assert out.radius_outer == pytest.approx(13.0, abs=0.01)
    assert inside.radius_inner == pytest.approx(10.0, abs=0.01)
    assert inside.radius_outer > out.radius_inner
    assert step.tool is not None
    assert not step.tool.owned
    assert out.z_to == inside.z_to == pytest.approx(-1.5)


def test_without_a_head_it_is_plunged_and_cautioned() -> None:
    """All points lie on the middle circle of 20 and 28; the ridges are named."""
    step = next(s for s in setup_of("ring-groove-plunged", 1).steps if "seal" in s.features)
    for pair in step.points:
        x, y = (pair.step, pair.stop) if pair.step_axis == "x" else (pair.stop, pair.step)
        assert ((x - 30) ** 2 + (y - 20) ** 2) ** 0.5 == pytest.approx(12.0, abs=0.005)
    assert [one.kind for one in step.leftover] == ["cusp"]
    assert "groove-with-ridges" in {finding.code for finding in checked("ring-groove-plunged").findings}
