"""Whole processes against each other: alternating runs, median ratio. Prints; never run by pytest."""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

PROJECT = Path(__file__).resolve().parent.parent.parent


@dataclass(frozen=True, slots=True)
class Run:
    """One process: wall clock and processor time in seconds."""

    wall_s: float
    processor_s: float


def run(command: Sequence[str]) -> Run:
    """Run a Python command from the project's folder; raises CalledProcessError when it fails."""
    before, since = os.times(), time.perf_counter()
    environment = {**os.environ, "PYTHONPATH": str(PROJECT)}
    words = [sys.executable, *command]
    subprocess.run(
        words, cwd=PROJECT, env=environment, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    )
    after = os.times()
    processor = after.children_user + after.children_system - before.children_user - before.children_system
    return Run(time.perf_counter() - since, processor)


def against(title: str, command: Sequence[str], floor: Sequence[str], aim: float, pairs: int) -> float:
    """Run command and floor in turns, print both medians and the median ratio of the pairs; return that ratio."""
    run(floor)
    run(command)
    measured = [(run(command), run(floor)) for _ in range(pairs)]
    ratio = statistics.median(one.wall_s / low.wall_s for one, low in measured)
    used = statistics.median(one.processor_s / low.processor_s for one, low in measured)
    wall = statistics.median(one.wall_s for one, _ in measured)
    low_wall = statistics.median(low.wall_s for _, low in measured)
    sys.stdout.write(
        f"{title}: {wall:.3f} s against {low_wall:.3f} s, median ratio {ratio:.2f} by the clock, {used:.2f} by the "
        f"processor (aim {aim:g}; {pairs} pairs)\n"
    )
    sys.stdout.flush()
    return ratio
