"""A body as triangles, STL and STEP; the same body gives the same bytes in every process (mm).

A kernel file. Nodes that the kernel repeats on each face are merged, so that a mesh is closed. The STEP
header holds no clock, and the product carries the given name and not the kernel's running number.

Asking the kernel for a million corners one by one takes longer than making them, so all triangulations of a body
come over in one piece: in the kernel's own binary form, read as arrays.
"""

from __future__ import annotations

import io
import struct
from pathlib import Path
from typing import Any

import numpy as np
from OCP.APIHeaderSection import APIHeaderSection_MakeHeader
from OCP.BinTools import BinTools, BinTools_FormatVersion
from OCP.BRep import BRep_Builder, BRep_Tool
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
from OCP.TopoDS import TopoDS, TopoDS_Compound, TopoDS_Face

from setupsheet.solid.body import Body

Array = Any
"""An array of numbers, one row a corner or a triangle."""
Triangles = tuple[Array, Array]
"""Corners (mm) and triangles (three indices each) of a closed mesh."""

_ANGLE_RAD = 0.5
"""No facet of a round turns by more than this, however small the round is."""
_MANY_FACES = 500
"""Faces from which on the kernel is allowed to use all cores; below it threads cost more. The mesh stays the same."""
_MERGE = 7
"""Decimals (mm) to which nodes of neighbouring faces agree."""
_HEADER = b"setupsheet, millimetres".ljust(80, b" ")
_RECORD = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("attribute", "<u2")])
_PATCH = struct.Struct("<ii??d")
"""How a triangulation begins in the kernel's binary form: corners, triangles, has parameters, has normals, sag."""
_PATCHES = b"\nTriangulations "
_NO_CLOCK = "1970-01-01T00:00:00"


def mesh(body: Body, deflection_mm: float) -> Triangles:
    """Return corners and triangles (indices, seen counter-clockwise from outside) of a closed mesh.

    No triangle lies further from the true surface than ``deflection_mm``: half as far on a cylinder, and hardly less on
    a steep cone, so that the kernel is asked for just that.
    """
    _triangulate(body, deflection_mm)
    corners, triangles = _patches(body)
    BRepTools.Clean_s(body.shape)
    first, index = _same(np.rint(corners * 10.0**_MERGE))
    corners = np.round(corners[first], _MERGE) + 0.0
    triangles = index[triangles]
    a, b, c = triangles.T
    return corners, triangles[(a != b) & (b != c) & (c != a)]


def stl_bytes(corners: Array, triangles: Array) -> bytes:
    """Return a mesh as a binary STL file; triangles that vanish in single precision are left out."""
    single = np.asarray(corners, dtype="<f4").reshape(-1, 3)[np.asarray(triangles, dtype=np.int64).reshape(-1, 3)]
    p, q, r = single[:, 0], single[:, 1], single[:, 2]
    gone = (p == q).all(axis=1) | (q == r).all(axis=1) | (r == p).all(axis=1)
    single = single[~gone]
    records = np.zeros(len(single), dtype=_RECORD)
    records["corners"] = single
    records["normal"] = _normals(single)
    return b"".join((_HEADER, struct.pack("<I", len(records)), records.tobytes()))


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
    wanted.InParallel = _has_many_faces(body)
    BRepMesh_IncrementalMesh(body.shape, wanted)


def _has_many_faces(body: Body) -> bool:
    explorer, count = TopExp_Explorer(body.shape, TopAbs_FACE), 0
    while explorer.More() and count < _MANY_FACES:
        explorer.Next()
        count += 1
    return count >= _MANY_FACES


def _patches(body: Body) -> Triangles:
    """Return corners and triangles of all faces, in the kernel's order; faces share no corner yet.

    Equal faces in several places may share one patch of triangles; the kernel writes it once.
    """
    bare, builder = TopoDS_Compound(), BRep_Builder()
    builder.MakeCompound(bare)
    placed = []
    patches: list[Any] = []
    places: dict[int, int] = {}
    explorer = TopExp_Explorer(body.shape, TopAbs_FACE)
    while explorer.More():
        face, location = TopoDS.Face(explorer.Current()), TopLoc_Location()
        patch = BRep_Tool.Triangulation_s(face, location)
        if patch is not None:
            if id(patch) not in places:  # the list keeps it alive: its name stays its own
                alone = TopoDS_Face()
                builder.MakeFace(alone, patch)
                builder.Add(bare, alone)
                places[id(patch)] = len(patches)
                patches.append(patch)
            placed.append((places[id(patch)], location, face.Orientation() == TopAbs_Orientation.TopAbs_REVERSED))
        explorer.Next()
    corners, triangles, count = [], [], 0
    read = _read(bare)
    assert len(read) == len(patches)
    for place, location, flipped in placed:
        nodes, facets = read[place]
        corners.append(nodes if location.IsIdentity() else _moved(nodes, location))
        triangles.append((facets[:, [0, 2, 1]] if flipped else facets) + (count - 1))
        count += len(nodes)
    return np.concatenate(corners), np.concatenate(triangles)


def _read(bare: Any) -> list[Triangles]:
    """Return the triangulations of a compound of faces that have nothing else; indices start at 1."""
    out = io.BytesIO()
    BinTools.Write_s(bare, out, True, False, BinTools_FormatVersion.BinTools_FormatVersion_VERSION_4)
    data = out.getvalue()
    at = data.index(_PATCHES) + len(_PATCHES)
    end = data.index(b"\n", at)
    found, count, at = [], int(data[at:end]), end + 1
    for _ in range(count):
        nodes, facets, with_parameters, _normals_too, _sag = _PATCH.unpack_from(data, at)
        at += _PATCH.size
        corners = np.frombuffer(data, "<f8", 3 * nodes, at).reshape(-1, 3)
        at += nodes * (40 if with_parameters else 24)
        found.append((corners, np.frombuffer(data, "<i4", 3 * facets, at).reshape(-1, 3).astype(np.int64)))
        at += facets * 12
    return found


def _moved(corners: Array, location: Any) -> Array:
    motion = location.Transformation()
    rows = np.array([[motion.Value(i, j) for j in range(1, 5)] for i in range(1, 4)])
    return corners @ rows[:, :3].T + rows[:, 3]


def _same(keys: Array) -> tuple[Array, Array]:
    """Return where each different key stands first, in that order, and for every key which of them it is."""
    order = np.lexsort(keys.T)
    ordered = keys[order]
    starts = np.concatenate(([True], (ordered[1:] != ordered[:-1]).any(axis=1)))
    first = np.minimum.reduceat(order, np.flatnonzero(starts))
    rank = np.argsort(np.argsort(first))
    index = np.empty(len(keys), dtype=np.int64)
    index[order] = rank[np.cumsum(starts) - 1]
    return np.sort(first), index


def _normals(single: Array) -> Array:
    """Return the unit normals of triangles whose corners are in single precision."""
    p, q, r = (single[:, i].astype(float) for i in range(3))
    normals = np.cross(q - p, r - p)
    lengths = np.sqrt((normals**2).sum(axis=1, keepdims=True))
    return normals / np.where(lengths > 0, lengths, 1.0)


def _ascii(text: str) -> str:
    return text.encode("ascii", "replace").decode("ascii")


def _text(text: str) -> Any:
    return TCollection_HAsciiString(_ascii(text))
