"""Ring grooves: a groove tool in the boring head, or an end mill of the groove's width plunged round a circle.

With a head one tool, narrower than the groove, cuts the outside wall at one setting and the inside wall at the
next. Without one the end mill leaves ridges on both walls, which a seal does not like: the step says so.
"""

from __future__ import annotations

import math
from dataclasses import replace

from setupsheet.finding import Finding, caution
from setupsheet.part.feature import RingGroove
from setupsheet.part.shop import BoringHead
from setupsheet.plan.bench import Bench, Removed, top_over
from setupsheet.plan.cutting import boring, milling
from setupsheet.plan.draft import Draft, step, tool_plan, where_words
from setupsheet.plan.milling import area, points, rim_ways, turned_work
from setupsheet.plan.milling.boss import division_mm, head_tool, meant, shown_diameter
from setupsheet.plan.milling.milling import AreaWork, feed_fields
from setupsheet.plan.milling.mills import MillNeed, pick_mill, pick_shaped
from setupsheet.plan.milling.shaped import Shaped, shaped_steps
from setupsheet.plan.record import Leftover, Ring, Step, ToolPlan
from setupsheet.plane import Point2, polar
from setupsheet.solid.volumes import feature_volume
from setupsheet.tables import end_mills

Drafts = tuple[list[Draft], list[Finding]]

TOOL_LEAST_MM = 0.8
"""Narrowest groove tool that is worth grinding. Common practice, no source."""

TOOL_SHARE = 0.75
"""Width of the groove tool as part of the groove's, so that each wall has a setting. Common practice, no source."""


def groove_drafts(bench: Bench, removed: Removed, feature: RingGroove) -> Drafts:
    """Return the step that cuts a ring groove with what the shop has."""
    outer, inner = ((size.lower_mm + size.upper_mm) / 2 for size in (feature.outer, feature.inner))
    centre, floor = bench.laid.flat(feature.centre), bench.z(feature.floor.nominal_mm)
    ring = area.ring(centre, inner / 2, outer / 2)
    top = top_over(bench, removed, ring)
    volume = feature_volume(feature, bench.part)
    head = bench.shop.boring_head
    work = AreaWork("groove", feature.id, (feature.id,), ring, area.without(_round(ring), ring), top, floor)
    by_table = turned_work.groove_draft(bench, work, centre, (inner / 2, outer / 2))
    if by_table is not None:
        return [by_table], []
    if head is not None and outer <= head.max_bore_mm and (outer - inner) / 2 >= TOOL_LEAST_MM:
        return [Draft(_head_step(bench, work, head, (centre, inner, outer)), volume)], []
    if end_mills.named((outer - inner) / 2) is not None or _owned(bench, (outer - inner) / 2):
        made = _plunged(bench, work, (centre, (inner + outer) / 4, (outer - inner) / 2))
        return [Draft(made, volume)], [_ridged(feature)]
    cutter = pick_shaped(bench, MillNeed(ring, work.keep, top - floor, (outer - inner) / 2 - 0.2))
    steps = shaped_steps(bench, Shaped(work, points.RIDGE_MM / 2), cutter)
    return [Draft(made, volume if i == 0 else (), cutter) for i, made in enumerate(steps)], [_ridged(feature)]


def _round(ring: area.Region) -> area.Region:
    return area.rectangle(*area.bounds(area.grown(ring, 50.0)))


def _owned(bench: Bench, width: float) -> bool:
    return any(c.kind == "end mill" and abs(c.diameter_mm - width) < 5e-3 for c in bench.shop.cutters)


def _head_step(bench: Bench, work: AreaWork, head: BoringHead, ring: tuple[Point2, float, float]) -> Step:
    """Return the step of a groove tool in the head: outside wall first, then inside."""
    centre, inner, outer = ring
    x, y = bench.settle("x", centre[0]), bench.settle("y", centre[1])
    low = bench.settle("z", work.z_floor)
    width = max(TOOL_LEAST_MM, math.floor(TOOL_SHARE * (outer - inner) / 2 * 10) / 10)
    division = division_mm(head)
    out, inside = (round(d / division) * division for d in (outer, inner))
    rings = (
        Ring((x, y), out / 2 - width, out / 2, work.z_top, low, "out", shown_diameter(bench, out)),
        Ring((x, y), inside / 2, inside / 2 + width, work.z_top, low, "in", shown_diameter(bench, inside)),
    )
    wide = bench.scales["x"].plain(width).lstrip("+")
    cut = boring(bench, head, outer)
    return step(
        "groove",
        work.title,
        work.features,
        method="boring_head",
        removes=True,
        tool=_groove_tool(head, wide),
        direction="",
        rings=(meant(rings[0], outer, head), meant(rings[1], inner, head)),
        z_shown=(bench.shown("z", low),),
        where=where_words(bench, (x, y)),
        words=(
            f"tool {wide} wide, its outside ground round to clear the outside wall",
            f"set its outside to Ø {rings[0].shown} and go down; then its inside to Ø {rings[1].shown} and go down",
            f"not over {head.max_rpm} rpm, oil, feed by the fine feed; turn the spindle once by hand before power",
        ),
        **{**feed_fields(cut), "rpm_words": ""},
    )


def _groove_tool(head: BoringHead, wide: str) -> ToolPlan:
    """Return the head with the tool that somebody has to grind for it."""
    return replace(head_tool(head), label=f"groove tool {wide} wide in {head.label}", owned=False)


def _plunged(bench: Bench, work: AreaWork, ring: tuple[Point2, float, float]) -> Step:
    """Return the step that plunges an end mill of the groove's width round the circle (centre, radius, width)."""
    centre, path, width = ring
    need = MillNeed(work.target, area.nothing(), work.z_top - work.z_floor, width)
    cutter = pick_mill(bench, need)
    radius = cutter.diameter_mm / 2
    count = math.ceil(math.pi / math.asin(points.line_spacing(radius, _RIDGE_MM) / 2 / path))
    places = [polar(centre, path, 360 * i / count) for i in range(count)]
    cuts = points.plunged(bench, places)
    left = area.without(work.target, rim_ways.swept([[at] for at in places], radius))
    ridge = rim_ways.depth_of(left, area.without(work.target, left)) + bench.scales["x"].step_mm / 2
    shown = bench.scales["x"].plain(math.ceil(ridge * 100 - 1e-6) / 100).lstrip("+")
    floor = bench.settle("z", work.z_floor)
    cut = milling(bench, cutter, full_width=True)
    return step(
        "groove",
        work.title,
        work.features,
        method="table",
        removes=True,
        tool=tool_plan(cutter),
        direction="conventional",
        moves=points.as_moves(cuts, [floor], work.z_top),
        points=points.as_pairs(bench, cuts),
        z_shown=(bench.shown("z", floor),),
        where="table of points round the groove",
        words=("plunge at every point; scrape the ridges off both walls, a seal leaks over them",),
        leftover=(Leftover("cusp", work.features, ridge, f"ridges up to {shown} on both walls"),),
        **feed_fields(cut),
    )


_RIDGE_MM = 0.05
"""Ridges that a scraper takes off the wall of a groove. Common practice, no source."""


def _ridged(feature: RingGroove) -> Finding:
    return caution(
        "groove-with-ridges",
        f"{feature.id} is plunged point by point: its walls keep ridges that have to be scraped off",
        feature.place,
        feature=feature.id,
        because="the shop has no boring head that reaches it and no rotary table, and a seal leaks over ridges",
        try_="borrow a boring head and grind a groove tool, or turn it on a faceplate",
    )
