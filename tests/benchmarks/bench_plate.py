"""A plate of 10, 100 and 1000 holes: how planner and replay grow, kernel calls left out. Prints; never run by pytest.

    python tests/benchmarks/bench_plate.py [--dials] [--profile COUNT]

The solid stage is replaced by bodies that weigh nothing, so that only our own geometry is measured. An exponent is
log10 of the ratio of two times of neighbouring sizes; n log n gives 1.3 from 10 to 100 and 1.18 from 100 to 1000.
"""

from __future__ import annotations

import cProfile
import math
import pstats
import re
import sys
import tempfile
import time
import tracemalloc
from collections.abc import Callable
from pathlib import Path
from typing import Any

from setupsheet.part.part import Part
from setupsheet.part.shop import Shop
from setupsheet.plan import make
from setupsheet.plan.record import Plan, as_json
from setupsheet.plan.replay.frames import frames
from setupsheet.plan.replay.rules import numbers
from setupsheet.plan.replay.shown import numbers_shown
from setupsheet.solid.body import Body
from setupsheet.solid.solids import Solids
from setupsheet.spec.reader import read_part

COUNTS = (10, 100, 1000)
PITCH = 12.0
_TRAVEL = re.compile(r"travel: \[[0-9., ]+\]")
_LARGE_TABLE = "travel: [800 mm, 500 mm, 330 mm]"
"""The plate of 1000 holes is 488 by 308: wider than the small mills of the corpus travel."""
_CORPUS = Path(__file__).resolve().parents[1] / "corpus"

_SPEC = """format: 1
part: Plate
number: BP-{count}
revision: A
units: mm
material: aluminium 6082
tolerances: ISO 2768-1 m
shop: {shop}.yaml
stock: {{form: plate, size: [{long}, {wide}, 12]}}
size: [{length}, {width}, 10]
origin: left front bottom
datums: {{A: bottom, B: left, C: front}}
features:
  holes:
    kind: hole
    pattern: {{grid: {{from: [10, 10], dx: {pitch}, dy: {pitch}, columns: {columns}, rows: {rows}}}}}
    drill: 5
    through: true
    chamfer: 0.3 both ends
"""


def spec_text(count: int, shop: str) -> str:
    """Return the spec of a plate with this many holes in a grid."""
    rows = max(r for r in range(1, math.isqrt(count) + 1) if count % r == 0)
    columns = count // rows
    length, width = 20 + (columns - 1) * PITCH, 20 + (rows - 1) * PITCH
    sizes = {"long": length + 4, "wide": width + 4, "length": length, "width": width}
    return _SPEC.format(count=count, shop=shop, columns=columns, rows=rows, pitch=PITCH, **sizes)


def shop_name() -> str:
    """Return the shop: one with a readout (one cutter on all holes), or one with dials (hole by hole)."""
    return "inch-shop" if "--dials" in sys.argv else "shop"


def read(count: int) -> tuple[Part, Shop]:
    """Return the plate and its shop as they are read."""
    with tempfile.TemporaryDirectory() as folder:
        for shop_file in _CORPUS.glob("*shop.yaml"):
            own = shop_file.read_text(encoding="utf-8")
            Path(folder, shop_file.name).write_text(_TRAVEL.sub(_LARGE_TABLE, own), encoding="utf-8")
        path = Path(folder) / "plate.yaml"
        path.write_text(spec_text(count, shop_name()), encoding="utf-8")
        part, shop, findings = read_part(path)
    if part is None or shop is None:
        raise SystemExit("\n".join(finding.message for finding in findings))
    return part, shop


def without_kernel() -> None:
    """Replace the kernel's bodies by none: what is left is the planner's own work."""
    vars(make)["stock_less"] = lambda *_: Body(None, ())
    vars(make)["volume_mm3"] = lambda *_: 0.0


def planned(part: Part, shop: Shop) -> Plan:
    """Plan a plate without a kernel."""
    solids: Any = Solids.__new__(Solids)
    nothing = {"volume_mm3": 0.0, "box_mm": (part.box.low, part.box.high)}
    for name in Solids.__slots__:
        object.__setattr__(solids, name, nothing.get(name))
    return make.make_plan(part, shop, solids).plan


def timed(work: Callable[[], Any]) -> tuple[Any, float]:
    """Return what a piece of work gives and how many seconds it took."""
    before = time.perf_counter()
    made = work()
    return made, time.perf_counter() - before


def measure(count: int) -> tuple[float, float, float]:
    """Return seconds of the planner, seconds of the replay's rules on numbers, and the planner's peak memory in MB."""
    part, shop = read(count)
    plan, planning = timed(lambda: planned(part, shop))
    data = as_json(plan)
    _, ruling = timed(lambda: frames(data) + numbers(data) + numbers_shown(data))
    tracemalloc.start()  # apart, because it slows everything down
    planned(part, shop)
    peak = tracemalloc.get_traced_memory()[1] / 1e6
    tracemalloc.stop()
    return planning, ruling, peak


def main() -> None:
    """Measure all sizes, or print where the time of one goes."""
    without_kernel()
    if "--profile" in sys.argv:
        part, shop = read(int(sys.argv[-1]))
        profile = cProfile.Profile()
        profile.runcall(planned, part, shop)
        pstats.Stats(profile).sort_stats("cumulative").print_stats(40)
        return
    planned(*read(COUNTS[0]))
    before: tuple[float, float, float] | None = None
    for count in COUNTS:
        found = measure(count)
        grown = "" if before is None else f"  exponents {_exponent(before, found, 0)}, {_exponent(before, found, 1)}"
        sys.stdout.write(
            f"{count:5d} holes: plan {found[0]:7.3f} s, rules {found[1]:6.3f} s, {found[2]:6.1f} MB{grown}\n"
        )
        sys.stdout.flush()
        before = found


def _exponent(a: tuple[float, float, float], b: tuple[float, float, float], index: int) -> str:
    return f"{math.log10(b[index] / max(a[index], 1e-4)):.2f}"


if __name__ == "__main__":
    main()
