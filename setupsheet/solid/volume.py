"""Volumes: the plain shapes that work removes, in the part frame, free of any kernel.

Everything a manual machine cuts here is straight or round along one of the part's axes. A volume is a
list of such shapes; the same records give the finished solid (``volumes.py``), the body after each
setup (``body.py``) and the height of metal over a point (``column.py``).
"""

from __future__ import annotations

from dataclasses import dataclass

from setupsheet.plane import Point2


@dataclass(frozen=True, slots=True)
class LineEdge:
    """A straight edge of a loop, from ``a`` to ``b``."""

    a: Point2
    b: Point2


@dataclass(frozen=True, slots=True)
class ArcEdge:
    """An arc from ``a`` to ``b`` about ``centre``; counter-clockwise if ``ccw``."""

    a: Point2
    b: Point2
    centre: Point2
    ccw: bool


@dataclass(frozen=True, slots=True)
class CircleLoop:
    """A full circle as a closed loop."""

    centre: Point2
    radius: float


@dataclass(frozen=True, slots=True)
class EdgeLoop:
    """A closed loop of edges, end to end, counter-clockwise."""

    edges: tuple[LineEdge | ArcEdge, ...]


Loop = CircleLoop | EdgeLoop


@dataclass(frozen=True, slots=True)
class Prism:
    """A flat area drawn out along a part axis (0 x, 1 y, 2 z) from ``low`` to ``high``.

    Loop coordinates are the other two axes in alphabetical order. ``islands`` are left out.
    """

    axis: int
    outer: Loop
    islands: tuple[Loop, ...]
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Cone:
    """A cone or a cylinder along a part axis, centred on ``centre``: one radius at each end."""

    axis: int
    centre: Point2
    low: float
    high: float
    radius_low: float
    radius_high: float


Primitive = Prism | Cone
Volume = tuple[Primitive, ...]
"""Union of its primitives."""
