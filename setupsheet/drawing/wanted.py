"""What is to be dimensioned, before anybody knows where it stands on paper.

Points are view coordinates (part mm along the paper's right and up, see frames.py). ``needs`` are the
sizes that a record gives (see needs.py): completeness and the values in the ink come from there.
"""

from __future__ import annotations

from dataclasses import dataclass

from setupsheet.drawing.needs import Need
from setupsheet.part.face import Face
from setupsheet.plane import Point2


@dataclass(frozen=True, slots=True)
class Place:
    """A coordinate along a part axis, for the running dimensions of one of the views ``faces``.

    The first view of ``faces`` that shows it as a full line takes it. ``at`` is a centre (with ``radius``)
    where the coordinate belongs to a round thing, in that feature's own face.
    """

    faces: tuple[Face, ...]
    axis: int
    value: float
    text: str
    needs: tuple[Need, ...]
    centre: Point2 | None = None
    radius: float = 0.0
    edge: bool = True
    ring: bool = False
    """Whether ``radius`` is that of a pitch circle, whose centre may be bare."""
    others: tuple[Place, ...] = ()
    """Other things at the same coordinate, for where no view shows the first: a floor that a bore has cut away."""


@dataclass(frozen=True, slots=True)
class Span:
    """A size between two parallel things of a view: ``axis`` is the part axis that it runs along."""

    face: Face
    axis: int
    a: Point2
    b: Point2
    text: str
    needs: tuple[Need, ...]


@dataclass(frozen=True, slots=True)
class Target:
    """What a leader may point at: a circle or arc (``radius`` over 0), or the point on an outline."""

    at: Point2
    radius: float = 0.0
    towards: Point2 | None = None
    """Outward direction for a point on an outline, or the middle of an arc that is not a full circle."""


@dataclass(frozen=True, slots=True)
class Callout:
    """Lines of text at a leader: a hole in the order of operations, a radius, a chamfer, a note.

    ``frames`` are geometrical tolerances under the text (sign, value, datum letters); ``datum`` a letter
    flagged under them; ``texture`` the value at a surface symbol. ``side`` is the face of the part at whose edge
    in the view the leader ends; its targets are then found where the view shows that edge.
    """

    face: Face
    targets: tuple[Target, ...]
    lines: tuple[str, ...]
    needs: tuple[Need, ...]
    frames: tuple[tuple[str, ...], ...] = ()
    datum: str = ""
    texture: str = ""
    side: Face | None = None


@dataclass(frozen=True, slots=True)
class Turn:
    """The start angle of a pitch circle: from the +X of the view's feature axes to ``angle_deg``."""

    face: Face
    centre: Point2
    radius: float
    from_deg: float
    to_deg: float
    text: str
    needs: tuple[Need, ...]
    exact: bool = False
    alike: tuple[tuple[float, float], ...] = ()
    """Other pairs of directions with the same angle between an axis and a hole of the ring."""
    said: str = ""
    """The same in words, for the callout of the ring where the view has no room for the angle."""


@dataclass(frozen=True, slots=True)
class Flag:
    """A datum letter on a face of the part that shows as the edge ``side`` of the view of ``face``."""

    face: Face
    side: Face
    letter: str


Want = Place | Span | Callout | Turn | Flag
