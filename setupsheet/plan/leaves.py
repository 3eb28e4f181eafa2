"""What a level leaves standing that is not square: circles by points, slanted and other sides by hand.

The end mill keeps to a square about everything that stands (milling.py). What is left between that square
and the true outline is taken off here, or named as work that is not given as moves.
"""

from __future__ import annotations

from setupsheet.part.feature import Level
from setupsheet.part.shape import BoxShape, CircleShape
from setupsheet.part.shop import Cutter
from setupsheet.plan import area, boss
from setupsheet.plan.area import Region
from setupsheet.plan.bench import Bench
from setupsheet.plan.draft import Draft, step
from setupsheet.plan.record import Step
from setupsheet.plane import Point3

Heights = tuple[float, float]
"""Top and floor of the work, setup Z."""


def leave_drafts(bench: Bench, level: Level, left: Region, cutter: Cutter, heights: Heights) -> list[Draft]:
    """Return the steps that bring what a level leaves to its outline; ``left`` is what its square stops leave.

    Their metal is counted with the level's own.
    """
    drafts = []
    for number, circle in enumerate(_circles(level), 1):
        name = f"circle {number} of {level.id}"
        radius = circle.diameter_mm / 2
        round_ = boss.Round(level.id, name, bench.laid.flat(circle.centre), radius)
        square = area.of_shape(_square(round_))
        if area.is_empty(area.common(left, square)):
            continue
        drafts.append(Draft(boss.round_step(bench, round_, cutter, *heights), (), cutter))
        left = area.without(left, square)
    if not area.is_empty(left):
        drafts.append(Draft(_by_hand(bench, level, left, heights)))
    return drafts


def _circles(level: Level) -> list[CircleShape]:
    """Return the circles that a level leaves and that are no round boss (those have steps of their own)."""
    return [keep.shape for keep in level.leave if isinstance(keep.shape, CircleShape) and not keep.feature]


def _square(round_: boss.Round) -> BoxShape:
    (x, y), half = round_.centre, round_.radius_mm + 0.01
    return BoxShape((x - half, y - half), (x + half, y + half))


def _by_hand(bench: Bench, level: Level, left: Region, heights: Heights) -> Step:
    words = (
        f"scribe the outline that {level.id} leaves standing; its slanted or round sides still stand square",
        "take the rest off in small steps of X and Y up to the line, then file",
    )
    return step(
        "mill",
        f"outline that {level.id} leaves",
        (level.id,),
        method="by_hand",
        words=words,
        not_proved=f"{level.id}: the slanted or round sides of what it leaves standing are not given as moves",
        region_mm=_box_of(bench, left, heights),
    )


def _box_of(bench: Bench, region: Region, heights: Heights) -> tuple[Point3, Point3]:
    """Return the box over a region between two heights, in the part frame."""
    (x0, y0), (x1, y1) = area.bounds(region)
    ends = bench.laid.to_part((x0, y0, heights[1])), bench.laid.to_part((x1, y1, heights[0]))
    low = tuple(min(pair) for pair in zip(*ends, strict=True))
    high = tuple(max(pair) for pair in zip(*ends, strict=True))
    return (low[0], low[1], low[2]), (high[0], high[1], high[2])
