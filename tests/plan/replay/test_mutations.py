"""Whole plans with one number wrong, its texts along: for each kind of work and each of its numbers the replay objects.

Every number of every demo part is tried by tests/benchmarks/bench_mutations.py, every way to lay a part wrongly by
bench_turns.py beside it; here is one of each kind, on a readout and on dials.
"""

from __future__ import annotations

import copy
import functools
from collections import Counter
from collections.abc import Iterator
from itertools import product

import pytest

from setupsheet.plan.record import as_json
from setupsheet.plan.replay import metal
from setupsheet.plan.replay.replay import stock_body
from setupsheet.plan.replay.rules import numbers
from setupsheet.plan.replay.walk import walk
from tests.benchmarks.bench_turns import laid
from tests.plan.mutations import Mutation, of_plan
from tests.plan.planned import DEMOS, plan_of
from tests.plan.replay_blocks import Json
from tests.plan.trials import Tried, tried

CHEAP_FIRST = (
    "indicator-foot",
    "tilted-bevel-inch",
    "rotary-boss",
    "slot-slanted",
    "hinge-block",
    "motor-plate",
    "worm-bracket",
)
"""Parts by the time that their replay takes: one at an angle, one turned on the table, one by points, and the demo
parts; the fence's kinds of work are the foot's."""
_TRIES = 4
"""Places tried until one is found that leaves a surface."""
Pair = tuple[str, str]
trial_of = functools.cache(tried)


@functools.cache
def _assigned() -> dict[str, dict[Pair, list[Mutation]]]:
    """Return for each part the pairs of work and number that no cheaper part on such a machine has."""
    seen: set[tuple[str, Pair]] = set()
    found: dict[str, dict[Pair, list[Mutation]]] = {}
    for name in CHEAP_FIRST:
        plan = as_json(plan_of(name))
        here: dict[Pair, list[Mutation]] = {}
        for change in of_plan(plan):
            kind = plan["setups"][change.setup]["readout"]["x"]["kind"]
            if (kind, (change.work, change.field)) not in seen:
                here.setdefault((change.work, change.field), []).append(change)
        seen |= {(plan["setups"][rows[0].setup]["readout"]["x"]["kind"], pair) for pair, rows in here.items()}
        found[name] = here
    return found


def _spread(rows: list[Mutation]) -> Iterator[Mutation]:
    """Yield a few changes: the last, the first and some between, for finishing comes last."""
    picks = dict.fromkeys(round((len(rows) - 1) * share) for share in (1.0, 0.0, 0.5, 0.75))
    yield from (rows[k] for k in list(picks)[:_TRIES])


@pytest.mark.parametrize("name", CHEAP_FIRST)
def test_one_number_of_each_kind(name: str) -> None:
    """Of each kind of work and number the first change that leaves another surface, or contradicts another number."""
    trial = trial_of(name) if _assigned()[name] else None
    missed = []
    for rows in _assigned()[name].values():
        for change in _spread(rows):
            assert trial is not None
            before = trial.counts[change.work, change.field, "no surface"]
            if trial.tried(change):
                missed.append(f"{change.work}: {change.words}")
            if trial.counts[change.work, change.field, "no surface"] == before:
                break
    assert missed == []


def test_the_demo_parts_have_every_kind() -> None:
    """The pairs tried cover all ways of giving work that the planner uses, on a readout; and the main ones on dials."""
    pairs = {pair for rows in _assigned().values() for pair in rows}
    fields = {field for _, field in pairs}
    assert {"position x", "position z_to", "move x", "move y", "move z", "limit", "limit and its cuts"} <= fields
    assert {"ring radius_inner", "ring z_to", "ring centre", "cutter diameter"} <= fields
    assert {"arc radius", "arc z", "arc from", "arc to"} <= fields
    assert {"mill by angle_setting", "mill by arcs", "mill by moves with points"} <= {work for work, _ in pairs}
    assert len(pairs) >= 50
    on_dials = {work.split()[0] for work, _ in _assigned()["indicator-foot"]}
    assert {"face", "spot", "drill", "counterbore", "mill", "chamfer"} <= on_dials


# ---- laid another way, and in another order --------------------------------------------------------


HALF_TURNS = {
    "left over right": ((-1, 0, 0), (0, 1, 0), (0, 0, -1)),
    "front over back": ((1, 0, 0), (0, -1, 0), (0, 0, -1)),
    "round on the table": ((-1, 0, 0), (0, -1, 0), (0, 0, 1)),
}


def _gouged(trial: Tried, told: Json, index: int) -> bool:
    """Tell whether a setup laid another way cuts into the part."""
    run = trial.run(index, -1)
    steps = range(len(told["setups"][index]["steps"]))
    return any(metal.is_there(metal.shared(trial.thin, metal.join(trial.cut_by(told, (index, j), run)))) for j in steps)


@pytest.mark.parametrize("name", ["hinge-block", "indicator-foot"])
@pytest.mark.parametrize("turn", HALF_TURNS.values(), ids=HALF_TURNS)
def test_laid_the_wrong_way(name: str, turn: tuple[tuple[int, ...], ...]) -> None:
    """The last setup with the part turned by half a turn, every word and zero agreeing: the metal tells."""
    trial = trial_of(name)
    index = len(trial.plan["setups"]) - 1
    box = metal.bounds(trial.high)
    x, y, z = ((a + b) / 2 for a, b in zip(*box, strict=True))
    wrong = laid(trial.plan["setups"][index], turn, (x, y, z))
    told = {**trial.plan, "setups": [*trial.plan["setups"][:index], wrong]}
    assert _gouged(trial, told, index)


def _swapped(plan: Json, index: int, a: int, b: int) -> Json:
    """Return the plan with two steps of a setup in each other's place, numbered anew, still naming what they need."""
    told = copy.deepcopy(plan["setups"][index])
    steps = told["steps"]
    steps[a], steps[b] = steps[b], steps[a]
    numbers = {step["number"]: place for place, step in enumerate(steps, 1)}
    for step in steps:
        step["number"] = numbers[step["number"]]
        step["depends_on"] = [numbers[n] for n in step["depends_on"]]
    return {**plan, "setups": [*plan["setups"][:index], told, *plan["setups"][index + 1 :]]}


@pytest.mark.parametrize("name", DEMOS)
def test_dependent_steps_swapped(name: str) -> None:
    """Each pair of steps of which one needs the other, swapped: the order of what depends on what is objected to."""
    trial_plan = as_json(plan_of(name))
    counts: Counter[bool] = Counter()
    for index, setup in enumerate(trial_plan["setups"]):
        for a, b in product(range(len(setup["steps"])), repeat=2):
            if setup["steps"][a]["number"] in setup["steps"][b]["depends_on"]:
                counts["comes no earlier" in " ".join(numbers(_swapped(trial_plan, index, a, b)))] += 1
    assert counts[True] > 0
    assert counts[False] == 0


_NEVER_MIND = {("face", "mill"), ("drill", "chamfer"), ("chamfer", "tap")}
"""Earlier work -> later, where the other order makes the same part: sides cut first, mouths opened early."""


def _found_by_the_metal(plan: Json, index: int, a: int, b: int) -> bool:
    """Tell whether two steps swapped, and told to need nothing that comes later, are objected to all the same."""
    told = _swapped(plan, index, a, b)
    for step in told["setups"][index]["steps"]:
        step["depends_on"] = [n for n in step["depends_on"] if n < step["number"]]
    said = numbers(told) + walk(told, stock_body(told, 0.0))
    return any("volume" not in words and "metal said to be" not in words for words in said)


@pytest.mark.parametrize("name", ["worm-bracket", "drive-cover", "indicator-foot"])
def test_swapped_steps_found_by_the_metal(name: str) -> None:
    """One swap of each two kinds of work in a setup, the numbers mended: the metal or another number tells."""
    plan = as_json(plan_of(name))
    tried_pairs: set[tuple[int, Pair]] = set()
    missed = []
    for index, setup in enumerate(plan["setups"]):
        steps = setup["steps"]
        for a, b in product(range(len(steps)), repeat=2):
            kinds = (steps[a]["operation"], steps[b]["operation"])
            known = (index, kinds) in tried_pairs or kinds in _NEVER_MIND or kinds[1] == "file"
            if known or steps[a]["number"] not in steps[b]["depends_on"]:
                continue
            tried_pairs.add((index, kinds))
            if not _found_by_the_metal(plan, index, a, b):
                missed.append(f"setup {index + 1} steps {a + 1} and {b + 1}: {kinds[1]} before {kinds[0]}")
    assert len(tried_pairs) > 10
    assert missed == []
