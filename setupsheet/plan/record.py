"""The plan: everything that is printed and everything that the replay cuts, as frozen records.

``as_json`` turns a plan into plan.json (schemas/plan.schema.json describes each field). Lengths in mm,
angles in degrees, in the setup frame (origin at the zero, X right, Y away, Z up) after rounding to
the readout, unless a field says ``part``. Printed texts stand beside the numbers in ``shown`` fields.
"""

from __future__ import annotations

from dataclasses import dataclass, field, fields, is_dataclass
from enum import Enum
from typing import Any

from setupsheet.plan.record_angle import AngleSetting
from setupsheet.plan.record_circle import RingFunction, TableAngle, TableAngles
from setupsheet.plan.record_fit import FitBand, FitPlan
from setupsheet.plan.record_step import (
    ArcMove,
    Ask,
    Leftover,
    Limit,
    Move,
    Position,
    Ring,
    Step,
    StopPair,
    ToolPlan,
    TouchOff,
)
from setupsheet.plane import Point3

__all__ = [
    "AngleSetting",
    "ArcMove",
    "Ask",
    "AxisZero",
    "Body",
    "EdgeMark",
    "FeaturePlan",
    "FitBand",
    "FitPlan",
    "Hold",
    "Leftover",
    "Limit",
    "MadeIn",
    "Matrix",
    "Measure",
    "Mesh",
    "Move",
    "Plan",
    "Position",
    "Readout",
    "Ring",
    "RingFunction",
    "Setup",
    "SolidPlan",
    "Step",
    "StockPlan",
    "StopPair",
    "TableAngle",
    "TableAngles",
    "ToolLine",
    "ToolPlan",
    "TouchOff",
    "Turn",
    "Verdict",
    "Witness",
    "as_json",
    "tidy",
]
"""The records of steps are found here too: a plan is one thing to its readers."""

Matrix = tuple[tuple[float, float, float, float], ...]
"""4 x 4, row-major."""


@dataclass(frozen=True, slots=True)
class StockPlan:
    """The blank: form, size, which part faces are used as they come, where the part lies in it."""

    form: str
    size_mm: Point3
    shown_size: str
    as_bought: tuple[str, ...]
    stock_to_part: Matrix
    least_mm: Point3
    shown_least: str
    mass_kg: float
    shown_mass: str = ""


@dataclass(frozen=True, slots=True)
class Mesh:
    """A mesh file of the build and its hash."""

    file: str
    sha256: str


@dataclass(frozen=True, slots=True)
class SolidPlan:
    """What the exact solid is, for a check against the meshes."""

    volume_mm3: float
    box_mm: tuple[Point3, Point3]
    mesh_deflection_mm: float
    meshes: tuple[Mesh, ...]
    mass_kg: float
    shown_mass: str = ""
    shown_box: str = ""


@dataclass(frozen=True, slots=True)
class MadeIn:
    """The setup and step (both counted from 1) that makes a feature."""

    setup: int
    step: int


@dataclass(frozen=True, slots=True)
class FeaturePlan:
    """A feature as the papers and other programs see it; axis and place in the part frame."""

    id: str
    kind: str
    callout: str
    size_mm: float | None
    lower_mm: float | None
    upper_mm: float | None
    axis: Point3 | None
    places: tuple[Point3, ...]
    labels: tuple[str, ...]
    made_in: tuple[MadeIn, ...]


@dataclass(frozen=True, slots=True)
class Turn:
    """What is done with the part before this setup: an axis and angle, and the sentence for people.

    ``moves`` lists the turns about machine axes (axis, degrees) in their order; two where one does not do.
    """

    axis: str
    angle_deg: float
    sentence: str
    moves: tuple[tuple[str, float], ...] = ()


@dataclass(frozen=True, slots=True)
class Witness:
    """A hole that is driven to before the first cut: ``pin_mm`` must enter it at x, y."""

    feature: str
    label: str
    x: float
    y: float
    pin_mm: float
    shown: dict[str, str]
    sentence: str


@dataclass(frozen=True, slots=True)
class Body:
    """A thing that holds the part: a named box (``low``, ``high``) or cylinder along Z, setup frame."""

    name: str
    low: Point3
    high: Point3
    radius_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class Hold:
    """How the part is held. ``proud_before_mm`` and ``proud_after_mm``: metal above the jaws.

    ``shown``: the texts of grip, proud_before and proud_after, and ``jaw_top``, the reading at the jaws' top.
    """

    in_: str
    words: tuple[str, ...]
    grip_mm: float
    proud_before_mm: float
    proud_after_mm: float
    jaw_top_z: float
    rest: str
    bodies: tuple[Body, ...]
    shown: dict[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class AxisZero:
    """How the zero of one axis is found.

    ``at`` names the face or point that is zero and ``part_coordinate`` where that is; ``touch`` is the
    surface touched, ``at_reading`` the true coordinate of the spindle there, ``key_in`` the text to set.
    Of a part at an angle ``part_point`` is what is touched: a corner, or the middle of a hole with a pin of ``pin_mm``.
    """

    axis: str
    at: str
    part_coordinate: float
    method: str
    touch: str
    side: str
    tip_diameter_mm: float
    feeler_mm: float
    reading: float
    key_in: str
    words: str
    part_point: Point3 | None = None
    pin_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class Readout:
    """How a setup's machine shows an axis (contracts: ``readout``); the replay's tolerance comes from it.

    A ``readout`` shows ``value x counts`` in ``unit`` with its sign ('+20.285'). A ``dial`` shows whole turns
    and a rest, '12 + .034', of ``value x counts + offset_mm``: the offset makes all readings positive.
    """

    kind: str
    step_mm: float
    per_turn_mm: float
    division_mm: float
    unit: str
    angle_step_deg: float
    offset_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class EdgeMark:
    """The reading of an edge that the plan view names: ``axis`` x or y, 'raw left end', 'boss, right'."""

    axis: str
    value: float
    shown: str
    words: str


@dataclass(frozen=True, slots=True)
class Setup:
    """One clamping of the part. ``before`` and ``after`` are volumes of metal in mm3.

    ``edges`` are the readings that the plan view prints along its sides; ``mark_at`` is where the corner
    mark stands (setup frame).
    """

    number: int
    name: str
    machine: str
    up: str
    fixed_jaw: str
    turn: Turn
    witness: Witness | None
    mark: str
    hold: Hold
    zero: tuple[AxisZero, ...]
    sums: tuple[str, ...]
    part_to_setup: Matrix
    counts: dict[str, int]
    readout: dict[str, Readout]
    volume_before_mm3: float
    volume_after_mm3: float
    before_cutting: tuple[str, ...]
    steps: tuple[Step, ...]
    rings: tuple[RingFunction, ...]
    cautions: tuple[str, ...]
    edges: tuple[EdgeMark, ...] = ()
    mark_at: Point3 | None = None
    mark_label: str = ""
    by_angle: tuple[TableAngles, ...] = ()
    angle_setting: AngleSetting | None = None


@dataclass(frozen=True, slots=True)
class Measure:
    """One size to measure: limits as printed, gauge, and the reading over a pin where one is used.

    ``close`` limits are named beforehand on the page of the setup that makes the size.
    """

    feature: str
    what: str
    lower_mm: float
    upper_mm: float
    shown: str
    gauge: str
    after: MadeIn | None
    words: str = ""
    close: bool = False


@dataclass(frozen=True, slots=True)
class ToolLine:
    """A line of the list to lay out: what, how many setups use it, owned or to buy or borrow."""

    label: str
    owned: bool
    used_in: tuple[int, ...]
    why: str


@dataclass(frozen=True, slots=True)
class Verdict:
    """What the replay said. ``gouge`` and ``left`` list components; both empty when it proves the plan.

    ``explained`` lists what a step names as its leftover, within its bound; ``not_proved`` lists metal that
    stands where a step says that its work is not in the plan as moves.
    """

    proved: bool
    tolerance_mm: tuple[float, ...]
    words: tuple[str, ...]
    gouge: tuple[dict[str, Any], ...] = ()
    left: tuple[dict[str, Any], ...] = ()
    objections: tuple[str, ...] = ()
    explained: tuple[dict[str, Any], ...] = ()
    not_proved: tuple[dict[str, Any], ...] = ()


@dataclass(frozen=True, slots=True)
class Plan:
    """Everything on the papers. ``not_proved`` names the work that the replay does not cut."""

    format: int
    part: str
    number: str
    revision: str
    unit: str
    spec_sha256: str
    shop_sha256: str
    program_version: str
    defaults_applied: tuple[dict[str, str], ...]
    material: str
    stock: StockPlan
    solid: SolidPlan
    features: tuple[FeaturePlan, ...]
    setups: tuple[Setup, ...]
    order_reasons: tuple[str, ...]
    measure: tuple[Measure, ...]
    tools: tuple[ToolLine, ...]
    watch: tuple[str, ...]
    cautions: tuple[str, ...]
    not_proved: tuple[str, ...]
    findings: tuple[dict[str, Any], ...]
    replay: Verdict | None = None
    revisions: tuple[dict[str, str], ...] = ()
    notes: tuple[str, ...] = ()
    fits: tuple[FitBand, ...] = ()
    mates: tuple[FitPlan, ...] = ()
    quantity: int = 1


def as_json(value: Any) -> Any:
    """Return records as plain dicts, lists and numbers; a trailing underscore of a name is dropped."""
    if is_dataclass(value) and not isinstance(value, type):
        return {field.name.rstrip("_"): as_json(getattr(value, field.name)) for field in fields(value)}
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, dict):
        return {str(as_json(key)): as_json(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [as_json(item) for item in value]
    if isinstance(value, float):
        return tidy(value)
    return value


def tidy(value: float) -> float:
    """Drop float noise below a nanometre, and never keep -0."""
    return round(value, 9) + 0.0
