"""The first face of a sawn block is not its widest.

What: the face that the first setup mills, against the other faces that are milled later.
Why at the machine: the other faces are made square to the first one; a narrow one against the jaw lets the block
tilt.
What to do: mill the widest face first.
Source: open vertical-mill textbook (CC BY-SA 4.0), ch. 5; machining course notes on the order of faces.
"""

from __future__ import annotations

from collections.abc import Iterator

from setupsheet.part.face import Face
from setupsheet.plan.checks import limits
from setupsheet.plan.checks.bite import At, Bite
from setupsheet.plan.checks.case import Case

CODE = "first-face-not-widest"


def check(case: Case) -> Iterator[Bite]:
    """Yield a caution where a later face is clearly wider than the first one."""
    if case.part.stock.form != "sawn block":
        return
    faced = [held for held in case.clamped if any(step.operation == "face" for step in held.setup.steps)]
    if len(faced) < 2:
        return
    first, areas = faced[0], [(_area(case, held.laid.up), held.laid.up.value) for held in faced]
    widest = max(areas)
    if areas[0][0] < limits.factor("first face, share of the widest") * widest[0]:
        yield At(case, first).caution(
            CODE,
            f"the {first.laid.up.value} is milled first, and the {widest[1]} is the wider face",
            found=first.laid.up.value,
            allowed=widest[1],
            because="the others are made square to the first face, and a narrow one tilts against the jaw",
            try_=f"mill the {widest[1]} first, and put it to the fixed jaw after that",
        )


def _area(case: Case, face: Face) -> float:
    u, v = face.in_plane
    return case.part.box.size[u] * case.part.box.size[v]
