"""SVG and DXF of one sheet, each read back by other code than wrote it, show the same ink in the same places."""

from __future__ import annotations

import io
import math
import re
import xml.etree.ElementTree as ET
from collections import Counter
from itertools import pairwise
from typing import Any

import ezdxf.path
from ezdxf.filemanagement import read

from setupsheet.drawing import dxf, lettering, svg
from setupsheet.drawing.dxf_words import encoded
from setupsheet.drawing.ink import Sheet

SVG = "{http://www.w3.org/2000/svg}"
Spot = tuple[float, float]
_COMMAND = re.compile(r"([MLAZ])([^MLAZ]*)")


def _svg_lengths(sheet: Sheet) -> dict[str, list[tuple[Spot, Spot]]]:
    """Return straight strokes and the chords of bows by pen, Y up again."""
    found: dict[str, list[tuple[Spot, Spot]]] = {}
    for path in ET.fromstring(svg.sheet_svg(sheet)).iter(f"{SVG}path"):
        pen = path.get("data-pen")
        if not pen:
            continue
        at = start = (0.0, 0.0)
        for command, rest in _COMMAND.findall(path.get("d") or ""):
            numbers = [float(word) for word in rest.split()]
            to = start if command == "Z" else (numbers[-2], sheet.height - numbers[-1])
            if command == "M":
                start = to
            elif math.dist(at, to) > 1e-3:
                found.setdefault(pen, []).append((at, to))
            at = to
    return found


def _dxf_entities(sheet: Sheet) -> list[Any]:
    doc = read(io.StringIO(dxf.sheet_dxf(sheet).decode()))
    found: list[Any] = []
    for entity in doc.modelspace():
        if entity.dxftype() == "INSERT":
            found += [e for e in entity.virtual_entities() if e.dxftype() != "ATTDEF"]  # type: ignore[attr-defined]
        elif entity.dxftype() == "DIMENSION":
            found += list(doc.blocks.get(entity.dxf.geometry))
        else:
            found.append(entity)
    return found


def _near(a: Spot, b: Spot) -> bool:
    return math.dist(a, b) < 2e-4


def test_straight_strokes_and_bows_have_the_same_ends(sheet: Sheet) -> None:
    """Every stroke of the DXF, cut into its pieces by the library, has a twin in the SVG path of its pen."""
    pens = {layer: pen.value for pen, layer in dxf.LAYER.items()}
    drawn = _svg_lengths(sheet)
    counted = 0
    for entity in _dxf_entities(sheet):
        if entity.dxftype() in {"CIRCLE", "ELLIPSE"}:
            whole = entity.dxftype() == "CIRCLE" or entity.dxf.end_param - entity.dxf.start_param > 6.28
            counted += 2 if whole else 1
        if entity.dxftype() not in {"LINE", "LWPOLYLINE", "ARC"}:
            continue
        points = [(v.x, v.y) for v in ezdxf.path.make_path(entity).control_vertices()]
        if entity.dxftype() == "ARC":
            points = [points[0], points[-1]]
        for a, b in pairwise(points):
            if math.dist(a, b) > 1e-3:
                twins = drawn[pens[entity.dxf.layer]]
                assert any((_near(a, c) and _near(b, d)) or (_near(a, d) and _near(b, c)) for c, d in twins), entity
                counted += 1
    assert counted == sum(len(pieces) for pieces in drawn.values()) > 100


def test_texts_stand_in_the_same_places(sheet: Sheet) -> None:
    """Words, foot, height, anchor and turn of every text are the same in both files."""
    anchors = {"start": "LEFT", "middle": "CENTER", "end": "RIGHT"}
    in_svg: Counter[tuple[Any, ...]] = Counter()
    for text in ET.fromstring(svg.sheet_svg(sheet)).iter(f"{SVG}text"):
        turn = float((text.get("transform") or "rotate(0 ").removeprefix("rotate(").split()[0])
        height = float(text.get("font-size") or 0) / lettering.EM_PER_CAP
        foot = float(text.get("x") or 0), sheet.height - float(text.get("y") or 0)
        anchor = anchors[text.get("text-anchor") or "start"]
        numbers = (round(value, 3) + 0.0 for value in (*foot, height, -turn % 360))
        in_svg[encoded(text.text or ""), anchor, *numbers] += 1
    in_dxf: Counter[tuple[Any, ...]] = Counter()
    for entity in _dxf_entities(sheet):
        if entity.dxftype() == "TEXT":
            align, foot_at, other = entity.get_placement()
            foot_at = other or foot_at
            numbers = (round(v, 3) + 0.0 for v in (foot_at.x, foot_at.y, entity.dxf.height, entity.dxf.rotation % 360))
            in_dxf[entity.dxf.text, align.name, *numbers] += 1
    assert in_svg == in_dxf
    assert len(in_svg) > 40
