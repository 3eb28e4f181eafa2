"""Every paper of a build as bytes, by its name in the build's folder (contracts: a build's folder)."""

from __future__ import annotations

import csv
import hashlib
import io
import json
from collections.abc import Iterator
from dataclasses import replace

from setupsheet.drawing import dxf, svg
from setupsheet.drawing.ink import Sheet
from setupsheet.finding import Findings, Place
from setupsheet.papers import bodies, html, pdf, setup_sheet
from setupsheet.part.face import Face
from setupsheet.part.part import Part
from setupsheet.plan.make import Planned
from setupsheet.plan.record import Mesh, Plan, Position, Setup, Step, as_json
from setupsheet.solid.outline import outlines
from setupsheet.solid.solids import DEFLECTION_MM, Solids, mesh_bytes, step_bytes, stl_bytes
from setupsheet.solid.view import face_view

COLUMNS = (
    *("setup", "step", "feature", "label", "operation", "tool", "x_mm", "y_mm", "z_tip_mm"),
    *("x_shown", "y_shown", "z_shown", "shown_unit"),
)


def papers_of(
    part: Part, solids: Solids, planned: Planned, sheets: tuple[Sheet, ...], findings: Findings
) -> dict[str, bytes]:
    """Return every file but written.json, which the command line adds when it knows what it wrote."""
    files = _solid_files(part, solids)
    found = tuple({**one.as_json(), "file": name_inside(one.place, part.files_read)} for one in findings)
    plan = _final(planned.plan, solids, files, found)
    pages = html.page_html(setup_sheet.sheets(plan, bodies.views(part, solids.nominal, planned)))
    files |= _drawing_files(sheets)
    files |= {f"views/{face.value}.dxf": _view(part, solids, face) for face in Face}
    files["setups.html"] = pages.encode()
    files["setups.pdf"] = pdf.setups_pdf(pages)
    files["plan.json"] = (json.dumps(as_json(plan), indent=1, ensure_ascii=False) + "\n").encode()
    files["positions.csv"] = positions_csv(plan).encode()
    return dict(sorted(files.items()))


def _solid_files(part: Part, solids: Solids) -> dict[str, bytes]:
    return {
        "part.step": step_bytes(solids.nominal, f"{part.number} {part.revision}"),
        "part.stl": stl_bytes(solids.nominal),
        "part_least.stl": mesh_bytes(solids.least_mesh),
        "part_most.stl": mesh_bytes(solids.most_mesh),
    }


def name_inside(place: Place | None, names: tuple[str, ...]) -> str:
    """Return the file of a finding by its name inside the project, whatever folder the program was called from."""
    if place is None:
        return ""
    own = place.file.rsplit("/", 1)[-1]
    return next((name for name in names if name.rsplit("/", 1)[-1] == own), own)


def _final(plan: Plan, solids: Solids, files: dict[str, bytes], findings: tuple[dict[str, object], ...]) -> Plan:
    """Return the plan with the hashes of its meshes and everything that was found."""
    meshes = tuple(
        Mesh(name, hashlib.sha256(data).hexdigest()) for name, data in files.items() if name.endswith(".stl")
    )
    solid = replace(plan.solid, meshes=meshes, mesh_deflection_mm=DEFLECTION_MM, volume_mm3=solids.volume_mm3)
    return replace(plan, solid=solid, findings=findings)


def _drawing_files(sheets: tuple[Sheet, ...]) -> dict[str, bytes]:
    names = ["drawing.dxf", *(f"drawing-{i}.dxf" for i in range(2, len(sheets) + 1))]
    files = {name: dxf.sheet_dxf(sheet) for name, sheet in zip(names, sheets, strict=False)}
    sizes = [(sheet.width, sheet.height) for sheet in sheets]
    files["drawing.pdf"] = pdf.drawing_pdf([svg.sheet_svg(sheet) for sheet in sheets], sizes, html.font_faces())
    return files


def _view(part: Part, solids: Solids, face: Face) -> bytes:
    return dxf.view_dxf(outlines(solids.nominal, face_view(face), hidden=False), part.unit, face.value)


def positions_csv(plan: Plan) -> str:
    """Return every hole-like position as a table, one line each.

    Spreadsheets run a text that begins like a formula, so such a text gets an apostrophe; numbers keep their signs.
    """
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(COLUMNS)
    for setup, step, at in _positions(plan):
        tool = step.tool.label if step.tool else ""
        shown = [at.shown.get(axis, "") for axis in "xyz"]  # scribing shows no Z
        number = [f"{value:.6f}".rstrip("0").rstrip(".") for value in (at.x, at.y, at.z_to)]
        unit = setup.readout["x"].unit
        texts = [_as_text(text) for text in (at.feature, at.label, step.operation, tool)]
        writer.writerow([setup.number, step.number, *texts, *number, *shown, unit])
    return out.getvalue()


def _as_text(text: str) -> str:
    return f"'{text}" if text.startswith(("=", "+", "-", "@", "\t")) else text


def _positions(plan: Plan) -> Iterator[tuple[Setup, Step, Position]]:
    for setup in plan.setups:
        for step in setup.steps:
            for at in step.positions:
                yield setup, step, at
