"""A thousand random sound parts are drawn: none may have an error; the time of each is counted.

    python -m tests.benchmarks.bench_drawings [how many] [first seed]

Prints the seeds with errors, the cautions by code, and the middle and the longest time of the drawing stage.
"""

from __future__ import annotations

import statistics
import sys
import time
from collections import Counter

from setupsheet.drawing.draw import draw
from setupsheet.finding import Severity
from setupsheet.solid.body import finished
from tests.drawing.random_parts import random_part


def main() -> None:
    """Draw the parts and print what came out."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    first = int(sys.argv[2]) if len(sys.argv) > 2 else 0
    errors: list[str] = []
    cautions: Counter[str] = Counter()
    seconds: list[float] = []
    for seed in range(first, first + count):
        part = random_part(seed)
        body = finished(part)
        start = time.process_time()
        sheets, findings = draw(part, body)
        seconds.append(time.process_time() - start)
        found = [*body.findings, *findings]
        errors += [f"seed {seed}: {f.code}: {f.message}" for f in found if f.severity is Severity.ERROR]
        errors += [] if sheets else [f"seed {seed}: no sheet"]
        cautions.update(f.code for f in found if f.severity is Severity.CAUTION)
    sys.stdout.write("\n".join([f"{count} parts, {len(errors)} errors", *errors, f"cautions: {dict(cautions)}", ""]))
    sys.stdout.write(f"drawing: middle {statistics.median(seconds):.2f} s, longest {max(seconds):.2f} s\n")


if __name__ == "__main__":
    main()
