"""The part is clamped on its top, and cutters go over every place where a clamp could stand.

What: places along the rim of the part against the ways of all cutters of the setup, 1 mm clear of them and of the
holder.
Why at the machine: the cutter runs into a clamp, or the clamp is moved with the part half cut and zero is lost.
What to do: hold it in the vise, or do the work in two clampings with the clamps moved one by one.
Source: common practice, no source (cutter path and radius and 1 mm against the clamps).
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks import limits
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case, Clamped
from setupsheet.plane import Point2, distance_to_segment

CODE = "clamps-have-no-place"
_EVERY = 12


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each setup on the table without two places for clamps on different sides."""
    for held in case.clamped:
        if held.in_vise:
            continue
        free = [at for at in _rim(case, held) if _is_free(held, at)]
        if len({_side(case, held, at) for at in free}) < 2:
            yield At(case, held).caution(
                CODE,
                "cutters go over the whole rim of the top: no place is left for two clamps",
                found=f"{len(free)} free places",
                allowed="free places on two sides",
                because="the cutter runs into a clamp, or zero is lost when a clamp is moved",
                try_="hold it in the vise; else move one clamp at a time, never two",
            )


def _rim(case: Case, held: Clamped) -> Iterator[Point2]:
    """Yield places for the toe of a clamp along the rim of the part as it is."""
    box, toe = held.laid.box(case.part.box), limits.mm("clamp toe") / 2
    for i in range(_EVERY):
        share = (i + 0.5) / _EVERY
        x = box.low[0] + share * (box.high[0] - box.low[0])
        y = box.low[1] + share * (box.high[1] - box.low[1])
        yield from ((x, box.low[1] + toe), (x, box.high[1] - toe), (box.low[0] + toe, y), (box.high[0] - toe, y))


def _is_free(held: Clamped, at: Point2) -> bool:
    """Tell whether no cutter of the setup comes near a clamp's toe."""
    toe = limits.mm("clamp toe") / 2 + limits.mm("clear of a clamp")
    for step in held.setup.steps:
        if step.tool is None:
            continue
        reach = toe + step.tool.diameter_mm / 2
        legs = [(a, b) for move in step.moves for a, b in zip(move.path, move.path[1:], strict=False)]
        legs += [((p.x, p.y), (p.x, p.y)) for p in step.positions]
        if any(distance_to_segment(at, a, b) < reach for a, b in legs):
            return False
    return True


def _side(case: Case, held: Clamped, at: Point2) -> str:
    """Return the side of the part that a place lies nearest to."""
    box = held.laid.box(case.part.box)
    away = {
        "left": at[0] - box.low[0],
        "right": box.high[0] - at[0],
        "front": at[1] - box.low[1],
        "back": box.high[1] - at[1],
    }
    return min(away, key=lambda name: (away[name], name))
