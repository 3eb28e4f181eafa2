"""DXF read back with the DXF library alone: same strokes, live dimensions, sound file."""

from __future__ import annotations

import io
import math
import os
import subprocess
import sys
from collections import Counter
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any

import pytest
from ezdxf.filemanagement import read

from setupsheet.drawing import dxf
from setupsheet.drawing.dxf_words import encoded
from setupsheet.drawing.ink import (
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
from setupsheet.drawing.svg import strokes_of
from setupsheet.length import Unit
from setupsheet.solid import flat

Key = tuple[Any, ...]


@pytest.fixture
def doc(sheet: Sheet) -> Any:
    """Return the sheet after writing and reading."""
    return read(io.StringIO(dxf.sheet_dxf(sheet).decode("utf-8")))


def _entities(doc: Any) -> list[Any]:
    """Return everything visible: inserts and dimensions are taken apart into their blocks' entities."""
    found: list[Any] = []
    for entity in doc.modelspace():
        if entity.dxftype() == "INSERT":
            found += [e for e in entity.virtual_entities() if e.dxftype() != "ATTDEF"]
        elif entity.dxftype() == "DIMENSION":
            found += list(doc.blocks.get(entity.dxf.geometry))
        else:
            found.append(entity)
    return found


def _near(*values: float) -> Key:
    return tuple(round(value, 6) + 0.0 for value in values)


def _flat(points: Iterable[Any]) -> list[float]:
    return [float(value) for point in points for value in (point[0], point[1])]


_OF_ENTITY: dict[str, Callable[[Any], list[float]]] = {
    "LINE": lambda e: _flat((e.dxf.start, e.dxf.end)),
    "CIRCLE": lambda e: [*_flat((e.dxf.center,)), e.dxf.radius],
    "ARC": lambda e: [*_flat((e.dxf.center,)), e.dxf.radius, e.dxf.start_angle, e.dxf.end_angle],
    "ELLIPSE": lambda e: [
        *_flat((e.dxf.center, e.dxf.major_axis)),
        e.dxf.ratio,
        math.degrees(e.dxf.start_param),
        math.degrees(e.dxf.end_param),
    ],
    "LWPOLYLINE": lambda e: [float(e.closed), *_flat(e.get_points("xy"))],
    "SOLID": lambda e: _flat(e.wcs_vertices()),
    "HATCH": lambda e: _flat(e.paths[0].vertices),
}
_OF_STROKE: dict[type, tuple[str, Callable[[Any], list[float]]]] = {
    Line: ("LINE", lambda s: [*s.a, *s.b]),
    Circle: ("CIRCLE", lambda s: [*s.centre, s.radius]),
    Arc: ("ARC", lambda s: [*s.centre, s.radius, s.from_deg % 360, s.to_deg % 360]),
    Ellipse: ("ELLIPSE", lambda s: [*s.centre, *s.major, s.ratio, s.from_deg, s.to_deg]),
    Polyline: ("LWPOLYLINE", lambda s: [float(s.closed), *_flat(s.points)]),
}


def _key_of_entity(e: Any) -> Key:
    kind = e.dxftype()
    if kind == "TEXT":
        align, at, other = e.get_placement()
        return kind, e.dxf.layer, e.dxf.text, align.name, *_near(*_flat((other or at,)), e.dxf.height, e.dxf.rotation)
    return kind, e.dxf.layer, *_near(*_OF_ENTITY[kind](e))


def _key_of_stroke(s: Stroke, layer: str) -> Key:
    if isinstance(s, Text):
        align = {"left": "LEFT", "middle": "CENTER", "right": "RIGHT"}[s.anchor]
        return "TEXT", layer or "TEXT", encoded(s.text), align, *_near(*s.at, s.height, s.angle_deg)
    if isinstance(s, Fill):
        return "SOLID" if len(s.points) < 5 else "HATCH", dxf.SHADE if s.grey else "DIM", *_near(*_flat(s.points))
    kind, values = _OF_STROKE[type(s)]
    return kind, layer or dxf.LAYER[s.pen], *_near(*values(s))


def test_every_stroke_is_there_once_and_in_its_place(sheet: Sheet, doc: Any) -> None:
    """The entities read back are the ink's strokes to 1e-6, on the layers of their pens."""
    wanted: Counter[Key] = Counter()
    for group in sheet.groups:
        for item in group.items:
            layer = dxf.LAYER[Pen.DIM] if isinstance(item, Dimension) else ""
            wanted.update(_key_of_stroke(stroke, layer) for stroke in strokes_of((item,)))
    assert Counter(_key_of_entity(entity) for entity in _entities(doc)) == wanted


def test_audit_finds_nothing(doc: Any) -> None:
    """The library's audit has neither errors nor repairs."""
    auditor = doc.audit()
    assert not auditor.errors
    assert not auditor.fixes


def test_everything_is_by_layer(doc: Any) -> None:
    """Colour, line type and width of every entity come from its layer, and the layer exists."""
    for entity in _entities(doc):
        assert entity.dxf.get("color", 256) == 256
        assert entity.dxf.get("linetype", "BYLAYER").upper() == "BYLAYER"
        assert entity.dxf.get("lineweight", -1) == -1
        assert entity.dxf.layer in doc.layers


def test_line_types_are_the_inks(doc: Any) -> None:
    """Dashes in paper mm, wide lines twice as wide as narrow ones (ISO 128: 2 to 1)."""
    assert doc.linetypes.get("HIDDEN2").simplified_line_pattern() == (3.0, 1.0)
    assert doc.linetypes.get("DASHDOT2").simplified_line_pattern() == (7.0, 1.0, 1.0, 1.0)
    assert doc.layers.get("HIDDEN").dxf.linetype == "HIDDEN2"
    assert doc.layers.get("OUTLINE").dxf.lineweight == 2 * doc.layers.get("THIN").dxf.lineweight


def test_header_says_units_extents_and_style(sheet: Sheet, doc: Any) -> None:
    """Units agree, extents are those of the ink, the print scale is 1, the style is repeated."""
    header = doc.header
    assert (header["$INSUNITS"], header["$MEASUREMENT"]) == (4, 1)
    assert header["$PSVPSCALE"] == 1.0
    assert (header["$DIMLFAC"], header["$DIMTXT"], header["$DIMDEC"]) == (1.0, 3.5, 3)
    assert header["$LIMMAX"] == (sheet.width, sheet.height)
    assert (tuple(header["$EXTMIN"])[:2], tuple(header["$EXTMAX"])[:2]) == ((15.0, 5.0), (415.0, 292.0))


def test_dimensions_are_alive(doc: Any) -> None:
    """Each dimension measures the value that is printed, and its text keeps the value alive with <>."""
    found = {(d.dxf.text, round(d.get_measurement(), 6)) for d in doc.modelspace().query("DIMENSION")}
    assert found == {("<> %%p0.1", 80.0), ("<>", 50.0), ("<>", 60.0)}


def test_a_moved_point_changes_the_live_value(doc: Any) -> None:
    """Rendering again after a measured point was moved prints the new size."""
    entity = next(d for d in doc.modelspace().query("DIMENSION") if "0.1" in d.dxf.text)
    entity.dxf.defpoint3 = (132.5, 120.0)
    entity.render()
    (text,) = (e for e in doc.blocks.get(entity.dxf.geometry) if e.dxftype() in {"MTEXT", "TEXT"})
    assert text.plain_text() == "72.5 ±0.1"


def test_a_view_at_another_scale_prints_its_value(doc: Any) -> None:
    """In a 5:1 detail 20 mm of paper are 4 mm: plain lines and the printed text, no entity that a reader sets anew."""
    assert not [d for d in doc.modelspace().query("DIMENSION") if d.dxf.text == "4"]
    assert [t.dxf.layer for t in doc.modelspace().query("TEXT") if t.dxf.text == "4"] == [dxf.LAYER[Pen.DIM]]


def test_title_block_values_are_texts_and_hidden_attributes(sheet: Sheet, doc: Any) -> None:
    """Every field is an invisible attribute of the block's insert."""
    insert: Any = next(e for e in doc.modelspace().query("INSERT") if e.dxf.name == "TITLE_BLOCK")
    values = {a.dxf.tag: a.dxf.text for a in insert.attribs}
    assert values == {name.upper(): encoded(value) for name, value in sheet.fields.items()}
    assert all(attribute.is_invisible for attribute in insert.attribs)


@pytest.mark.parametrize(
    ("text", "coded"),
    [
        ("Ø12 ±0.1", "%%c12 %%p0.1"),
        ("⌀5 30°", "%%c5 30%%d"),
        ("100 %", "100 %"),
        ("50%%d", "50%%%%%%d"),
        ("50%Ø6", "50%%%%%c6"),
        ("1 %±2", "1 %%%%%p2"),
        ("a^J", "a^ J"),
        ("→…", "->..."),
    ],
)
def test_text_coding(text: str, coded: str) -> None:
    """Signs become codes; what would start a code is written out (DXF reference, TEXT)."""
    assert encoded(text) == coded


def test_a_whole_arc_is_a_circle() -> None:
    """An arc of a full turn must not become one of no length."""
    view = Group("v", (Arc(Pen.VISIBLE, (50.0, 50.0), 5.0, 90.0, 450.0),), ((0.0, 0.0), (99.0, 99.0)))
    doc = read(io.StringIO(dxf.sheet_dxf(Sheet("d", 210.0, 297.0, 1.0, "mm", (view,))).decode()))
    assert [entity.dxftype() for entity in doc.modelspace()] == ["CIRCLE"]
    assert tuple(doc.header["$EXTMAX"])[:2] == (55.0, 55.0)


def test_bytes_do_not_depend_on_the_run(sheet: Sheet, tmp_path: Path) -> None:
    """Two processes with other hash seeds and time zones write equal bytes."""
    code = (
        "import sys; from pathlib import Path; from setupsheet.drawing import dxf, svg, frame, title_block as t\n"
        "from setupsheet.drawing.ink import *\n"
        "s = frame.sheet_size('A4'); b = t.TitleBlock('iso', 'first', number='1')\n"
        "i = Circle(Pen.VISIBLE, (50.0, 50.0), 3.3), Text((60.0, 60.0), 3.5, 'Ø5')\n"
        "v = Group('v', i, ((0.0, 0.0), (99.0, 99.0)))\n"
        "h = Sheet('d', s.width, s.height, 1.0, 'mm', (frame.frame(s), t.title_block(b, s), v), b.as_fields())\n"
        "sys.stdout.buffer.write(dxf.sheet_dxf(h) + svg.sheet_svg(h).encode())\n"
    )
    root = str(Path(__file__).parents[2])
    outputs = [
        subprocess.run(
            [sys.executable, "-c", code],
            env={**os.environ, "PYTHONHASHSEED": seed, "TZ": zone, "PYTHONPATH": root},
            cwd=tmp_path,
            check=True,
            capture_output=True,
        ).stdout
        for seed, zone in (("1", "UTC"), ("2", "Asia/Tokyo"))
    ]
    assert outputs[0] == outputs[1]
    assert len(outputs[0]) > 10_000
    assert dxf.sheet_dxf(sheet) == dxf.sheet_dxf(sheet)


def _view(unit: Unit) -> Any:
    square = [
        ((0.0, 0.0), (50.8, 0.0)),
        ((50.8, 25.4), (50.8, 0.0)),
        ((50.8, 25.4), (0.0, 25.4)),
        ((0.0, 25.4), (0.0, 0.0)),
    ]
    edges: tuple[flat.Flat, ...] = (*(flat.Line(a, b) for a, b in square), flat.Circle((12.7, 12.7), 3.175))
    return read(
        io.StringIO(dxf.view_dxf(flat.Outlines(edges, (flat.Line((9.0, 9.0), (1.0, 1.0)),)), unit, "top").decode())
    )


@pytest.mark.parametrize(("unit", "code", "measurement", "wide"), [(Unit.MM, 4, 1, 50.8), (Unit.INCH, 1, 0, 2.0)])
def test_a_view_is_at_full_size_in_its_unit(unit: Unit, code: int, measurement: int, wide: float) -> None:
    """Four lines are one closed contour, the circle is a circle, header and note name the unit."""
    doc = _view(unit)
    assert (doc.header["$INSUNITS"], doc.header["$MEASUREMENT"]) == (code, measurement)
    space = doc.modelspace()
    (contour,), (circle,), (note,) = space.query("LWPOLYLINE"), space.query("CIRCLE"), space.query("TEXT")
    assert contour.closed
    assert {round(x, 9) for x, _ in contour.get_points("xy")} == {0.0, wide}
    assert circle.dxf.radius == pytest.approx(wide / 16)
    assert note.dxf.layer == dxf.NOTE
    assert unit.value in note.dxf.text
    assert len(space) == 3
    assert tuple(doc.header["$EXTMAX"])[:2] == (wide, wide / 2)
    assert not doc.audit().errors
