"""What a hole needs and the chain of cutters that makes it, as records.

Lengths in mm, angles in degrees; ``words`` are short sentences as they are printed, in the part's unit.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

from setupsheet.length import Unit

if TYPE_CHECKING:
    from setupsheet.part.cutter import Cutter
    from setupsheet.part.mouth import Counterbore, Countersink, HoleChamfer
    from setupsheet.part.size import Size, Thread

OPERATIONS = (
    "spot",
    "pilot",
    "drill",
    "bore",
    "counterbore",
    "spotface",
    "countersink",
    "chamfer",
    "ream",
    "taper ream",
    "tap",
)
"""Every operation of a chain, in the order of work."""

BY_HAND = ("taper ream", "tap")
"""What is turned by hand and cuts the thread's own form, which is never cut in the replay."""

VERDICTS = ("inside", "partly", "not")
"""Whether what comes out lies inside the limits; best first."""


@dataclass(frozen=True, slots=True)
class HoleNeed:
    """What a hole must become, without its places.

    ``making`` and ``diameter`` as in part.feature.Hole; ``depth_mm`` is the depth of the full diameter
    or full thread (None: through, thickness not known), ``drill_depth_mm`` the drilled depth below a
    blind thread. ``located`` says that its place matters (toleranced, or a fit). ``started_from`` is the end that is
    drilled from ('mouth' or 'exit'): only a chamfer at that end lets the spot be wider than the hole.
    """

    making: str
    diameter: Size
    thread: Thread | None = None
    through: bool = True
    depth_mm: float | None = None
    drill_depth_mm: float | None = None
    counterbore: Counterbore | None = None
    countersink: Countersink | None = None
    chamfers: tuple[HoleChamfer, ...] = ()
    material_group: str = ""
    located: bool = False
    mate: str = ""
    unit: Unit = Unit.MM
    started_from: str = "mouth"


class ChainStep(NamedTuple):
    """One cutter of a chain.

    ``diameter_mm`` is what the step makes; spot, countersink and chamfer: the diameter at the surface.
    ``depth_kind`` says how deep: ``to diameter`` (until that mouth is reached), ``drill depth`` (the
    drilled depth, deeper than a blind thread), ``full depth`` (full diameter or full thread) or
    ``fixed`` (``depth_mm`` below the mouth). ``end`` is the end of the hole, 'mouth' or 'exit'.
    """

    operation: str
    cutter: Cutter
    diameter_mm: float
    depth_kind: str
    depth_mm: float | None = None
    end: str = "mouth"
    words: tuple[str, ...] = ()
    source: str = ""
    status: str = ""


class TapFacts(NamedTuple):
    """What the tapping step prints.

    ``turns`` of the tap for the depth (None: depth not known); ``kind`` of tap; the least full thread
    that the material asks for; ``drilled_depth_mm`` under a blind thread (full diameter), None if through;
    ``lead_source`` says where the tap's lead in that depth comes from, '' where none is in it.
    """

    turns: float | None
    kind: str
    least_full_thread_mm: float
    drilled_depth_mm: float | None
    percent_basis: str
    enough_thread: bool | None
    words: tuple[str, ...]
    lead_source: str = ""


class Chain(NamedTuple):
    """The whole chain and what comes out of it.

    ``result_*`` is the interval that the finishing cutter gives (tapped: of the minor diameter),
    ``required_*`` the limits asked for (None: none). ``how_much`` and ``what_would`` are sentences.
    """

    steps: tuple[ChainStep, ...]
    result_lower_mm: float
    result_upper_mm: float
    required_lower_mm: float | None
    required_upper_mm: float | None
    verdict: str
    how_much: str
    what_would: str
    thread_percent: float | None = None
    tap: TapFacts | None = None
    words: tuple[str, ...] = ()


class Way(NamedTuple):
    """One way to finish the hole: the operation, its cutter and the interval that comes out.

    ``out_mm`` is how far that interval reaches outside the limits, 0 if it does not.
    """

    operation: str
    cutter: Cutter
    diameter_mm: float
    lower_mm: float
    upper_mm: float
    verdict: str
    out_mm: float
    source: str
    status: str
