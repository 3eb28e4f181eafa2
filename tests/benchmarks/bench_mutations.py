"""Which wrong numbers of a plan the replay does not notice: each number of the demo parts and the corpus, changed.

    python -m tests.benchmarks.bench_mutations [part ...]

A change that leaves another surface must be objected to. One that leaves none (a roughing pass, the end of a way that
lies beside the part, a spot that the drill swallows) is counted apart.
"""

from __future__ import annotations

import sys
import time
from collections import Counter

from tests.plan.mutations import of_plan
from tests.plan.planned import DEMOS, SPECS
from tests.plan.trials import tried


def run(name: str) -> Counter[tuple[str, str, str]]:
    """Change every number of a part's plan and print what was not noticed."""
    start, trial = time.process_time(), tried(name)
    missed = [change for change in of_plan(trial.plan) if trial.tried(change)]
    total = Counter[str]()
    for (_, _, by), count in trial.counts.items():
        total[by] += count
    lines = [f"{name}: {dict(total)} in {time.process_time() - start:.0f} s"]
    lines += [f"  not noticed: {change.work}: {change.words}" for change in missed]
    _say(lines)
    return trial.counts


def _say(lines: list[str]) -> None:
    sys.stdout.write("".join(f"{line}\n" for line in lines))
    sys.stdout.flush()


def main(names: list[str]) -> None:
    """Run the parts named, or all, and print the sum of each kind of work and field."""
    counts = sum((run(name) for name in names or (*DEMOS, *SPECS)), Counter[tuple[str, str, str]]())
    _say([f"{count:6d}  {' | '.join(key)}" for key, count in sorted(counts.items())])


if __name__ == "__main__":
    main(sys.argv[1:])
