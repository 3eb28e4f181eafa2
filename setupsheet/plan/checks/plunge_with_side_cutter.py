"""An end mill with four or more flutes is plunged into solid metal.

What: every move that enters by plunging, with the number of flutes of its cutter.
Why at the machine: most such cutters do not cut in their middle: the cutter stops, burns and pushes the part down.
What to do: drill an entry hole first, use a two-flute slot drill, or come in from outside.
Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "plunge-with-side-cutter"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution for each step that plunges so where metal stands."""
    for held, step in case.steps():
        cutter = case.cutter(step.tool.label) if step.tool else None
        if cutter is None or cutter.kind != "end mill" or cutter.flutes < 4:
            continue
        gone = held.gone_at(step)
        starts = [m for m in step.moves if m.entry == "plunge" and _solid(case.metal(held, gone, m.path[0]), m.z)]
        if starts:
            yield At(case, held, step, next(iter(step.features), "")).caution(
                CODE,
                f"the {cutter.label} plunges into solid metal, and most such do not cut in the middle",
                found=f"{cutter.flutes} flutes",
                allowed="2 or 3 flutes, or a drilled entry",
                because="the cutter stops, burns, and pushes the part down",
                try_="drill an entry hole of nearly its size first, a little less deep than the floor",
            )


def _solid(spans: tuple[tuple[float, float], ...], z: float) -> bool:
    return bool(spans) and spans[-1][1] > z + 0.01
