"""The shop: the machines, work holding, cutters and gauges that somebody owns. All in mm and rpm."""

from __future__ import annotations

from dataclasses import dataclass, field

from setupsheet.finding import Place
from setupsheet.part.cutter import Cutter

__all__ = [
    "AngleTools",
    "Axis",
    "BoringHead",
    "Cutter",
    "Gauge",
    "Machine",
    "Parallel",
    "RotaryTable",
    "Shop",
    "Vise",
]


@dataclass(frozen=True, slots=True)
class Axis:
    """How one axis is read: ``readout`` or ``dial``.

    ``step_mm`` is the readout's step or the dial's division, ``per_turn_mm`` one turn of the dial. ``counts`` is
    +1 or -1: whether the reading grows with X right, Y away, Z up. ``unit`` is the unit in which it shows
    ('mm' or 'inch').
    """

    kind: str
    step_mm: float
    per_turn_mm: float
    counts: int
    unit: str


@dataclass(frozen=True, slots=True)
class Machine:
    """A milling machine or a drill press. ``speeds_rpm`` rises; a range has two entries and ``stepless``."""

    name: str
    kind: str
    travel_mm: tuple[float, float, float]
    speeds_rpm: tuple[int, ...]
    stepless: bool
    reverse: bool
    power_w: float
    axes: dict[str, Axis]
    head_keeps_place: bool
    quill_mm: float
    feed_mm_per_turn: float
    power_feed: bool
    place: Place


@dataclass(frozen=True, slots=True)
class Vise:
    """A machine vise; jaws along X, the fixed one at the ``fixed`` side ('back' or 'front')."""

    name: str
    jaw_length_mm: float
    jaw_height_mm: float
    opening_mm: float
    fixed: str
    bed_height_mm: float
    place: Place


@dataclass(frozen=True, slots=True)
class Parallel:
    """A pair of parallels."""

    height_mm: float
    thickness_mm: float
    length_mm: float


@dataclass(frozen=True, slots=True)
class RotaryTable:
    """A rotary table, flat on the mill's table; ``height_mm`` is that of its face over the mill's table.

    ``step_deg`` is the smallest angle that can be set and ``unit`` how it is read ('deg', 'min', 'sec'). ``counts``
    is +1 where the reading grows as the table turns clockwise seen from above, else -1. ``turns``: turns of the
    handwheel for a whole turn, 0 if not told; ``bore_mm``: the true hole in its middle, 0 if not told.
    """

    name: str
    diameter_mm: float
    height_mm: float
    step_deg: float
    unit: str
    counts: int
    turns: int
    bore_mm: float
    place: Place


@dataclass(frozen=True, slots=True)
class BoringHead:
    """A boring head: the bar, the range of diameters inside and outside, and what its dial reads."""

    label: str
    bar_mm: float
    reach_mm: float
    min_bore_mm: float
    max_bore_mm: float
    max_boss_mm: float
    dial_reads: str
    division_mm: float
    shank_locked: bool
    max_rpm: int


@dataclass(frozen=True, slots=True)
class Gauge:
    """A measuring tool: kind (caliper, micrometer, depth micrometer, pin, indicator, height gauge), range."""

    kind: str
    label: str
    low_mm: float
    high_mm: float
    resolution_mm: float


@dataclass(frozen=True, slots=True)
class AngleTools:
    """What a part is set to an angle with; 0 (``blocks``: False) for what the shop does not have.

    ``bar_mm`` lies between the rolls of the sine bar, ``bar_height_mm`` is its top over what it stands on;
    ``plate_mm`` is the height of the angle plate, ``protractor_min`` what the protractor reads (minutes of arc).
    """

    bar_mm: float = 0.0
    bar_height_mm: float = 0.0
    blocks: bool = False
    plate_mm: float = 0.0
    protractor_min: float = 0.0


@dataclass(frozen=True, slots=True)
class Shop:
    """Everything the plan may pick from. ``chuck_rpm`` is the most that the drill chuck may turn, 0: not told."""

    name: str
    machines: tuple[Machine, ...]
    vises: tuple[Vise, ...]
    parallels: tuple[Parallel, ...]
    cutters: tuple[Cutter, ...]
    boring_head: BoringHead | None
    edge_finder_mm: float
    feeler_mm: float
    gauges: tuple[Gauge, ...]
    sha256: str
    chuck_rpm: int = 0
    clamps: tuple[str, ...] = ()
    rotary_tables: tuple[RotaryTable, ...] = ()
    notes: dict[str, str] = field(default_factory=dict)
    angle: AngleTools = field(default_factory=AngleTools)
