"""Ink: what is on the paper, in paper millimetres, and all that a writer knows.

The origin is the sheet's lower left corner, X right, Y up. A writer (dxf.py, svg.py) turns these
records into bytes and decides nothing. Angles in degrees, counter-clockwise from +X.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum

from setupsheet.plane import Point2


class Pen(StrEnum):
    """The kinds of line, by meaning; width and dashes belong to the meaning, not to the caller."""

    VISIBLE = "visible"
    HIDDEN = "hidden"
    CENTRE = "centre"
    PHANTOM = "phantom"
    THIN = "thin"
    THREAD = "thread"
    HATCH = "hatch"
    DIM = "dim"
    CUT = "cut"
    FRAME = "frame"
    TEXT = "text"


WIDTH_MM: dict[Pen, float] = {
    Pen.VISIBLE: 0.50,
    Pen.HIDDEN: 0.25,
    Pen.CENTRE: 0.25,
    Pen.PHANTOM: 0.25,
    Pen.THIN: 0.25,
    Pen.THREAD: 0.25,
    Pen.HATCH: 0.25,
    Pen.DIM: 0.25,
    Pen.CUT: 0.50,
    Pen.FRAME: 0.70,
    Pen.TEXT: 0.35,
}
"""Line group 0.5 of ISO 128 (wide 0.5, narrow 0.25); a frame is 0.7."""

DASHES_MM: dict[Pen, tuple[float, ...]] = {
    Pen.HIDDEN: (3.0, 1.0),
    Pen.CENTRE: (7.0, 1.0, 1.0, 1.0),
    Pen.PHANTOM: (7.0, 1.0, 1.0, 1.0, 1.0, 1.0),
}
"""Dash, gap, ... on paper; pens that are not listed are continuous."""


@dataclass(frozen=True, slots=True)
class Line:
    """A straight stroke."""

    pen: Pen
    a: Point2
    b: Point2


@dataclass(frozen=True, slots=True)
class Circle:
    """A full circle."""

    pen: Pen
    centre: Point2
    radius: float


@dataclass(frozen=True, slots=True)
class Arc:
    """An arc, counter-clockwise from ``from_deg`` to ``to_deg``."""

    pen: Pen
    centre: Point2
    radius: float
    from_deg: float
    to_deg: float


@dataclass(frozen=True, slots=True)
class Ellipse:
    """A full or partial ellipse: ``major`` is the vector of the long half axis, parameters in degrees."""

    pen: Pen
    centre: Point2
    major: Point2
    ratio: float
    from_deg: float = 0.0
    to_deg: float = 360.0


@dataclass(frozen=True, slots=True)
class Polyline:
    """A chain of straight strokes."""

    pen: Pen
    points: tuple[Point2, ...]
    closed: bool = False


@dataclass(frozen=True, slots=True)
class Fill:
    """A filled polygon: arrowheads, dots, the dark half of a mark."""

    points: tuple[Point2, ...]
    grey: float = 0.0
    """0 is black, 1 is white."""


@dataclass(frozen=True, slots=True)
class Text:
    """One line of text.

    ``at`` lies on the base line; ``anchor`` says which end of the text stands there (left, middle, right).
    ``height`` is the capital height. ``halo`` paints white behind the text. ``path`` is the JSON pointer
    of the value in plan.json, '' for words.
    """

    at: Point2
    height: float
    text: str
    anchor: str = "left"
    angle_deg: float = 0.0
    bold: bool = False
    halo: bool = False
    path: str = ""


Stroke = Line | Circle | Arc | Ellipse | Polyline | Fill | Text


@dataclass(frozen=True, slots=True)
class Dimension:
    """A dimension with its own finished geometry.

    ``kind``: linear, aligned, angular (these three become live DXF entities), drawn (a linear one as strokes,
    where its value stands beside it), running, turn (an angle as strokes), callout, table and note (a row of
    a table, a line among the notes: no strokes of their own). ``points`` are the measured points on paper,
    ``line_at`` a point of the dimension line, ``angle_deg`` its direction. ``value`` is the measured size in
    drawing units at full size, ``text`` what is printed.
    ``feature`` and ``what`` say which size of the part it is. ``strokes`` is exactly what is drawn.
    """

    kind: str
    feature: str
    what: str
    value: float
    text: str
    points: tuple[Point2, ...]
    line_at: Point2
    angle_deg: float
    strokes: tuple[Stroke, ...]
    scale: float = 1.0
    gives: tuple[tuple[str, str, float], ...] = ()
    """Every size that the strokes give: feature, what, value in mm, degrees or as a count."""


@dataclass(frozen=True, slots=True)
class Group:
    """Strokes that belong together: a view, a table, the title block. ``box`` bounds them on paper."""

    name: str
    items: tuple[Stroke | Dimension, ...]
    box: tuple[Point2, Point2]
    scale: float = 1.0


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet of a drawing. ``fields`` are title block values by field name, for attributes."""

    name: str
    width: float
    height: float
    scale: float
    unit: str
    groups: tuple[Group, ...]
    fields: dict[str, str] = field(default_factory=dict)
