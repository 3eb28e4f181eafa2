"""The steps of a setup in a row: numbered, each new cutter with its touch-off, and what each depends on."""

from __future__ import annotations

from dataclasses import replace

from setupsheet.plan.bench import Bench, Removed
from setupsheet.plan.draft import Draft, step
from setupsheet.plan.record import Step
from setupsheet.plan.sizes import length
from setupsheet.plan.touch_off import places, touch_off


def in_sequence(bench: Bench, removed: Removed, drafts: list[Draft]) -> tuple[Step, ...]:
    """Return the steps numbered from 1, with a touch-off wherever the cutter changes."""
    steps: list[Step] = []
    cutter, known = "", places(bench)
    for number, draft in enumerate(drafts, 1):
        made = replace(draft.step, number=number, depends_on=_depends_on(draft.step, steps))
        label = made.tool.label if made.tool else ""
        if label and label != cutter and made.removes:
            made = replace(made, touch_off=touch_off(bench, removed, known))
        cutter = label or cutter
        steps.append(made)
        removed = (*removed, *draft.takes)
    return tuple(steps)


def _depends_on(made: Step, before: list[Step]) -> tuple[int, ...]:
    """Return the earlier steps on the same features, and the facing that all work stands on."""
    mine = set(made.features)
    return tuple(s.number for s in before if mine & set(s.features) or s.operation == "face")


def last_step(bench: Bench) -> Draft:
    """Return the step that ends every setup: break edges, brush off, measure."""
    size = length(bench.part.deburr_mm, bench.part.unit)
    edges = f"break all edges {size}" if bench.part.deburr_mm else "leave edges sharp but free of burrs"
    words = (f"{edges}, both ends of each hole; brush jaws and parallels clean", "measure before it leaves the vise")
    return Draft(step("file", "edges", (), method="by_hand", words=words, cautions=()))
