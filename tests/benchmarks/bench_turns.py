"""In which ways a part may be laid wrongly without the replay telling: each setup of each part, turned 23 ways.

    python -m tests.benchmarks.bench_turns [part ...]

Before a setup the part is turned about the middle of its blank, by quarter and half turns about each axis; all numbers
stay. Each way is counted: told by the metal, by what the plan says of faces and zeros alone, or by nothing. By words
alone is right where the part is still a blank that looks the same from both sides; by nothing is a fault.
"""

from __future__ import annotations

import sys
from collections import Counter

from setupsheet.plan.replay import metal
from setupsheet.plan.replay.replay import replay
from setupsheet.plane import Point3
from tests.plan.planned import DEMOS
from tests.plan.replay_blocks import Json
from tests.plan.trials import Tried, tried

Turn = tuple[tuple[int, ...], ...]
_QUARTERS: tuple[Turn, ...] = (
    ((1, 0, 0), (0, 0, -1), (0, 1, 0)),
    ((0, 0, 1), (0, 1, 0), (-1, 0, 0)),
    ((0, -1, 0), (1, 0, 0), (0, 0, 1)),
)
_AS_IT_IS: Turn = ((1, 0, 0), (0, 1, 0), (0, 0, 1))


def turns() -> list[Turn]:
    """Return the 23 ways in which a block can be turned onto its own axes, leaving it as it is not counted."""
    found = {_AS_IT_IS}
    while True:
        more = found | {_product(quarter, turn) for quarter in _QUARTERS for turn in found}
        if len(more) == len(found):
            return sorted(found - {_AS_IT_IS})
        found = more


def _product(a: Turn, b: Turn) -> Turn:
    return tuple(tuple(sum(a[i][k] * b[k][j] for k in range(3)) for j in range(3)) for i in range(3))


def laid(setup: Json, turn: Turn, middle: Point3) -> Json:
    """Return a setup with the part turned about the middle of the blank before it is laid down."""
    rows = setup["part_to_setup"]
    carried = [[sum(row[k] * turn[k][j] for k in range(3)) for j in range(3)] for row in rows[:3]]
    turned = [sum(turn[k][j] * middle[j] for j in range(3)) for k in range(3)]
    shift = [row[3] + sum(row[k] * (middle[k] - turned[k]) for k in range(3)) for row in rows[:3]]
    return {**setup, "part_to_setup": [*([*carried[i], shift[i]] for i in range(3)), [0, 0, 0, 1]]}


def told_by(trial: Tried, index: int, turn: Turn) -> str:
    """Return what tells that a setup (counted from 0) is laid wrongly: 'metal', 'words', '' for nothing."""
    (x0, y0, z0), (x1, y1, z1) = metal.bounds(trial.high)
    middle = ((x0 + x1) / 2, (y0 + y1) / 2, (z0 + z1) / 2)
    setups = list(trial.plan["setups"])
    setups[index] = laid(setups[index], turn, middle)
    verdict = replay({**trial.plan, "setups": setups}, trial.least, trial.most)
    if verdict.gouge or verdict.left:
        return "metal"
    return "words" if set(verdict.objections) - set(trial.before) else ""


def main(names: list[str]) -> None:
    """Turn every setup of the parts named, or of all demo parts."""
    for name in names or DEMOS:
        trial = tried(name)
        counts: Counter[str] = Counter()
        for index, _ in enumerate(trial.plan["setups"]):
            for turn in turns():
                by = told_by(trial, index, turn)
                counts[by or "nothing"] += 1
                if by != "metal":
                    sys.stdout.write(f"  {name} setup {index + 1} turned {turn}: told by {by or 'NOTHING'}\n")
        sys.stdout.write(f"{name}: {dict(counts)}\n")
        sys.stdout.flush()


if __name__ == "__main__":
    main(sys.argv[1:])
