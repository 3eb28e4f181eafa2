"""What a level leaves standing that is not square: circles and slanted or round sides by points.

The end mill keeps to a square about everything that stands (milling.py). What is left between that square
and the true outline is taken off here.
"""

from __future__ import annotations

from dataclasses import replace

from setupsheet.part.feature import Level
from setupsheet.part.shape import BoxShape, CircleShape
from setupsheet.plan.bench import Bench
from setupsheet.plan.draft import Draft
from setupsheet.plan.milling import area, boss, turned_work
from setupsheet.plan.milling.milling import AreaWork
from setupsheet.plan.milling.mills import MillNeed, pick_shaped
from setupsheet.plan.milling.shaped import Shaped, shaped_steps


def leave_drafts(bench: Bench, level: Level, rest: AreaWork, most_mm: float) -> list[Draft]:
    """Return the steps that bring what a level leaves to its outline; ``rest`` is what its square stops leave.

    ``most_mm`` is the diameter of the cutter that went between those squares: a larger one might not.

    Their metal is counted with the level's own.
    """
    drafts = []
    left = rest.target
    for number, circle in enumerate(_circles(level), 1):
        name = f"circle {number} of {level.id}"
        round_ = boss.Round(level.id, name, bench.laid.flat(circle.centre), circle.diameter_mm / 2)
        square = area.of_shape(_square(round_))
        if area.is_empty(area.common(left, square)):
            continue
        by_table = turned_work.leave_step(bench, round_, rest)
        if by_table is not None:
            drafts.append(by_table)
            left = area.without(left, square)
            continue
        mill = boss.round_mill(bench, round_, area.without(rest.keep, square), rest.z_top - rest.z_floor)
        if mill is None:  # so near something else that its corners are cut along with that
            continue
        drafts.append(Draft(boss.round_step(bench, round_, mill, rest.z_top, rest.z_floor), (), mill))
        left = area.without(left, square)
    if not area.is_empty(left):
        cutter = pick_shaped(bench, MillNeed(left, rest.keep, rest.z_top - rest.z_floor, most_mm))
        drafts += [Draft(made, (), cutter) for made in shaped_steps(bench, Shaped(replace(rest, target=left)), cutter)]
    return drafts


def _circles(level: Level) -> list[CircleShape]:
    """Return the circles that a level leaves and that are no round boss (those have steps of their own)."""
    return [keep.shape for keep in level.leave if isinstance(keep.shape, CircleShape) and not keep.feature]


def _square(round_: boss.Round) -> BoxShape:
    (x, y), half = round_.centre, round_.radius_mm + 0.01
    return BoxShape((x - half, y - half), (x + half, y + half))
