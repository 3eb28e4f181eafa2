"""The steps of a setup in a row: numbered, each new cutter with its touch-off, and what each depends on."""

from __future__ import annotations

from dataclasses import replace

from setupsheet.plan.bench import Bench, Removed
from setupsheet.plan.draft import Draft, step
from setupsheet.plan.holes.holes import LOCKED
from setupsheet.plan.record import Step
from setupsheet.plan.setup.hold import Grip
from setupsheet.plan.setup.touch_off import places, touch_off
from setupsheet.plan.sizes import length


def in_sequence(bench: Bench, removed: Removed, drafts: list[Draft]) -> tuple[Step, ...]:
    """Return the steps numbered from 1, with a touch-off wherever the cutter changes."""
    steps: list[Step] = []
    cutter, known, before = "", places(bench), _Before()
    for number, draft in enumerate(drafts, 1):
        made = replace(draft.step, number=number, depends_on=before.needed_by(draft.step))
        label = made.tool.label if made.tool else ""
        if label and label != cutter and made.removes:
            if steps and stays_locked(steps[-1], made):
                made = _no_touch(made)
            else:
                made = replace(_unlocked(made), touch_off=touch_off(bench, removed, known))
        cutter = "" if made.operation == "scribe" else label or cutter
        steps.append(made)
        before.add(made)
        removed = (*removed, *draft.takes)
    return tuple(steps)


_BRUSH = {
    "vise": "brush jaws and parallels clean",
    "angle plate": "brush plate and table clean",
    "rotary table": "brush the face of the rotary table clean",
}
"""What the next part is going to lie against, by what holds this one."""

MEASURE = "measure before the part is unclamped"
"""The last line of a setup that finishes a size."""

NO_TOUCH = "no touch-off here"
"""How a step says that it needs no Z of its own."""


def stays_locked(before: Step, made: Step) -> bool:
    """Tell whether a step goes on in a through hole at the place where the table is locked already."""
    same = [p.label for p in before.positions] == [p.label for p in made.positions]
    return same and LOCKED in made.words


def _no_touch(made: Step) -> Step:
    """Say how deep is deep enough where touching off would move the table."""
    enough = "go down to the Ø" if made.operation in ("chamfer", "countersink") else "run it right through"
    return replace(made, words=(*made.words, f"{NO_TOUCH}: {enough}"))


def _unlocked(made: Step) -> Step:
    """Return a step that begins at its place, and so has nothing to keep locked from."""
    return replace(made, words=tuple(words for words in made.words if words != LOCKED))


class _Before:
    """The steps so far by what they work on, so that a long row of holes is not searched through for each."""

    def __init__(self) -> None:
        self._everywhere: list[int] = []
        self._areas: dict[str, list[int]] = {}
        self._places: dict[tuple[str, str], list[int]] = {}

    def needed_by(self, made: Step) -> tuple[int, ...]:
        """Return the facing that all work stands on, and the earlier steps on the same features or places."""
        found = set(self._everywhere)
        for id_ in made.features:
            found.update(self._areas.get(id_, ()))
        for at in made.positions:
            found.update(self._places.get((at.feature, at.label), ()))
        if not made.positions:
            mine = set(made.features)
            found.update(n for (id_, _), numbers in self._places.items() if id_ in mine for n in numbers)
        return tuple(sorted(found))

    def add(self, made: Step) -> None:
        """Take in a step."""
        if made.operation == "face":
            self._everywhere.append(made.number)
        for id_ in made.features if not made.positions else ():
            self._areas.setdefault(id_, []).append(made.number)
        for at in made.positions:
            self._places.setdefault((at.feature, at.label), []).append(made.number)


def square_to(bench: Bench, held: Grip) -> str:
    """Return the name of the finished face at the fixed jaw, to which the face on top comes out square; '' for none."""
    if held.vise is None:
        return ""
    index = 1 if held.vise.fixed == "back" else 0
    face = bench.laid.face(1, 1 if index else -1)
    finished = abs(held.jaws_y[index] - (held.envelope.high if index else held.envelope.low)[1]) < 1e-6
    letter = next((f" ({d.letter})" for d in bench.part.datums if d.face is face), "")
    return f"the {face.value}{letter}" if finished and face not in bench.part.stock.as_bought else ""


def _holds(bench: Bench) -> str:
    """Return what holds the part: what the spec says, else the vise where there is one."""
    asked = bench.asked.hold.in_ if bench.asked.hold is not None else "vise"
    return asked if asked != "vise" or bench.vise else ""


def last_step(bench: Bench, drafts: list[Draft], square: str = "") -> Draft:
    """Return the step that ends every setup: break edges, try the square, brush off, measure.

    ``square`` names the finished face that a face cut in this setup has to be square to.
    """
    size = length(bench.part.deburr_mm, bench.part.unit)
    edges = f"break all edges {size}" if bench.part.deburr_mm else "leave edges sharp but free of burrs"
    places = (at.label for draft in drafts if draft.step.removes for at in draft.step.positions)
    drilled = {label for label in places if " entry" not in label}
    holes = f", and of each of the {len(drilled)} holes the ends that can be reached" if len(drilled) > 1 else ""
    holes = holes or (", and of the hole the end that can be reached" if drilled else "")
    brush = _BRUSH.get(_holds(bench), "brush the table clean")
    faced = square and any(draft.step.operation == "face" for draft in drafts)
    tried = (f"try the new face against {square} with a square: no light",) if faced else ()
    words = (f"{edges}{holes}; {brush}", *tried, MEASURE)
    return Draft(step("file", "edges", (), method="by_hand", words=words, cautions=()))
