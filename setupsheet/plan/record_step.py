"""One step of work as records: the cutter, where it goes, where it stops, what it leaves.

Lengths in mm in the setup frame, after rounding to the readout; ``shown`` fields are the texts on paper.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from setupsheet.plane import Point2, Point3


@dataclass(frozen=True, slots=True)
class ToolPlan:
    """The cutter of a step. ``profile``: its half section [radius, height above tip], cutting part only.

    ``stickout_mm`` is the most that it hangs out of its chuck or collet; ``holder_diameter_mm`` is theirs, 0 where the
    cutter's length is not known.
    """

    kind: str
    label: str
    owned: bool
    diameter_mm: float
    point_angle_deg: float
    corner_radius_mm: float
    flute_length_mm: float
    shank_diameter_mm: float
    stickout_mm: float
    profile: tuple[Point2, ...]
    holder_diameter_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class TouchOff:
    """Where a cutter's Z is found again: a place on a surface that exists then, and the value to set."""

    x: float
    y: float
    z: float
    feeler_mm: float
    key_in: str
    surface: str
    shown: dict[str, str]


@dataclass(frozen=True, slots=True)
class Position:
    """One place of hole-like work. ``z_to`` is the tip, ``z_full`` the end of the full diameter."""

    label: str
    feature: str
    x: float
    y: float
    z_from: float
    z_to: float
    z_full: float
    shown: dict[str, str]
    made_mm: float = 0.0
    """Diameter that is there after the cutter: of the hole, for a pointed cutter at ``z_full``; 0 where it has none."""


@dataclass(frozen=True, slots=True)
class Move:
    """One engagement of a cutter at one height: ``path`` is the cutter centre's way, leg by leg.

    ``entry``: outside, plunge, ramp, drilled. ``by``: table, angle_setting, rotary_table. ``why`` says
    which pass it is ('rough', 'last').
    """

    entry: str
    z: float
    z_clear: float
    path: tuple[Point2, ...]
    by: str = "table"
    why: str = ""
    exact: tuple[Point2, ...] = ()
    """``path`` before it was rounded to the readout, point by point."""


@dataclass(frozen=True, slots=True)
class ArcMove:
    """A cut on a rotary table: cutter-centre radius about ``centre``, degrees counter-clockwise from +X.

    At ``from_deg`` the cutter goes down at radius ``run_in``, is fed along X to ``radius``, and the table is turned
    until it stands at ``to_deg``. ``entry``, ``z_clear`` and ``why`` as in Move. ``shown``: the X reading of
    ``radius``, the table's readings ``from`` and ``to``, and which way it is to ``turn``, seen from above.
    """

    centre: Point2
    radius: float
    from_deg: float
    to_deg: float
    z: float
    run_in: float
    z_clear: float
    entry: str = "outside"
    why: str = ""
    shown: dict[str, str] = field(default_factory=dict)
    exact: tuple[float, float, float] | None = None
    """``radius``, ``from_deg`` and ``to_deg`` before they were rounded to what can be set."""


@dataclass(frozen=True, slots=True)
class Ring:
    """A cut with the boring head: metal between two radii, from ``z_from`` down to ``z_to``."""

    centre: Point2
    radius_inner: float
    radius_outer: float
    z_from: float
    z_to: float
    edge: str
    shown: str = ""
    exact_mm: float = 0.0
    """The diameter wanted, before it was rounded to the head's dial; 0 for the settings on the way there."""
    division_mm: float = 0.0
    """What a division of the head's dial moves, on the diameter; 0 where ``exact_mm`` is."""


@dataclass(frozen=True, slots=True)
class Limit:
    """A stop for the cutter's centre: never past ``value`` of ``axis`` on the side named in ``words``.

    ``shown_rough`` is the reading for all passes but the last ('' where they are the same).
    """

    axis: str
    value: float
    side: str
    shown: str
    words: str
    shown_rough: str = ""


@dataclass(frozen=True, slots=True)
class StopPair:
    """One point of a table of points: set ``step_axis`` to a value, feed along the other to the stop.

    ``group`` says in words which corner and which way to feed; points of one group follow each other.
    """

    step_axis: str
    step: float
    stop: float
    shown_step: str
    shown_stop: str
    group: str = ""


@dataclass(frozen=True, slots=True)
class Leftover:
    """Metal that a step knowingly leaves: kind inside_corner, cusp, drill_point or by_hand."""

    kind: str
    features: tuple[str, ...]
    bound_mm: float
    words: str


@dataclass(frozen=True, slots=True)
class Ask:
    """Something to check after a step: what, between which limits (texts as printed)."""

    what: str
    shown: str


@dataclass(frozen=True, slots=True)
class Step:
    """One numbered line of work (contracts: ``steps[]``). ``title`` is what the sheet calls it."""

    number: int
    operation: str
    title: str
    features: tuple[str, ...]
    method: str
    removes: bool
    tool: ToolPlan | None
    rpm: int
    rpm_words: str
    feed_mm_per_min: float
    feed_s_per_turn: float
    touch_off: TouchOff | None
    direction: str
    positions: tuple[Position, ...] = ()
    moves: tuple[Move, ...] = ()
    arcs: tuple[ArcMove, ...] = ()
    rings: tuple[Ring, ...] = ()
    limits: tuple[Limit, ...] = ()
    points: tuple[StopPair, ...] = ()
    z_shown: tuple[str, ...] = ()
    where: str = ""
    words: tuple[str, ...] = ()
    leftover: tuple[Leftover, ...] = ()
    depends_on: tuple[int, ...] = ()
    checks: tuple[Ask, ...] = ()
    cautions: tuple[str, ...] = ()
    not_proved: str = ""
    feed_shown: str = ""
    region_mm: tuple[Point3, Point3] | None = None
    """Part frame, opposite corners: where the metal of ``not_proved`` work stands; None if all is proved."""
