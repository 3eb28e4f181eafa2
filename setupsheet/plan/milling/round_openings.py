"""Round pockets and windows: roughed by rows and points, then bored with the head's edge outward, or filed."""

from __future__ import annotations

import math
from dataclasses import replace

from setupsheet.finding import Finding
from setupsheet.part.shape import CircleShape
from setupsheet.part.shop import BoringHead
from setupsheet.plan.bench import Bench, Removed
from setupsheet.plan.cutting import boring
from setupsheet.plan.draft import Draft, step, where_words
from setupsheet.plan.milling import turned_work
from setupsheet.plan.milling.boss import division_mm, head_tool, meant, shown_diameter
from setupsheet.plan.milling.milling import AreaWork, feed_fields
from setupsheet.plan.milling.mills import MillNeed, pick_shaped
from setupsheet.plan.milling.shaped import Shaped, shaped_steps
from setupsheet.plan.record import Leftover, Ring, Step
from setupsheet.solid.volumes import feature_volume

Drafts = tuple[list[Draft], list[Finding]]

HEAD_STOCK_MM = 0.3
"""What the end mill leaves on the radius for the boring head. Common practice, no source."""

HEAD_RIDGE_MM = 0.3
"""Height of the ridges that the end mill leaves for the boring head. Common practice, no source."""

HEAD_CUT_MM = 0.5
"""Most that one setting of the head takes off the diameter of steel or aluminium. Common practice, no source."""

FOOT_MM = 0.02
"""How far the head stays above a floor, so that it never rubs it. Common practice, no source."""


def round_drafts(bench: Bench, removed: Removed, work: AreaWork, circle: CircleShape, size_mm: float) -> Drafts:
    """Return the steps of a round pocket or window; ``circle`` lies in the setup plane, ``size_mm`` is bored for."""
    by_table = turned_work.opening_drafts(bench, removed, work, circle, size_mm)
    if by_table:
        return by_table, []
    head, depth = bench.shop.boring_head, work.z_top - work.z_floor
    bored = head is not None and head.min_bore_mm <= circle.diameter_mm <= head.max_bore_mm and head.reach_mm >= depth
    shaped = Shaped(work, HEAD_RIDGE_MM, HEAD_STOCK_MM) if bored else Shaped(work)
    cutter = pick_shaped(bench, MillNeed(work.target, work.keep, depth, circle.diameter_mm - 1.0))
    steps = shaped_steps(bench, shaped, cutter)
    volume = feature_volume(bench.part.feature(work.features[0]), bench.part)
    drafts = [Draft(made, volume if i == 0 else (), cutter) for i, made in enumerate(steps)]
    if bored and head is not None:
        drafts.append(Draft(bore_step(bench, work, replace(circle, diameter_mm=size_mm), head)))
    return drafts, []


def bore_step(bench: Bench, work: AreaWork, circle: CircleShape, head: BoringHead) -> Step:
    """Return the step that bores a circle to size, edge outward, a little more at each setting."""
    x, y = bench.settle("x", circle.centre[0]), bench.settle("y", circle.centre[1])
    low = bench.scales["z"].settle_away(work.z_floor + (FOOT_MM if work.floor_counts else 0.0), work.z_floor - 1.0)
    first = circle.diameter_mm - 2 * HEAD_STOCK_MM - 2 * HEAD_RIDGE_MM
    sizes = bore_settings(first, circle.diameter_mm, head)
    cut = boring(bench, head, circle.diameter_mm)
    inner = first / 2 - 0.1
    rings = [Ring((x, y), inner, d / 2, work.z_top, low, "out", shown_diameter(bench, d)) for d in sizes]
    last = [meant(ring, circle.diameter_mm, head) if 2 * ring.radius_outer == sizes[-1] else ring for ring in rings]
    reads = "the dial reads diameter" if head.dial_reads == "diameter" else "the dial reads radius: move half of it"
    texts = ", ".join(shown_diameter(bench, d) for d in sizes[:-1])
    foot = low - work.z_floor
    said = f"a step of {bench.scales['z'].plain(foot).lstrip('+')} stays round the floor; leave it"
    return step(
        "bore",
        f"bore {work.title}",
        work.features,
        method="boring_head",
        removes=True,
        tool=head_tool(head),
        direction="",
        rings=tuple(last),
        z_shown=(bench.shown("z", low),),
        where=where_words(bench, (x, y)),
        words=(
            f"edge facing outward, not over {head.max_rpm} rpm; turn the spindle once by hand before power",
            f"set Ø {texts}, the last one twice; {reads}; sliding OUT makes the bore larger",
            "measure after the first ring and correct the settings by the difference",
        ),
        leftover=(Leftover("by_hand", work.features, foot, said),) if work.floor_counts else (),
        **{**feed_fields(cut), "rpm_words": ""},
    )


def bore_settings(first_mm: float, target_mm: float, head: BoringHead) -> list[float]:
    """Return the diameters to set in turn, up to the size, the last one twice; the dial's divisions, never above."""
    division = division_mm(head)
    final = math.floor(target_mm / division + 1e-6) * division
    count = max(1, math.ceil((final - 0.1 - first_mm) / HEAD_CUT_MM))
    rough = [first_mm + (final - 0.1 - first_mm) * (i + 1) / count for i in range(count)]
    settings = [round(math.floor(d / division + 1e-6) * division, 6) for d in rough]
    return [*dict.fromkeys(d for d in settings if d < final - 1e-6), round(final, 6), round(final, 6)]
