"""Changed plans put on trial: does the replay notice, and by what? Much of it asked of the changed step's metal alone.

A whole replay of a changed plan takes a second; but a gouge can only be where the changed cut now goes, and metal left
only where it went before. So these are tried first, with the replay's own cutters and bodies; what they do not settle
is put through the whole replay.
"""

from __future__ import annotations

import functools
from collections import Counter
from dataclasses import dataclass, field

from setupsheet.plan.make import make_plan
from setupsheet.plan.record import as_json
from setupsheet.plan.replay import metal
from setupsheet.plan.replay.cut import Run, cutters, run_for, tolerance_mm
from setupsheet.plan.replay.frames import frames
from setupsheet.plan.replay.leftover import refused
from setupsheet.plan.replay.metal import MeshData, Metal, Round
from setupsheet.plan.replay.replay import replay, stock_body
from setupsheet.plan.replay.rounded import rounding
from setupsheet.plan.replay.rules import numbers
from setupsheet.plan.replay.shown import numbers_shown
from setupsheet.plan.replay.slips import slips
from setupsheet.plan.replay.walk import inverse
from setupsheet.solid.solids import make_solids
from tests.plan.mutations import Mutation
from tests.plan.planned import read
from tests.plan.replay_blocks import Json

_NOTICED_MM3 = 1e-4
"""mm3: a change of less than this leaves the same surface (rounding of polygons)."""
_EXACT = Run(0, 0.0, 0.0, Round(inside=True, sag_mm=0.004))


@dataclass
class Tried:
    """A plan with its limit bodies, and what all steps but one leave, worked out when asked for."""

    name: str
    plan: Json
    least: MeshData
    most: MeshData
    before: tuple[str, ...] = ()
    counts: Counter[tuple[str, str, str]] = field(default_factory=Counter)

    def __post_init__(self) -> None:
        """Work out what every step's cutters sweep."""
        self.thin, self.thick = metal.from_mesh(self.least, "least"), metal.from_mesh(self.most, "most")
        self.before = replay(self.plan, self.least, self.most).objections
        rounding = max(tolerance_mm(setup) for setup in self.plan["setups"])
        self.bare = stock_body(self.plan, -rounding)
        self.steps = [(i, j) for i, s in enumerate(self.plan["setups"]) for j, _ in enumerate(s["steps"])]
        self.tight = {place: self.cut_by(self.plan, place, self.run(place[0], 1)) for place in self.steps}
        self.exact = {place: self.cut_by(self.plan, place, _EXACT) for place in self.steps}
        self.high = stock_body(self.plan, 0.0)
        self.alone = functools.cache(self._alone)

    def run(self, index: int, sign: int) -> Run:
        """Return the loose or tight run of a setup."""
        room = metal.bounds(metal.placed(stock_body(self.plan, 0.1), self.plan["setups"][index]["part_to_setup"]))
        return run_for(self.plan["setups"][index], sign, 0.0, room)

    def cut_by(self, plan: Json, place: tuple[int, int], run: Run, step: Json | None = None) -> list[Metal]:
        """Return what a step's cutters sweep, part frame (``step``: these parts of it alone)."""
        setup = plan["setups"][place[0]]
        top = metal.bounds(metal.placed(stock_body(plan, 0.1), setup["part_to_setup"]))[1][2] + 1.0
        back = inverse(setup["part_to_setup"])
        return [metal.placed(body, back) for body in cutters([step or setup["steps"][place[1]]], run, top)]

    def _alone(self, place: tuple[int, int]) -> tuple[Metal, Metal]:
        """Return what all other steps leave of the blank: exactly, and of what has to go in the tight run."""
        others = [k for k in self.steps if k != place]
        stands = metal.cut(self.high, [body for k in others for body in self.exact[k]])
        left = metal.cut(metal.cut(self.bare, [self.thick]), [body for k in others for body in self.tight[k]])
        return stands, metal.shared(left, metal.join(self.tight[place]))

    def leaves_a_surface(self, told: Json, place: tuple[int, int]) -> bool:
        """Tell whether a changed step leaves other metal than before."""
        old, new, kept = _apart(_step_of(self.plan, place), _step_of(told, place))
        was, now = (metal.join(self.cut_by(told, place, _EXACT, step)) for step in (old, new))
        mine, _ = self.alone(place)
        changed = [metal.shared(mine, body) for body in (was - now, now - was)]
        changed = [body for body in changed if metal.is_there(body, _NOTICED_MM3)]
        rest = self.cut_by(told, place, _EXACT, kept) if changed else []
        return any(metal.is_there(metal.cut(body, rest), _NOTICED_MM3) for body in changed)

    def contradicted(self, told: Json, place: tuple[int, int]) -> bool:
        """Tell whether another number of the same setup says that a number is wrong."""
        alone = {**told, "setups": [told["setups"][place[0]]]}
        said = frames(alone) + numbers(alone) + numbers_shown(alone) + slips(alone) + refused(alone) + rounding(alone)
        return bool(set(said) - set(self.before))

    def objected(self, told: Json, place: tuple[int, int]) -> str:
        """Return what tells that a number is wrong: another number, a gouge, metal left, the walk; '' if nothing."""
        _, new, _ = _apart(_step_of(self.plan, place), _step_of(told, place))
        loose = metal.join(self.cut_by(told, place, self.run(place[0], -1), new))
        if metal.is_there(metal.shared(loose, self.thin)):
            return "gouge"
        if not told["setups"][place[0]]["steps"][place[1]]["leftover"] and not told["not_proved"]:
            _, mine = self.alone(place)
            if metal.is_there(metal.cut(mine, self.cut_by(told, place, self.run(place[0], 1)))):
                return "left"
        verdict = replay(told, self.least, self.most)
        if verdict.gouge or verdict.left:
            return "gouge" if verdict.gouge else "left"
        return "walk" if set(verdict.objections) - set(self.before) else ""

    def tried(self, change: Mutation) -> bool:
        """Try one change, count it, and tell whether it went unnoticed."""
        place, told = (change.setup, change.step), change.made(self.plan)
        if self.contradicted(told, place):
            self.counts[change.work, change.field, "numbers"] += 1
            return False
        if not self.leaves_a_surface(told, place):
            self.counts[change.work, change.field, "no surface"] += 1
            return False
        by = self.objected(told, place) or "NOT NOTICED"
        self.counts[change.work, change.field, by] += 1
        return by == "NOT NOTICED"


def _step_of(plan: Json, place: tuple[int, int]) -> Json:
    step: Json = plan["setups"][place[0]]["steps"][place[1]]
    return step


def _apart(old: Json, new: Json) -> tuple[Json, Json, Json]:
    """Return a step's old parts that were changed, the new ones, and those that are as before."""
    rows = ("positions", "moves", "arcs", "rings")
    if old["tool"] != new["tool"]:
        return old, new, {**new, **{row: [] for row in rows}}
    pairs = {row: list(zip(old[row], new[row], strict=True)) for row in rows}
    before = {row: [a for a, b in pairs[row] if a != b] for row in rows}
    after = {row: [b for a, b in pairs[row] if a != b] for row in rows}
    kept = {row: [a for a, b in pairs[row] if a == b] for row in rows}
    return {**old, **before}, {**new, **after}, {**new, **kept}


def tried(name: str) -> Tried:
    """Return the plan of a part, ready to be changed."""
    part, shop = read(name)
    solids, _ = make_solids(part)
    plan = as_json(make_plan(part, shop, solids).plan)
    return Tried(name, plan, MeshData(*solids.least_mesh), MeshData(*solids.most_mesh))
