"""Ink to DXF (R2010): a whole sheet in paper millimetres, or one view's geometry alone at full size.

What readers really do decides the form: everything stands in model space, dimensions carry their own
geometry block and the header repeats their style, line types have own numbers under names that every reader
knows, hatches are lines, title block values are text with invisible attributes beside them. The only file
that imports ezdxf.
"""

from __future__ import annotations

import io
import math
from collections.abc import Iterable, Sequence
from typing import Any

from ezdxf import options  # type: ignore[attr-defined]
from ezdxf.document import Drawing
from ezdxf.enums import TextEntityAlignment
from ezdxf.filemanagement import new
from ezdxf.layouts.base import BaseLayout

from setupsheet.drawing.contour import Contour, contours, hull, seen
from setupsheet.drawing.dxf_words import Numbers, dimension_text, encoded, numbers_of
from setupsheet.drawing.extents import sheet_extents
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
    Sheet,
    Stroke,
    Text,
)
from setupsheet.drawing.signs import box
from setupsheet.length import Unit
from setupsheet.plane import Point2
from setupsheet.solid.flat import Outlines

VERSION = "R2010"
LAYER: dict[Pen, str] = {
    Pen.VISIBLE: "OUTLINE",
    Pen.HIDDEN: "HIDDEN",
    Pen.CENTRE: "CENTRE",
    Pen.PHANTOM: "PHANTOM",
    Pen.THIN: "THIN",
    Pen.THREAD: "THREAD",
    Pen.HATCH: "HATCHING",
    Pen.DIM: "DIM",
    Pen.CUT: "CUTTING_PLANE",
    Pen.FRAME: "FRAME",
    Pen.TEXT: "TEXT",
}
"""Layers by meaning; every entity takes colour, line type and width from its layer."""

SHADE = "SHADE"
"""Layer of grey fills."""
NOTE = "NOTE"
"""Layer of the note in a view's file."""

_LINETYPE = {Pen.HIDDEN: "HIDDEN2", Pen.CENTRE: "DASHDOT2", Pen.PHANTOM: "DIVIDE2"}
_STYLE = "LETTERING"
_DIMSTYLE = "SHEET"
_FONT = "isocp.shx"
"""A stroke font that CAD programs know; readers without it put their own in its place."""
_TEXT_WIDTH = 0.9
"""Width factor of all texts: other stroke fonts run up to a tenth wider than our letters (seen)."""
_PLACES = 6
"""Decimals of coordinates in the file, 0.000001 mm."""
_ALIGN = {
    "left": TextEntityAlignment.LEFT,
    "middle": TextEntityAlignment.CENTER,
    "right": TextEntityAlignment.RIGHT,
}
_LIVE = {"linear": 0, "aligned": 1, "angular": 2}
"""Kinds of dimension that become DIMENSION entities, and their type there."""
_OWN_BLOCK = 32
_DIM_ALWAYS: dict[str, Any] = {
    "dimgap": 1.0,
    "dimdli": 8.0,
    "dimscale": 1.0,
    "dimaunit": 0,
    "dimadec": 3,
    "dimazin": 2,
    "dimlunit": 2,
    "dimtofl": 1,
    "dimtix": 0,
    "dimtxsty": _STYLE,
    "dimclrd": 256,
    "dimclre": 256,
    "dimclrt": 256,
    "dimlwd": -1,
    "dimlwe": -1,
}
"""What the dimension style says on every sheet: decimal numbers, everything by its layer."""


def sheet_dxf(sheet: Sheet) -> bytes:
    """Return a sheet as the bytes of a DXF file."""
    doc = _document()
    numbers = numbers_of(sheet)
    _header(doc, (0.0, 0.0), (sheet.width, sheet.height), Unit.MM)
    _dimension_style(doc, numbers, sheet.fields.get("standard") == "asme")
    space = doc.modelspace()
    for group in sheet.groups:
        if group.name == "title block":
            _title_block(doc, group, sheet.fields)
        elif group.name == "frame":
            _in_block(doc, "SHEET_FRAME", group)
        else:
            _items(doc, space, group, (numbers, sheet.scale))
    _extents(doc, *sheet_extents(sheet))
    return _bytes(doc)


def view_dxf(outlines: Outlines, unit: Unit, name: str) -> bytes:
    """Return a view's visible edges at full size as a DXF file in the part's unit.

    Pieces whose ends meet become one closed contour; circles stay circles. The unit stands in the header and
    in a note below the view on a layer of its own. Hidden edges are left out: somebody might cut along them.
    """
    doc = _document(with_pens=(Pen.VISIBLE,))
    space = doc.modelspace()
    unit_mm = float(unit.mm)
    found = contours(seen(outlines), unit_mm)
    for contour in found:
        _contour(space, contour)
    low, high = hull([point for contour in found for point in contour.reach()])
    _header(doc, low, high, unit)
    doc.layers.add(NOTE, color=7, lineweight=_weight(WIDTH_MM[Pen.TEXT]))
    size = 3.5 / unit_mm
    words = f"{name}: 1:1, unit {'mm' if unit is Unit.MM else 'inch'}"
    _text(space, Text((low[0], low[1] - 3 * size), size, words), NOTE)
    _extents(doc, low, high)
    return _bytes(doc)


def _document(with_pens: Sequence[Pen] = tuple(Pen)) -> Drawing:
    """Return an empty drawing with our layers, line types and text style, and nothing of its day."""
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        doc = new(VERSION)
    finally:
        options.write_fixed_meta_data_for_testing = before
    doc.styles.add(_STYLE, font=_FONT, dxfattribs={"width": _TEXT_WIDTH})
    for pen in with_pens:
        linetype = _LINETYPE.get(pen, "Continuous")
        if pen in _LINETYPE:
            dashes = [size if index % 2 == 0 else -size for index, size in enumerate(DASHES_MM[pen])]
            doc.linetypes.add(linetype, pattern=[sum(DASHES_MM[pen]), *dashes], description=pen.value)
        doc.layers.add(LAYER[pen], color=7, linetype=linetype, lineweight=_weight(WIDTH_MM[pen]))
    return doc


def _weight(width_mm: float) -> int:
    """Return a line width as DXF counts it, in hundredths of a mm."""
    return round(width_mm * 100)


def _header(doc: Drawing, low: Point2, high: Point2, unit: Unit) -> None:
    """Set units, limits and what else a reader takes from the header."""
    metric = unit is Unit.MM
    doc.header["$INSUNITS"] = 4 if metric else 1
    doc.header["$MEASUREMENT"] = 1 if metric else 0
    doc.header["$LUNITS"] = 2
    doc.header["$LTSCALE"] = 1.0 if metric else 1 / 25.4
    doc.header["$PSLTSCALE"] = 1
    doc.header["$PSVPSCALE"] = 1.0
    doc.header["$LWDISPLAY"] = 1
    doc.header["$TEXTSTYLE"] = _STYLE
    doc.header["$CLAYER"] = LAYER[Pen.VISIBLE]
    doc.header["$LIMMIN"], doc.header["$LIMMAX"] = low, high
    middle = (low[0] + high[0]) / 2, (low[1] + high[1]) / 2
    doc.set_modelspace_vport(max(high[1] - low[1], 1.0), center=middle)


def _extents(doc: Drawing, low: Point2, high: Point2) -> None:
    """Write the true extents; the library leaves 1e20 there."""
    first, last = (*_at(low), 0.0), (*_at(high), 0.0)
    doc.modelspace().reset_extents(first, last)
    doc.header["$EXTMIN"], doc.header["$EXTMAX"] = first, last


def _bytes(doc: Drawing) -> bytes:
    """Return the file; the library keeps its required classes in a set, so they are put in order before it writes."""
    doc.classes.add_required_classes(doc.dxfversion)
    doc.classes.classes = dict(sorted(doc.classes.classes.items()))
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        stream = io.StringIO()
        doc.write(stream)
    finally:
        options.write_fixed_meta_data_for_testing = before
    return stream.getvalue().encode("utf-8", errors="replace")


def _items(doc: Drawing, space: BaseLayout, group: Group, how: tuple[Numbers, float]) -> None:
    """Add what a group holds; a size in a detail is plain strokes: a widely used reader moves its text (seen)."""
    for item in group.items:
        if not isinstance(item, Dimension):
            _stroke(space, item, "")
        elif item.kind in _LIVE and (item.kind == "angular" or math.isclose(item.scale, how[1])):
            _dimension(doc, space, item, *how)
        else:
            _strokes(space, item.strokes, LAYER[Pen.DIM])


def _strokes(space: BaseLayout, strokes: Iterable[Stroke], layer: str) -> None:
    for stroke in strokes:
        _stroke(space, stroke, layer)


def _stroke(space: BaseLayout, stroke: Stroke, layer: str) -> None:
    """Add one stroke; ``layer`` overrules the pen's own ('' does not)."""
    if isinstance(stroke, Text):
        _text(space, stroke, layer or LAYER[Pen.TEXT])
        return
    if isinstance(stroke, Fill):
        _fill(space, stroke, layer)
        return
    on = {"layer": layer or LAYER[stroke.pen]}
    if isinstance(stroke, Line):
        if math.dist(stroke.a, stroke.b) > 10.0**-_PLACES:
            space.add_line(_at(stroke.a), _at(stroke.b), on)
    elif isinstance(stroke, Circle) or (isinstance(stroke, Arc) and stroke.to_deg - stroke.from_deg >= 360):
        space.add_circle(_at(stroke.centre), _round(stroke.radius), on)
    elif isinstance(stroke, Arc):
        ends = _round(stroke.from_deg % 360), _round(stroke.to_deg % 360)
        space.add_arc(_at(stroke.centre), _round(stroke.radius), *ends, dxfattribs=on)
    elif isinstance(stroke, Ellipse):
        _ellipse(space, stroke, on)
    elif len(stroke.points) > 1:
        space.add_lwpolyline([_at(point) for point in stroke.points], close=stroke.closed, dxfattribs=on)


def _ellipse(space: BaseLayout, ellipse: Ellipse, on: dict[str, str]) -> None:
    """Add an ellipse; DXF wants its long axis, so a ratio above 1 swaps the axes."""
    major, ratio, start, end = ellipse.major, ellipse.ratio, ellipse.from_deg, ellipse.to_deg
    if ratio > 1:
        major, ratio, start, end = (-major[1] * ratio, major[0] * ratio), 1 / ratio, start - 90, end - 90
    full = abs(end - start) >= 360 - 1e-9
    first, last = (0.0, math.tau) if full else (math.radians(start % 360), math.radians(end % 360))
    space.add_ellipse(_at(ellipse.centre), _at(major), ratio, first, last, dxfattribs=on)


def _fill(space: BaseLayout, fill: Fill, layer: str) -> None:
    """Add a filled polygon; white ones are left out, since DXF readers do not paint them."""
    if fill.grey >= 1 or len(fill.points) < 3:
        return
    on = {"layer": SHADE if fill.grey > 0 else layer or LAYER[Pen.DIM]}
    if fill.grey > 0 and SHADE not in space.doc.layers:
        space.doc.layers.add(SHADE, color=254)
    points = [_at(point) for point in fill.points]
    if len(points) == 3:
        space.add_solid(points, on)
    elif len(points) == 4:
        space.add_solid([points[0], points[1], points[3], points[2]], on)
    else:
        hatch = space.add_hatch(color=256, dxfattribs=on)
        hatch.paths.add_polyline_path(points, is_closed=True)


def _text(space: BaseLayout, text: Text, layer: str) -> None:
    if not text.text:
        return
    entity = space.add_text(
        encoded(text.text),
        height=_round(text.height),
        rotation=_round(text.angle_deg),
        dxfattribs={"layer": layer, "style": _STYLE, "width": _TEXT_WIDTH},
    )
    entity.set_placement(_at(text.at), align=_ALIGN[text.anchor])


def _at(point: Point2) -> Point2:
    return _round(point[0]), _round(point[1])


def _round(value: float) -> float:
    return round(value, _PLACES) + 0.0


def _in_block(doc: Drawing, name: str, group: Group) -> Any:
    """Put a group into a block, insert it where it stands, and return the insert."""
    block = doc.blocks.new(name)
    for item in group.items:
        _strokes(block, item.strokes if isinstance(item, Dimension) else (item,), "")
    return doc.modelspace().add_blockref(name, (0.0, 0.0), {"layer": LAYER[Pen.FRAME]})


def _title_block(doc: Drawing, group: Group, fields: dict[str, str]) -> None:
    """Insert the title block: its texts to be seen, its values as invisible attributes to be edited."""
    insert = _in_block(doc, "TITLE_BLOCK", group)
    block = doc.blocks.get("TITLE_BLOCK")
    (x, y), (_, top) = group.box
    hidden = {"layer": LAYER[Pen.TEXT], "style": _STYLE, "flags": 1, "height": 2.5}
    for number, name in enumerate(sorted(fields)):
        at = _at((x + 2.0, top - 4.0 * (number + 1) if top - 4.0 * (number + 1) > y else y))
        tag = name.upper()
        block.add_attdef(tag, at, dxfattribs={**hidden, "prompt": name.replace("_", " ")})
        insert.add_attrib(tag, encoded(fields[name]), at, dxfattribs=hidden)


def _dimension_style(doc: Drawing, numbers: Numbers, asme: bool) -> None:
    """Make the one dimension style and repeat it in the header, where some readers take it from."""
    zeros = 4 if numbers.is_inch else 8
    style = doc.dimstyles.new(_DIMSTYLE)
    of_sheet = dict.fromkeys(("dimtxt", "dimasz"), numbers.height)
    of_sheet |= {"dimexe": 3.0, "dimexo": 1.5, "dimtad": 0} if asme else {"dimexe": 2.0, "dimexo": 1.0, "dimtad": 1}
    of_sheet |= dict.fromkeys(("dimtih", "dimtoh"), int(asme))
    of_sheet |= dict.fromkeys(("dimzin", "dimtzin"), zeros) | dict.fromkeys(("dimdec", "dimtdec"), numbers.places)
    of_sheet |= {"dimdsep": ord(numbers.decimal_sign), "dimlfac": numbers.factor}
    of_sheet["dimrnd"] = 10.0**-numbers.places  # 0 would mean the same, but the library then rounds to whole numbers
    for key, value in {**_DIM_ALWAYS, **of_sheet}.items():
        style.dxf.set(key, value)
    style.copy_to_header(doc)
    doc.header["$DIMSTYLE"] = _DIMSTYLE


def _dimension(doc: Drawing, space: BaseLayout, item: Dimension, numbers: Numbers, scale: float) -> None:
    """Add a DIMENSION entity whose geometry block holds exactly our strokes."""
    block = doc.blocks.new_anonymous_block(type_char="D")
    layer = LAYER[Pen.DIM]
    _strokes(block, item.strokes, layer)
    space.new_entity(
        "DIMENSION",
        {
            "layer": layer,
            "dimtype": _LIVE[item.kind] | _OWN_BLOCK,
            "geometry": block.name,
            "dimstyle": _DIMSTYLE,
            "text": dimension_text(item, numbers, scale),
            "text_midpoint": _at(_text_middle(item)),
            "attachment_point": 5,
            "line_spacing_style": 1,
            "line_spacing_factor": 1.0,
            "actual_measurement": math.radians(item.value) if item.kind == "angular" else item.value,
            **_points(item),
        },
    )


def _points(item: Dimension) -> dict[str, Any]:
    """Return the definition points of an entity by their names in the library."""
    points = [_at(point) for point in item.points]
    if item.kind == "angular":
        first, last, start, end = points if len(points) == 4 else (points[0], points[1], points[0], points[2])
        return {
            "defpoint2": first,
            "defpoint3": last,
            "defpoint4": start,
            "defpoint": end,
            "defpoint5": _at(item.line_at),
        }
    return {
        "defpoint": _at(item.line_at),
        "defpoint2": points[0],
        "defpoint3": points[1],
        "angle": _round(item.angle_deg),
    }


def _text_middle(item: Dimension) -> Point2:
    """Return the middle of the dimension's text, of all its runs of letters together."""
    corners = [corner for stroke in item.strokes if isinstance(stroke, Text) for corner in box(stroke)]
    (x0, y0), (x1, y1) = hull(corners or [item.line_at])
    return (x0 + x1) / 2, (y0 + y1) / 2


def _contour(space: BaseLayout, contour: Contour) -> None:
    """Add one contour of a view: a circle, an ellipse, a line or a polyline with bulges."""
    if contour.round_ is not None:
        _stroke(space, contour.round_, "")
        return
    on = {"layer": LAYER[contour.pen]}
    if not contour.closed and len(contour.points) == 2 and not contour.bulges[0]:
        space.add_line(_at(contour.points[0]), _at(contour.points[1]), on)
        return
    points = [(*_at(point), bulge) for point, bulge in zip(contour.points, contour.bulges, strict=True)]
    space.add_lwpolyline(points, format="xyb", close=contour.closed, dxfattribs=on)
