"""The DXF of every demo, read with the DXF library alone: sound, true extents, right units, live sizes, its values."""

from __future__ import annotations

import io
from functools import cache
from typing import Any

import pytest
from ezdxf import bbox
from ezdxf.filemanagement import read

from setupsheet.drawing import dxf
from setupsheet.drawing.completeness import dimensions_of
from setupsheet.drawing.dxf_words import encoded
from setupsheet.drawing.ink import Sheet
from setupsheet.drawing.strokes import items_box
from tests.drawing.test_demo_drawings import DEMOS, drawn


@cache
def _docs(name: str) -> tuple[tuple[Sheet, Any], ...]:
    """Return the sheets of a demo with their files read back."""
    return tuple((s, read(io.StringIO(dxf.sheet_dxf(s).decode()))) for s in drawn(name)[1])


@pytest.mark.parametrize("name", DEMOS)
def test_the_file_is_sound_and_its_header_true(name: str) -> None:
    """No error, no repair; both unit variables agree; the extents are those of the ink, and hold all lines."""
    for sheet, doc in _docs(name):
        auditor = doc.audit()
        assert (auditor.errors, auditor.fixes) == ([], [])
        assert (doc.header["$INSUNITS"], doc.header["$MEASUREMENT"]) == (4, 1)
        low, high = items_box(tuple(i for g in sheet.groups for i in g.items))
        assert tuple(doc.header["$EXTMIN"])[:2] == pytest.approx(low, abs=1.0)
        assert tuple(doc.header["$EXTMAX"])[:2] == pytest.approx(high, abs=1.0)
        lines = bbox.extents(doc.modelspace().query("LINE CIRCLE ARC LWPOLYLINE"), fast=True)
        assert all(a >= b - 1e-6 for a, b in zip(lines.extmin.vec2, doc.header["$EXTMIN"][:2], strict=True))
        assert all(a <= b + 1e-6 for a, b in zip(lines.extmax.vec2, doc.header["$EXTMAX"][:2], strict=True))


@pytest.mark.parametrize("name", DEMOS)
def test_each_size_of_the_main_scale_is_alive(name: str) -> None:
    """As many entities as single sizes at the sheet's scale; a point moved by 1 mm changes what is printed by that."""
    for sheet, doc in _docs(name):
        wanted = [d for d in dimensions_of([sheet]) if d.kind in ("linear", "aligned") and d.scale == sheet.scale]
        entities = [d for d in doc.modelspace().query("DIMENSION") if d.dimtype in (0, 1)]
        assert len(entities) == len(wanted)
        for entity in entities:
            before = entity.get_measurement()
            axis = (1, 0) if abs(entity.dxf.angle) < 1 else (0, 1)
            way = 1 if (entity.dxf.defpoint3 - entity.dxf.defpoint2).vec2.dot(axis) > 0 else -1
            entity.dxf.defpoint3 += (way * axis[0], way * axis[1], 0)
            entity.render()
            (text,) = (e for e in doc.blocks.get(entity.dxf.geometry) if e.dxftype() in {"MTEXT", "TEXT"})
            inch = sheet.unit == "inch"
            shown = (before + 1.0) / sheet.scale / (25.4 if inch else 1.0)
            places = doc.header["$DIMDEC"]
            number = f"{shown:.{places}f}"
            number = number.lstrip("0") if inch else number.rstrip("0").rstrip(".")
            assert number in text.plain_text(), text.plain_text()
    _docs.cache_clear()


@pytest.mark.parametrize("name", DEMOS)
def test_title_block_values_are_seen_and_can_be_edited(name: str) -> None:
    """Number, title, material, scale are texts of the block, and each field is an attribute of its insert."""
    for sheet, doc in _docs(name):
        insert: Any = next(e for e in doc.modelspace().query("INSERT") if e.dxf.name == "TITLE_BLOCK")
        seen = " ".join(e.dxf.text for e in doc.blocks.get("TITLE_BLOCK").query("TEXT"))
        assert all(encoded(sheet.fields[key]) in seen for key in ("number", "title", "material", "scale"))
        values = {a.dxf.tag: a.dxf.text for a in insert.attribs}
        assert values == {key.upper(): encoded(value) for key, value in sheet.fields.items()}
