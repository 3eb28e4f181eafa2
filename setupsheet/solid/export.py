"""A body as triangles, STL and STEP; the same body gives the same bytes in every process (mm).

A kernel file. Nodes that the kernel repeats on each face are merged, so that a mesh is closed. The STEP
header holds no clock, and the product carries the given name and not the kernel's running number.
"""

from __future__ import annotations

import math
import struct
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


def write_stl(body: Body, path: Path, deflection_mm: float) -> None:
    """Write a binary STL file; raises OSError where the file cannot be written."""
    corners, triangles = mesh(body, deflection_mm)
    single = [struct.unpack("<3f", struct.pack("<3f", *corner)) for corner in corners]
    records = bytearray()
    count = 0
    for a, b, c in triangles:
        p, q, r = single[a], single[b], single[c]
        if p in (q, r) or q == r:
            continue
        records += struct.pack("<12fH", *_normal(p, q, r), *p, *q, *r, 0)
        count += 1
    path.write_bytes(_HEADER + struct.pack("<I", count) + records)


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
        node = patch.Node(i).Transformed(motion) if moved else patch.Node(i)
        corner = (round(node.X(), _MERGE) + 0.0, round(node.Y(), _MERGE) + 0.0, round(node.Z(), _MERGE) + 0.0)
        index.append(corners.setdefault(corner, len(corners)))
    flipped = face.Orientation() == TopAbs_Orientation.TopAbs_REVERSED
    for i in range(1, patch.NbTriangles() + 1):
        a, b, c = (index[n] for n in patch.Triangle(i).Get())
        if a not in (b, c) and b != c:
            triangles.append((a, c, b) if flipped else (a, b, c))


def _normal(p: Point3, q: Point3, r: Point3) -> Point3:
    u = (q[0] - p[0], q[1] - p[1], q[2] - p[2])
    v = (r[0] - p[0], r[1] - p[1], r[2] - p[2])
    n = (u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0])
    length = math.sqrt(n[0] ** 2 + n[1] ** 2 + n[2] ** 2) or 1.0
    return (n[0] / length, n[1] / length, n[2] / length)


def _ascii(text: str) -> str:
    return text.encode("ascii", "replace").decode("ascii") or "part"


def _text(text: str) -> Any:
    return TCollection_HAsciiString(_ascii(text))
