"""The work of one clamping is wider than the machine travels.

What: the spindle's places of a whole setup in X and Y, run-off and zero included, against the travels.
Why at the machine: the table stands at its end stop in the middle of a pass, and zero is lost in moving the part.
What to do: turn the part by a quarter, split the setup in two, or use a smaller cutter with less run-off.
Source: a machine bought without that sum, told on a model engineers' forum (workshop mistakes); common practice.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case, Clamped

CODE = "travel-too-short"


def check(case: Case) -> Iterator[Bite]:
    """Yield an error for each axis that cannot reach all places of a setup."""
    for held in case.clamped:
        if held.machine.kind != "mill":
            continue
        for axis in (0, 1):
            places = _places(held, axis)
            travel = held.machine.travel_mm[axis]
            way = max(places) - min(places) if places else 0.0
            if 0 < travel < way - 1e-6:
                yield _bite(At(case, held), "XY"[axis], way, travel)


def _places(held: Clamped, axis: int) -> list[float]:
    """Return where the spindle stands along an axis in a setup."""
    found = [zero.reading for zero in held.setup.zero if zero.axis == "xy"[axis] and zero.tip_diameter_mm > 0]
    for step in held.setup.steps:
        found += [(at.x, at.y)[axis] for at in step.positions]
        found += [point[axis] for move in step.moves for point in move.path]
        found += [ring.centre[axis] for ring in step.rings]
        found += [radius for arc in step.arcs for radius in (arc.radius, arc.run_in) if axis == 0]
        found += [(step.touch_off.x, step.touch_off.y)[axis]] if step.touch_off else []
    return found


def _bite(at: At, axis: str, way: float, travel: float) -> Bite:
    size = at.case.size
    return at.error(
        CODE,
        f"the work is {size(way)} wide in {axis}; {at.held.machine.name if at.held else ''} travels {size(travel)}",
        found=size(way),
        allowed=f"up to {size(travel)}",
        because="the table stands at its end before the cutter is through, and zero is lost when the part is moved",
        try_="turn the part a quarter turn, or split this setup in two",
    )
