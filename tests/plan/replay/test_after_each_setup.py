"""The metal after each setup: what the plan's cutters leave against what the spec says is gone by then.

The replay of a build compares the finished part alone; here the demo parts are compared after every setup, with bodies
that the other kernel made from the spec.
"""

from __future__ import annotations

import pytest

from setupsheet.plan.make import make_plan
from setupsheet.plan.record import as_json
from setupsheet.plan.replay import metal
from setupsheet.plan.replay.cut import tolerance_mm
from setupsheet.plan.replay.metal import MeshData
from setupsheet.plan.replay.replay import bodies_after
from setupsheet.solid import export
from setupsheet.solid.solids import make_solids
from tests.plan.planned import DEMOS, read

_SHARE = 0.02
"""Of the metal gone so far: drills are not exactly as wide as drawn, points go deeper, stops keep off."""
_EACH_MM3 = 2.0
"""mm3 more for each setup: chamfers that the spots make, rounding."""
_CORNERS_MM = 0.05
"""mm that the meshes of the spec's bodies may be off; the most metal that can stand is larger all round by rounding."""


@pytest.mark.parametrize("name", DEMOS)
def test_metal_after_each_setup(name: str) -> None:
    """Neither body has more beside the other than cutters and rounding explain; work without moves may be missing."""
    part, shop = read(name)
    solids, _ = make_solids(part)
    planned = make_plan(part, shop, solids)
    plan = as_json(planned.plan)
    by_hand = 0.0
    for index, (left, drawn) in enumerate(zip(bodies_after(plan, -1), planned.bodies[1:], strict=True)):
        mine = metal.from_mesh(left, "replay")
        spec = metal.from_mesh(MeshData(*export.mesh(drawn, _CORNERS_MM)), "spec")
        setup = plan["setups"][index]
        gone = plan["setups"][0]["volume_before_mm3"] - setup["volume_after_mm3"]
        slack = _SHARE * gone + _EACH_MM3 * (index + 1)
        by_hand += sum(1e9 for step in setup["steps"] if step["not_proved"])
        assert metal.cut(spec, [mine]).volume() < slack, (name, index + 1, "cut away too early or too much")
        skin = max(tolerance_mm(told) for told in plan["setups"]) * mine.surface_area()
        assert metal.cut(mine, [spec]).volume() < slack + skin + by_hand, (name, index + 1, "still there")
