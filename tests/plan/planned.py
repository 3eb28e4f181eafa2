"""Plans to ask: those of the demo parts and of the small specs in tests/corpus, each made once; and benches."""

from __future__ import annotations

import functools
import re
from pathlib import Path

from setupsheet import flow
from setupsheet.part.face import Face
from setupsheet.part.part import HoldAsked, Part, SetupAsked, ZeroAsked
from setupsheet.part.shop import Axis, Machine, Parallel, Shop, Vise
from setupsheet.plan.bench import Bench, Removed
from setupsheet.plan.record import Plan, Readout, Setup
from setupsheet.plan.setup.hold import grip
from setupsheet.plan.setup.zero import laid_for
from setupsheet.plan.shown import Scale, offset_for
from setupsheet.plane import Point3
from setupsheet.solid.volumes import finished_volumes
from setupsheet.spec.reader import read_part
from tests.parts import HERE

PROJECT = Path(__file__).resolve().parents[2]
CORPUS = PROJECT / "tests" / "corpus"
DEMOS = ("worm-bracket", "drive-cover", "hinge-block", "motor-plate", "indicator-foot", "drill-fence")
SPECS = tuple(sorted(path.stem for path in CORPUS.glob("*.yaml") if "\npart: " in path.read_text("utf-8")))
"""Every part of the corpus; the other files there are shops."""

READOUT = Axis("readout", 0.005, 0.0, 1, "mm")
INCH_DIAL = Axis("dial", 0.0254, 2.54, 1, "inch")
_MM = {"mm": 1.0, "inch": 25.4}


def path_of(name: str) -> Path:
    """Return the spec of a demo part or of a part of the corpus."""
    return (PROJECT / "specs" if name in DEMOS else CORPUS) / f"{name}.yaml"


@functools.cache
def checked(name: str) -> flow.Built:
    """Return what ``setupsheet check`` finds out about a part."""
    return flow.check(path_of(name))


def plan_of(name: str) -> Plan:
    """Return the plan of a part."""
    plan = checked(name).plan
    assert plan is not None
    return plan


@functools.cache
def read(name: str) -> tuple[Part, Shop]:
    """Return a part and its shop as they are read."""
    part, shop, _ = read_part(path_of(name))
    assert part is not None
    assert shop is not None
    return part, shop


def setup_of(name: str, number: int) -> Setup:
    """Return a setup of a part's plan, counted from 1."""
    return plan_of(name).setups[number - 1]


_DIAL = re.compile(r"^(-?\d+) \+ (\d*\.?\d+)$")


def parse_shown(text: str, readout: Readout, counts: int) -> float:
    """Return the coordinate (mm, setup frame) that a reader of the sheet understands by a text."""
    unit = _MM[readout.unit]
    dial = _DIAL.match(text)
    if dial:
        reading = int(dial[1]) * readout.per_turn_mm + float(dial[2]) * unit - readout.offset_mm
    else:
        reading = float(text) * unit
    return reading * counts


def in_part(setup: Setup, point: Point3) -> Point3:
    """Return a point of the setup frame in the part frame, by the printed matrix turned back."""
    rows = setup.part_to_setup
    moved = [point[i] - rows[i][3] for i in range(3)]
    x, y, z = (sum(rows[i][k] * moved[i] for i in range(3)) for k in range(3))
    return x, y, z


def asked(up: Face = Face.TOP, back: Face = Face.BACK, grip_mm: float | None = None, **zero: str) -> SetupAsked:
    """Return a setup in the vise; ``zero`` names how each axis is found ('left: stock left')."""
    zeros = {axis: ZeroAsked(*_pair(text), None, HERE) for axis, text in zero.items()}
    hold = HoldAsked("vise", grip_mm, None, {}, HERE) if grip_mm else None
    return SetupAsked("a setup", up, back, True, "", hold, zeros, "", (), HERE)


def _pair(text: str) -> tuple[str, str]:
    at, _, found = text.partition(": ")
    return at, found


def small_shop(axis: Axis = READOUT, heights: tuple[float, ...] = (20.0, 25.0)) -> Shop:
    """Return a shop with one mill, one vise and the cutters of the corpus' shop; jaws 30 high, 100 long."""
    mill = Machine(
        "mill",
        "mill",
        (400.0, 145.0, 330.0),
        (100, 200, 350, 600, 1000, 1800),
        False,
        True,
        600.0,
        dict.fromkeys("xyz", axis),
        True,
        70.0,
        2.5,
        False,
        HERE,
    )
    vise = Vise("vise 100", 100.0, 30.0, 80.0, "back", 40.0, HERE)
    parallels = tuple(Parallel(height, 6.0, 100.0) for height in heights)
    full = read("hole-blind")[1]
    return Shop("shop", (mill,), (vise,), parallels, full.cutters, full.boring_head, 10.0, 0.1, full.gauges, "0" * 64)


def bench(part: Part, setup: SetupAsked | None = None, shop: Shop | None = None, removed: Removed = ()) -> Bench:
    """Return a setup of a part ready to be planned."""
    setup, shop = setup or asked(), shop or small_shop()
    laid, _ = laid_for(part, setup)
    held, _ = grip(part, shop, laid, setup, removed)
    stock, machine = laid.box(part.stock.box), shop.machines[0]
    scales = {
        name: Scale(machine.axes[name], offset_for(machine.axes[name], stock.low[i] - 40.0, stock.high[i] + 40.0))
        for i, name in enumerate("xyz")
    }
    gone = tuple(shape for volume in finished_volumes(part).values() for shape in volume)
    return Bench(part, shop, machine, held.vise, laid, setup, scales, 1, held.jaw_top, held.jaws_x, gone)
