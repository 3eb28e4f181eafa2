"""The features of a part: one frozen record a kind, checked and in part coordinates.

A feature only removes metal. ``face`` is the side that the feature is cut from. Heights are
coordinates along that face's axis in the part frame (for top and bottom: Z above the origin).
"""

from __future__ import annotations

from dataclasses import dataclass

from setupsheet.finding import Place
from setupsheet.part.face import Face
from setupsheet.part.geometry import Geometry
from setupsheet.part.mouth import Counterbore as Counterbore  # noqa: PLC0414 - known from here too
from setupsheet.part.mouth import Countersink as Countersink  # noqa: PLC0414 - known from here too
from setupsheet.part.mouth import HoleChamfer as HoleChamfer  # noqa: PLC0414 - known from here too
from setupsheet.part.mouth import Position as Position  # noqa: PLC0414 - known from here too
from setupsheet.part.shape import Shape, SlotShape
from setupsheet.part.size import Size as Size  # noqa: PLC0414 - known from here too
from setupsheet.part.size import Thread as Thread  # noqa: PLC0414 - known from here too
from setupsheet.plane import Point2


@dataclass(frozen=True, slots=True)
class Spot:
    """One place of a hole-like feature.

    ``label`` is unique in the part (R1). ``at`` lies in the hole's face (see part.shape). ``mouth_mm``
    and ``exit_mm`` are the finished surfaces that the hole opens in, as coordinates along the face's
    axis; ``exit_mm`` is the end of the full diameter (thread: of the full thread) if it is blind.
    """

    label: str
    at: Point2
    mouth_mm: float
    exit_mm: float


@dataclass(frozen=True, slots=True)
class BoltCircle:
    """Holes on a circle; angles counter-clockwise from +X in the main view, on a side face as seen facing it."""

    centre: Point2
    pcd_mm: float
    count: int
    start_deg: float
    arc_deg: float = 360.0
    skipped: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Row:
    """Holes in a line (``count`` by 1) or a grid; ``step`` and ``step_2`` are the pitches as vectors."""

    start: Point2
    step: Point2
    count: int
    step_2: Point2 = (0.0, 0.0)
    count_2: int = 1


Pattern = BoltCircle | Row | None


@dataclass(frozen=True, slots=True)
class Hole:
    """A hole or a pattern of equal holes.

    ``making`` is ``plain`` (drill), ``fit`` (ream or bore to limits), ``tap`` or ``clearance``.
    ``diameter`` is the finished hole (tapped: minor diameter). ``depth_mm`` is the depth of the full
    diameter or full thread from the mouth, None if through. ``drill_depth_mm`` is the depth of the
    full drill diameter below a blind thread, counted from the mouth, None if not written. ``callout`` is the author's
    designation ('M4 medium', '12 H7', 'no. 7', '1/4').
    """

    id: str
    place: Place
    face: Face
    making: str
    diameter: Size
    callout: str
    spots: tuple[Spot, ...]
    pattern: Pattern = None
    through: bool = True
    depth_mm: float | None = None
    drill_depth_mm: float | None = None
    thread: Thread | None = None
    counterbore: Counterbore | None = None
    countersink: Countersink | None = None
    chamfers: tuple[HoleChamfer, ...] = ()
    position: Position | None = None
    finish: str = ""
    note: str = ""
    mate: str = ""
    geometry: tuple[Geometry, ...] = ()
    kind: str = "hole"


@dataclass(frozen=True, slots=True)
class Keep:
    """An area that one feature leaves standing; ``feature`` is an id when it was named by one."""

    shape: Shape
    feature: str = ""


@dataclass(frozen=True, slots=True)
class Level:
    """An area milled down to a height; ``area`` None means all, out over the stock's rim.

    ``height`` is the coordinate along the face's axis. ``leave`` lists what this level leaves;
    round bosses protect themselves and are always in it.
    """

    id: str
    place: Place
    face: Face
    area: Shape | None
    height: Size
    leave: tuple[Keep, ...] = ()
    finish: str = ""
    note: str = ""
    kind: str = "level"


@dataclass(frozen=True, slots=True)
class RoundBoss:
    """A cylinder that stands: no level, pocket, slot or edge cut may enter it."""

    id: str
    place: Place
    face: Face
    at: Point2
    diameter: Size
    top: Size
    finish: str = ""
    note: str = ""
    geometry: tuple[Geometry, ...] = ()
    kind: str = "round boss"


@dataclass(frozen=True, slots=True)
class Pocket:
    """An opening of any flat shape: to a floor at ``floor``, or right through (a window, None).

    ``depth`` is the depth from the mouth where the author wrote one instead of a height.
    """

    id: str
    place: Place
    face: Face
    shape: Shape
    mouth_mm: float
    floor: Size | None
    exit_mm: float
    width: Size | None = None
    leave: tuple[Keep, ...] = ()
    finish: str = ""
    note: str = ""
    kind: str = "pocket"
    depth: Size | None = None


@dataclass(frozen=True, slots=True)
class Slot:
    """A round-ended slot, or one that runs out over an edge; through when ``floor`` is None.

    ``depth`` as in Pocket.
    """

    id: str
    place: Place
    face: Face
    shape: SlotShape
    width: Size
    mouth_mm: float
    floor: Size | None
    exit_mm: float
    finish: str = ""
    note: str = ""
    kind: str = "slot"
    depth: Size | None = None


@dataclass(frozen=True, slots=True)
class EdgeCut:
    """A straight cut, right through in the direction of ``face``, that leaves an edge.

    ``line`` gives two points of the finished edge; metal on the side of ``towards`` (a unit vector,
    square to the line) goes. ``side`` is the part's face that the cut makes, None if it is slanted.
    ``distance`` and ``measured_from`` stand when the author measured from a point or feature.
    """

    id: str
    place: Place
    face: Face
    line: tuple[Point2, Point2]
    towards: Point2
    side: Face | None
    tolerance: Size | None
    distance: Size | None = None
    measured_from: str = ""
    finish: str = ""
    note: str = ""
    kind: str = "edge cut"


@dataclass(frozen=True, slots=True)
class CornerRadius:
    """An outside corner rounded; ``quadrant`` is the sign pair from the centre to the corner (+1, -1)."""

    id: str
    place: Place
    face: Face
    centre: Point2
    radius: Size
    quadrant: tuple[int, int]
    corner: str
    note: str = ""
    kind: str = "corner radius"


@dataclass(frozen=True, slots=True)
class RoundedEnd:
    """A whole end rounded about a point: a half circle that touches both sides of the part."""

    id: str
    place: Place
    face: Face
    centre: Point2
    radius: Size
    side: Face
    note: str = ""
    kind: str = "rounded end"


@dataclass(frozen=True, slots=True)
class RingGroove:
    """A ring groove in a face, for a round seal; ``depth`` as in Pocket."""

    id: str
    place: Place
    face: Face
    centre: Point2
    inner: Size
    outer: Size
    mouth_mm: float
    floor: Size
    seal: str = ""
    finish: str = ""
    note: str = ""
    kind: str = "ring groove"
    depth: Size | None = None


@dataclass(frozen=True, slots=True)
class EdgeChamfer:
    """A 45 degree bevel of leg ``size`` along edges of the envelope between ``face`` and ``sides``."""

    id: str
    place: Place
    face: Face
    sides: tuple[Face, ...]
    size: Size
    note: str = ""
    kind: str = "edge chamfer"


@dataclass(frozen=True, slots=True)
class Mark:
    """Words for the maker at a place of the part: stamp, engrave, leave unmachined."""

    id: str
    place: Place
    face: Face
    at: Point2
    note: str
    kind: str = "mark"


Feature = (
    Hole | Level | RoundBoss | Pocket | Slot | EdgeCut | CornerRadius | RoundedEnd | RingGroove | EdgeChamfer | Mark
)
