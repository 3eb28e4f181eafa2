"""A slot at an angle with a cutter of its own width: plunged point by point along its centre line.

Two handwheels cannot be turned as one, so the cutter goes straight down at every point. Both walls keep small
ridges between the points, for a file.
"""

from __future__ import annotations

import math

from setupsheet.part.shape import SlotShape
from setupsheet.part.shop import Cutter
from setupsheet.plan.bench import Bench
from setupsheet.plan.cutting import milling
from setupsheet.plan.draft import step, tool_plan
from setupsheet.plan.milling import points
from setupsheet.plan.milling.milling import AreaWork, feed_fields
from setupsheet.plan.record import Leftover, Step


def slanted_step(bench: Bench, work: AreaWork, shape: SlotShape, cutter: Cutter) -> Step:
    """Return the step that plunges a slanted slot; ``shape`` lies in the setup plane."""
    radius, (ax, ay), (bx, by) = cutter.diameter_mm / 2, shape.start, shape.end
    length = math.dist(shape.start, shape.end)
    count = max(1, math.ceil(length / points.line_spacing(radius, points.RIDGE_MM)))
    shares = [i / count for i in range(count + 1)]
    cuts = points.plunged(bench, [(ax + (bx - ax) * share, ay + (by - ay) * share) for share in shares])
    cut = milling(bench, cutter, full_width=True, slot=True)
    heights = [bench.settle("z", work.z_floor)]
    ridge = points.line_ridge(radius, length / count) + 0.5 * bench.scales["x"].step_mm
    shown = bench.scales["x"].plain(math.ceil(ridge * 100 - 1e-6) / 100).lstrip("+")
    peck = bench.scales["z"].plain(cut.depth_mm).lstrip("+")
    return step(
        "mill",
        work.title,
        work.features,
        method="table",
        removes=True,
        tool=tool_plan(cutter),
        direction="conventional",
        moves=points.as_moves(cuts, heights, work.z_top),
        points=points.as_pairs(bench, cuts),
        z_shown=tuple(bench.shown("z", z) for z in heights),
        where="table of points along the centre line",
        words=(
            f"a cutter that cuts to its centre, straight down at each point, lifted every {peck} to clear chips",
            "both end points first, then from one end on",
        ),
        leftover=(Leftover("cusp", work.features, ridge, f"ridges up to {shown} on both walls, for the file"),),
        **feed_fields(cut),
    )
