"""The three solids of a part: as drawn, with the least metal that its limits allow, and with the most.

Their meshes are what the replay compares with and what the STL files hold.
"""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from setupsheet.finding import Finding, error
from setupsheet.length import default_places, plain
from setupsheet.part.face import Box
from setupsheet.part.part import Part
from setupsheet.plane import Point3
from setupsheet.solid import export
from setupsheet.solid.body import Body, bounding_box, finished, volume_mm3
from setupsheet.solid.export import Triangles

DEFLECTION_MM = 0.002
"""Greatest distance between a mesh and the true surface (contracts: STL files)."""

_NOT_REACHED_MM = 1e-4
"""How far the kernel's box of a body may fall short of the spec's before a face is missing."""


@dataclass(frozen=True, slots=True)
class Solids:
    """The bodies of the finished part, the meshes of its limits, and its volume and box."""

    nominal: Body
    least: Body
    most: Body
    least_mesh: Triangles
    most_mesh: Triangles
    volume_mm3: float
    box_mm: tuple[Point3, Point3]


def make_solids(part: Part) -> tuple[Solids, list[Finding]]:
    """Build the three solids; the findings are the nominal one's."""
    nominal, least, most = finished(part), finished(part, "least"), finished(part, "most")
    box = bounding_box(nominal)
    meshes = [export.mesh(body, DEFLECTION_MM) for body in (least, most)]
    solids = Solids(nominal, least, most, meshes[0], meshes[1], volume_mm3(nominal), (box.low, box.high))
    return solids, list(nominal.findings) or _sizes_reached(part, box)


def _sizes_reached(part: Part, box: Box) -> list[Finding]:
    """Say so where the finished part is smaller than its spec says: overall sizes and stock would be wrong."""
    unit = float(part.unit.mm)
    findings = []
    for axis, name in enumerate("XYZ"):
        there, said = box.high[axis] - box.low[axis], part.box.high[axis] - part.box.low[axis]
        if said - there > _NOT_REACHED_MM:
            shown, wanted = (f"{plain(mm / unit, default_places(part.unit))} {part.unit.short}" for mm in (there, said))
            findings.append(
                error(
                    "size-not-reached",
                    f"the finished part is {shown} in {name}; size: says {wanted}",
                    found=f"{shown} after all features",
                    allowed=f"something that reaches over all of {wanted}",
                    try_=f"write size: as it is when all is cut ({shown} in {name}), or leave something standing",
                )
            )
    return findings


def stl_bytes(body: Body) -> bytes:
    """Return a body as a binary STL file."""
    return mesh_bytes(export.mesh(body, DEFLECTION_MM))


def mesh_bytes(mesh: Triangles) -> bytes:
    """Return a mesh that is there already as a binary STL file."""
    return export.stl_bytes(*mesh)


def step_bytes(body: Body, name: str) -> bytes:
    """Return a body as a STEP file of one product."""
    return _written(lambda path: export.write_step(body, path, name), "body.step")


def _written(write: Callable[[Path], None], name: str) -> bytes:
    """Let the kernel write a file (it writes nothing but files) and return its bytes."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / name
        write(path)
        return path.read_bytes()
