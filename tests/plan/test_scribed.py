"""Work by layout: a drill press has no readout to set, so lines are scribed from two edges."""

from __future__ import annotations

import pytest

from tests.plan.planned import plan_of


def test_lines_are_scribed_from_the_edges_themselves() -> None:
    """No half tip is taken off: the left and the front edge count 0, and no finder is laid out."""
    plan = plan_of("drill-press-only")
    zeros = {zero.axis: zero for zero in plan.setups[0].zero}
    assert [zeros[axis].method for axis in "xy"] == ["scribe", "scribe"]
    assert [zeros[axis].reading for axis in "xy"] == pytest.approx([0.0, 0.0])
    assert [zeros[axis].key_in for axis in "xy"] == ["X 0.0", "Y 0.0"]
    labels = " ".join(tool.label for tool in plan.tools)
    assert "scriber" in labels
    assert "edge finder" not in labels


def test_a_mill_keeps_its_edge_finder() -> None:
    """A machine that reads X and Y is not marked out for."""
    plan = plan_of("worm-bracket")
    assert plan.setups[0].zero[0].method == "edge finder"
    assert "scriber" not in " ".join(tool.label for tool in plan.tools)
