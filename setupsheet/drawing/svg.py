"""Ink to SVG: a whole sheet, or one group as a picture for a page.

User units are paper millimetres, Y turned downwards. Lines of one pen become one path, arcs stay arcs,
text stays text. Within a group the order is: grey fills, lines, black fills, white fills and halos, the
strokes of drawing signs, texts. All style is in presentation attributes, so that two pictures on one page
cannot disturb each other.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from html import escape
from typing import NamedTuple

from setupsheet.drawing import lettering
from setupsheet.drawing.ink import (
    DASHES_MM,
    WIDTH_MM,
    Arc,
    Circle,
    Dimension,
    Ellipse,
    Fill,
    Group,
    Line,
    Pen,
    Polyline,
    Sheet,
    Stroke,
    Text,
)
from setupsheet.drawing.signs import HALO_MM, box
from setupsheet.plane import Point2, direction

_XMLNS = "http://www.w3.org/2000/svg"


class _Paper(NamedTuple):
    """Where the ink's origin lies in the picture: x grows, y is measured down from ``top``."""

    left: float
    top: float

    def at(self, point: Point2) -> str:
        """Return a point as two numbers of the picture."""
        return f"{number(point[0] - self.left)} {number(self.top - point[1])}"


def sheet_svg(sheet: Sheet) -> str:
    """Return a sheet as a complete SVG document of its size in mm."""
    paper = _Paper(0.0, sheet.height)
    body = "".join(_group(group, paper) for group in sheet.groups)
    return _document(sheet.width, sheet.height, sheet.name, body)


def group_svg(group: Group, margin: float = 0.0) -> str:
    """Return one group as an SVG picture of its box and ``margin`` mm around it, at its size in mm."""
    (x0, y0), (x1, y1) = group.box
    paper = _Paper(x0 - margin, y1 + margin)
    return _document(x1 - x0 + 2 * margin, y1 - y0 + 2 * margin, group.name, _group(group, paper))


def strokes_of(items: Iterable[Stroke | Dimension]) -> list[Stroke]:
    """Return all strokes in order, those of dimensions included."""
    strokes: list[Stroke] = []
    for item in items:
        strokes.extend(item.strokes if isinstance(item, Dimension) else (item,))
    return strokes


def number(value: float) -> str:
    """Return a number with at most four decimals (0.0001 mm), no trailing zeros, never -0."""
    text = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _document(width: float, height: float, name: str, body: str) -> str:
    w, h = number(width), number(height)
    label = escape(lettering.drawable(name))
    return (
        f'<svg xmlns="{_XMLNS}" width="{w}mm" height="{h}mm" viewBox="0 0 {w} {h}" role="img" aria-label="{label}"'
        f' font-family="{lettering.FAMILY}">{body}</svg>\n'
    )


def _group(group: Group, paper: _Paper) -> str:
    strokes = strokes_of(group.items)
    texts = [stroke for stroke in strokes if isinstance(stroke, Text)]
    parts = [
        _fills((s for s in strokes if isinstance(s, Fill) and 0 < s.grey < 1), paper),
        _paths(strokes, [pen for pen in Pen if pen is not Pen.TEXT], paper),
        _fills((s for s in strokes if isinstance(s, Fill) and s.grey <= 0), paper),
        _fills((s for s in strokes if isinstance(s, Fill) and s.grey >= 1), paper),
        *(_halo(text, paper) for text in texts if text.halo and text.text),
        _paths(strokes, [Pen.TEXT], paper),
        *(_text(text, paper) for text in texts if text.text),
    ]
    return f'<g data-name="{escape(lettering.drawable(group.name))}">{"".join(parts)}</g>'


def _paths(strokes: list[Stroke], pens: list[Pen], paper: _Paper) -> str:
    """Return one path a pen, in the pens' order, so that wide lines lie below narrow ones."""
    pieces: dict[Pen, list[str]] = {}
    for stroke in strokes:
        if not isinstance(stroke, Fill | Text):
            pieces.setdefault(stroke.pen, []).append(_piece(stroke, paper))
    return "".join(_path(pen, pieces[pen]) for pen in pens if pen in pieces)


def _path(pen: Pen, pieces: list[str]) -> str:
    dashes = DASHES_MM.get(pen)
    how = (
        f'stroke-linecap="butt" stroke-dasharray="{" ".join(number(dash) for dash in dashes)}"'
        if dashes
        else 'stroke-linecap="round"'
    )
    return (
        f'<path data-pen="{pen.value}" fill="none" stroke="#000" stroke-width="{number(WIDTH_MM[pen])}"'
        f' stroke-linejoin="round" {how} d="{"".join(pieces)}"/>'
    )


def _piece(stroke: Line | Circle | Arc | Ellipse | Polyline, paper: _Paper) -> str:
    """Return the path commands of one stroke."""
    if isinstance(stroke, Line):
        return f"M{paper.at(stroke.a)}L{paper.at(stroke.b)}"
    if isinstance(stroke, Polyline):
        if not stroke.points:
            return ""
        first, *rest = stroke.points
        return f"M{paper.at(first)}" + "".join(f"L{paper.at(p)}" for p in rest) + ("Z" if stroke.closed else "")
    if isinstance(stroke, Circle):
        return _bow(Ellipse(stroke.pen, stroke.centre, (stroke.radius, 0.0), 1.0), paper)
    if isinstance(stroke, Arc):
        along = (stroke.radius, 0.0)
        return _bow(Ellipse(stroke.pen, stroke.centre, along, 1.0, stroke.from_deg, stroke.to_deg), paper)
    return _bow(stroke, paper)


def _bow(ellipse: Ellipse, paper: _Paper) -> str:
    """Return an elliptic arc; a full one as two halves, since an arc command cannot close on itself."""
    long_ = math.hypot(*ellipse.major)
    turn = number(-math.degrees(math.atan2(ellipse.major[1], ellipse.major[0])))
    radii = f"{number(long_)} {number(long_ * ellipse.ratio)} {turn}"
    sweep = ellipse.to_deg - ellipse.from_deg
    full = abs(sweep) >= 360 - 1e-9
    sweep = 360.0 if full else sweep % 360
    start = _on_ellipse(ellipse, ellipse.from_deg)
    if full:
        half = _on_ellipse(ellipse, ellipse.from_deg + 180)
        return f"M{paper.at(start)}A{radii} 0 0 {paper.at(half)}A{radii} 0 0 {paper.at(start)}Z"
    end = _on_ellipse(ellipse, ellipse.from_deg + sweep)
    return f"M{paper.at(start)}A{radii} {int(sweep > 180)} 0 {paper.at(end)}"


def _on_ellipse(ellipse: Ellipse, parameter_deg: float) -> Point2:
    along, up = direction(parameter_deg)
    (cx, cy), (mx, my) = ellipse.centre, ellipse.major
    return cx + along * mx - up * ellipse.ratio * my, cy + along * my + up * ellipse.ratio * mx


def _fills(fills: Iterable[Fill], paper: _Paper) -> str:
    by_grey: dict[float, list[str]] = {}
    for fill in fills:
        outline = "L".join(paper.at(point) for point in fill.points)
        by_grey.setdefault(fill.grey, []).append(f"M{outline}Z")
    return "".join(
        f'<path fill="{_grey(grey)}" stroke="none" d="{"".join(pieces)}"/>'
        for grey, pieces in sorted(by_grey.items(), reverse=True)
    )


def _grey(grey: float) -> str:
    level = round(255 * min(1.0, max(0.0, grey)))
    return f"#{level:02x}{level:02x}{level:02x}"


_ANCHOR = {"left": "", "middle": ' text-anchor="middle"', "right": ' text-anchor="end"'}


def _text(text: Text, paper: _Paper) -> str:
    shown = lettering.drawable(text.text)
    x, y = paper.at(text.at).split()
    size = number(text.height * lettering.EM_PER_CAP)
    more = _ANCHOR[text.anchor]
    if text.angle_deg:
        more += f' transform="rotate({number(-text.angle_deg)} {x} {y})"'
    if text.bold:
        more += ' font-weight="bold"'
    if shown != " ".join(shown.split()):
        more += ' xml:space="preserve"'
    if text.path:
        more += f' data-path="{escape(text.path)}"'
    return f'<text x="{x}" y="{y}" font-size="{size}"{more}>{escape(shown, quote=False)}</text>'


def _halo(text: Text, paper: _Paper) -> str:
    """Return a white box behind a text, a little larger than its letters."""
    corners = box(text, HALO_MM)
    return f'<path fill="#fff" stroke="none" d="M{"L".join(paper.at(corner) for corner in corners)}Z"/>'
