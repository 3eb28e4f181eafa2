"""The whole way of a plate of 10, 100 and 1000 holes: seconds and peak memory of each stage. Never run by pytest.

    python -m tests.benchmarks.bench_stages [COUNT]

Each size runs in a process of its own, so that its peak is its own; peaks of later stages hold those before.
"""

from __future__ import annotations

import resource
import subprocess
import sys
import time
from collections.abc import Callable
from typing import TypeVar

from setupsheet.drawing.draw import draw
from setupsheet.finding import has_errors, in_order
from setupsheet.papers.bundle import papers_of
from setupsheet.plan.accept import with_accepted
from setupsheet.plan.make import make_plan, prove
from setupsheet.solid.solids import make_solids
from tests.benchmarks.bench_plate import COUNTS, read

_T = TypeVar("_T")


def main() -> None:
    """Measure all sizes, or the one that is named."""
    if len(sys.argv) > 1:
        stages(int(sys.argv[1]))
        return
    for count in COUNTS:
        subprocess.run([sys.executable, "-m", "tests.benchmarks.bench_stages", str(count)], check=True)


def stages(count: int) -> None:
    """Run every stage of one plate and print what it took."""
    started = (time.process_time(), time.perf_counter())
    part, shop = _told("spec", lambda: read(count))
    solids, faults = _told("solid", lambda: make_solids(part))
    planned = _told("plan", lambda: make_plan(part, shop, solids))
    proved = _told("proof", lambda: prove(planned, solids))
    sheets, found = _told("drawing", lambda: draw(part, solids.nominal))
    findings = in_order(with_accepted(part, [*faults, *proved.findings, *found]))
    files = _told("papers", lambda: papers_of(part, solids, proved, sheets, findings))
    cpu, wall = time.process_time() - started[0], time.perf_counter() - started[1]
    proof = "refused" if has_errors(findings) else "proved"
    sys.stdout.write(f"{count} holes, {proof}: processor {cpu:.1f} s, clock {wall:.1f} s, {len(files)} files\n\n")


def _told(name: str, work: Callable[[], _T]) -> _T:
    cpu, wall = time.process_time(), time.perf_counter()
    made = work()
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    spent = f"processor {time.process_time() - cpu:7.2f} s, clock {time.perf_counter() - wall:7.2f} s, {peak:5.0f} MB"
    sys.stdout.write(f"  {name:8s} {spent}\n")
    sys.stdout.flush()
    return made


if __name__ == "__main__":
    main()
