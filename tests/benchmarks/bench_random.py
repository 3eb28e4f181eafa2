"""How many random specs are proved, and why the others are not. Run: python -m tests.benchmarks.bench_random FROM TO.

Each seed from FROM to TO (without TO) is read, planned and replayed. A line a seed that is refused or not proved, then
how many were proved for each shop, and how often each finding refused a part. The seeds do not depend on each other.
"""

from __future__ import annotations

import sys
import time
import traceback
from collections import Counter

from tests.plan.random_outcome import Outcome, outcome
from tests.plan.random_specs import shop_of


def _because(made: Outcome) -> str:
    """Return the reasons of a part that is not proved, shortly."""
    faults = [f"{f.code} {f.feature or '-'}: {f.message} [{f.found or ''}]" for f in made.errors]
    left = [f"not proved: {words}" for words in made.planned.plan.not_proved]
    return "\n    ".join([*faults, *left])


def _say(words: str) -> None:
    """Write a line at once, so that a long run can be watched."""
    sys.stdout.write(words + "\n")
    sys.stdout.flush()


def main(first: int, last: int) -> None:
    """Plan and prove the seeds; print what became of them."""
    asked: Counter[str] = Counter()
    proved: Counter[str] = Counter()
    codes: Counter[str] = Counter()
    begun = time.process_time()
    for seed in range(first, last):
        shop = shop_of(seed)
        asked[shop] += 1
        try:
            made = outcome.__wrapped__(seed)
        except Exception as fault:
            codes["traceback"] += 1
            _say(f"{seed} {shop}: {''.join(traceback.format_exception(fault))}")
            continue
        if made.proved:
            proved[shop] += 1
            continue
        codes.update({f.code for f in made.errors} or {"only by hand"})
        _say(f"{seed} {shop}:\n    {_because(made)}")
    spent = time.process_time() - begun
    for shop in sorted(asked):
        _say(f"{shop}: {proved[shop]} of {asked[shop]} proved")
    _say(f"all: {proved.total()} of {asked.total()} proved; {spent / max(1, asked.total()):.1f} s of processor each")
    for code, count in codes.most_common():
        _say(f"  {code}: {count}")


if __name__ == "__main__":
    main(int(sys.argv[1]), int(sys.argv[2]))
