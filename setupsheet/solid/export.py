"""A body as triangles, STL and STEP; the same body gives the same bytes in every process (mm).

A kernel file. Nodes that the kernel repeats on each face are merged, so that a mesh is closed. The STEP
header holds no clock, and the product carries the given name and not the kernel's running number.
"""

from __future__ import annotations

import math
import struct
from itertools import chain
from pathlib import Path
from typing import Any

from OCP.APIHeaderSection import APIHeaderSection_MakeHeader
from OCP.BRep import BRep_Tool
from OCP.BRepMesh import BRepMesh_IncrementalMesh
from OCP.BRepTools import BRepTools
from OCP.IMeshTools import IMeshTools_MeshAlgoType, IMeshTools_Parameters
from OCP.Interface import Interface_Static
from OCP.StepBasic import StepBasic_Product
from OCP.STEPControl import STEPControl_Controller, STEPControl_StepModelType, STEPControl_Writer
from OCP.TCollection import TCollection_HAsciiString
from OCP.TopAbs import TopAbs_FACE, TopAbs_Orientation
from OCP.TopExp import TopExp_Explorer
from OCP.TopLoc import TopLoc_Location
from OCP.TopoDS import TopoDS

from setupsheet.plane import Point3
from setupsheet.solid.body import Body

Triangle = tuple[int, int, int]

_ANGLE_RAD = 0.5
"""No facet of a round turns by more than this, however small the round is."""
_MERGE = 7
"""Decimals (mm) to which nodes of neighbouring faces agree."""
_HEADER = b"setupsheet, millimetres".ljust(80, b" ")
_RECORD = struct.Struct("<12fH")
_NO_CLOCK = "1970-01-01T00:00:00"


def mesh(body: Body, deflection_mm: float) -> tuple[list[Point3], list[Triangle]]:
    """Return corners and triangles (indices, seen counter-clockwise from outside) of a closed mesh.

    No triangle lies further from the true surface than ``deflection_mm``.
    """
    _triangulate(body, deflection_mm)
    corners: dict[Point3, int] = {}
    triangles: list[Triangle] = []
    explorer = TopExp_Explorer(body.shape, TopAbs_FACE)
    while explorer.More():
        _add_face(TopoDS.Face(explorer.Current()), corners, triangles)
        explorer.Next()
    return list(corners), triangles


def stl_bytes(corners: list[Point3], triangles: list[Triangle]) -> bytes:
    """Return a mesh as a binary STL file; triangles that vanish in single precision are left out."""
    values = struct.unpack(f"<{3 * len(corners)}f", struct.pack(f"<{3 * len(corners)}f", *chain(*corners)))
    single = list(zip(values[::3], values[1::3], values[2::3], strict=True))
    records = bytearray(_RECORD.size * len(triangles))
    count = 0
    for a, b, c in triangles:
        p, q, r = single[a], single[b], single[c]
        if q in (p, r) or r == p:
            continue
        _RECORD.pack_into(records, _RECORD.size * count, *_normal(p, q, r), *p, *q, *r, 0)
        count += 1
    return _HEADER + struct.pack("<I", count) + bytes(records[: _RECORD.size * count])


def write_step(body: Body, path: Path, name: str) -> None:
    """Write a STEP file (AP214) of one product; raises OSError where the file cannot be written."""
    STEPControl_Controller.Init_s()
    Interface_Static.SetCVal_s("write.step.product.name", _ascii(name))
    writer = STEPControl_Writer()
    writer.Transfer(body.shape, STEPControl_StepModelType.STEPControl_AsIs)
    model = writer.Model()
    for index in range(1, model.NbEntities() + 1):
        entity = model.Value(index)
        if isinstance(entity, StepBasic_Product):
            entity.SetId(_text(name))
            entity.SetName(_text(name))
    header = APIHeaderSection_MakeHeader(model)
    header.SetName(_text(name))
    header.SetTimeStamp(_text(_NO_CLOCK))
    header.SetOriginatingSystem(_text("setupsheet"))
    header.SetAuthorValue(1, _text(""))
    header.SetOrganizationValue(1, _text(""))
    path.write_bytes(b"")
    writer.Write(str(path))
    if not path.stat().st_size:
        raise OSError(f"{path.name} could not be written")


def _triangulate(body: Body, deflection_mm: float) -> None:
    BRepTools.Clean_s(body.shape)
    wanted = IMeshTools_Parameters()
    wanted.MeshAlgo = IMeshTools_MeshAlgoType.IMeshTools_MeshAlgoType_Delabella
    wanted.Deflection = deflection_mm
    wanted.Angle = _ANGLE_RAD
    BRepMesh_IncrementalMesh(body.shape, wanted)


def _add_face(face: Any, corners: dict[Point3, int], triangles: list[Triangle]) -> None:
    location = TopLoc_Location()
    patch = BRep_Tool.Triangulation_s(face, location)
    if patch is None:
        return
    motion, moved = location.Transformation(), not location.IsIdentity()
    index = [0]
    for i in range(1, patch.NbNodes() + 1):
        x, y, z = (patch.Node(i).Transformed(motion) if moved else patch.Node(i)).Coord()
        corner = (round(x, _MERGE) + 0.0, round(y, _MERGE) + 0.0, round(z, _MERGE) + 0.0)
        index.append(corners.setdefault(corner, len(corners)))
    flipped = face.Orientation() == TopAbs_Orientation.TopAbs_REVERSED
    for i in range(1, patch.NbTriangles() + 1):
        one, two, three = patch.Triangle(i).Get()
        a, b, c = index[one], index[two], index[three]
        if a not in (b, c) and b != c:
            triangles.append((a, c, b) if flipped else (a, b, c))


def _normal(p: Point3, q: Point3, r: Point3) -> Point3:
    ux, uy, uz = q[0] - p[0], q[1] - p[1], q[2] - p[2]
    vx, vy, vz = r[0] - p[0], r[1] - p[1], r[2] - p[2]
    x, y, z = uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx
    length = math.sqrt(x * x + y * y + z * z) or 1.0
    return (x / length, y / length, z / length)


def _ascii(text: str) -> str:
    return text.encode("ascii", "replace").decode("ascii")


def _text(text: str) -> Any:
    return TCollection_HAsciiString(_ascii(text))
