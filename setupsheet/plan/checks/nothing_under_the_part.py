"""A parallel lies where the part does not rest on it.

What: the underside at that moment over each parallel: it must touch on both sides of the part's middle.
Why at the machine: the part tips over the edge of what it rests on as soon as a drill presses on it.
What to do: move that parallel inwards to where metal is, put packing under, or turn the part by a quarter.
Source: open vertical-mill textbook (CC BY-SA 4.0), ch. 5 (both parallels must be held fast); common practice.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case, Clamped
from setupsheet.plan.record import Body

CODE = "nothing-under-the-part"
_ALONG = 48


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for the parallels of a setup that do not carry the part on both sides of its middle."""
    for held in case.clamped:
        idle: dict[bool, list[Body]] = {}
        for body in held.parallels:
            touching, extent = _along(case, held, body)
            middle = (extent[0] + extent[1]) / 2
            one_side = bool(touching) and not min(touching) <= middle <= max(touching)
            if not touching or (one_side and body.name.startswith("parallel")):
                idle.setdefault(not touching, []).append(body)
        yield from (_bite(At(case, held), bodies, nothing=nothing) for nothing, bodies in idle.items())


def _along(case: Case, held: Clamped, body: Body) -> tuple[list[float], tuple[float, float]]:
    """Return where along a parallel the part touches it, and how far the part reaches over it."""
    stock = held.laid.box(case.part.stock.box)
    touching: list[float] = []
    over: list[float] = []
    for i in range(_ALONG):
        x = stock.low[0] + (stock.high[0] - stock.low[0]) * (i + 0.5) / _ALONG
        for share in (0.25, 0.75):
            y = body.low[1] + share * (body.high[1] - body.low[1])
            spans = case.metal(held, held.gone_first, (x, y))
            if spans:
                over.append(x)
                if abs(spans[0][0] - body.high[2]) < 0.05 and body.low[0] <= x <= body.high[0]:
                    touching.append(x)
    return touching, (min(over), max(over)) if over else (0.0, 0.0)


def _bite(at: At, bodies: list[Body], *, nothing: bool) -> Bite:
    where = "nowhere" if nothing else "on one side of its middle only"
    return at.caution(
        CODE,
        f"the part touches {' and '.join(f'the {body.name}' for body in bodies)} {where}",
        found=where,
        allowed="metal on what it rests on, on both sides of the middle",
        because="the part tips as soon as a cutter presses on it",
        try_="move that to where the underside is whole, or put packing under the free end",
    )
