"""The views as files for cutting: the rim of each is one closed loop with the area of its shadow."""

from __future__ import annotations

import io
from functools import cache

import numpy as np
import pytest
from ezdxf.entities.lwpolyline import LWPolyline
from ezdxf.filemanagement import read
from manifold3d import Manifold, Mesh64

from setupsheet.drawing import dxf
from setupsheet.drawing.chains import Piece
from setupsheet.drawing.frames import FRAME
from setupsheet.length import Unit
from setupsheet.part.face import Face
from setupsheet.solid.body import Body, finished
from setupsheet.solid.export import mesh
from setupsheet.solid.outline import outlines
from setupsheet.solid.view import face_view
from setupsheet.spec.reader import read_part
from tests.drawing.test_demo_drawings import DEMOS, SPECS


@cache
def solid(name: str) -> tuple[Body, Manifold, Unit]:
    """Return a demo part as a body and as a mesh of the other kernel, and its unit."""
    part = read_part(SPECS / f"{name}.yaml")[0]
    assert part is not None
    body = finished(part)
    points, triangles = mesh(body, 0.005)
    data = Mesh64(np.array(points, np.float64), np.array(triangles, np.uint64))
    data.merge()
    return body, Manifold(data), part.unit


def shadow_mm2(metal: Manifold, face: Face) -> float:
    """Return the area within the rim of the shadow that a part throws along the sight of a view."""
    frame = FRAME[face]
    turn = np.array([[*axis, 0.0] for axis in (frame.u, frame.v, frame.towards_reader)])
    return max(abs(shoelace(loop)) for loop in metal.transform(turn).project().to_polygons())


def shoelace(loop: np.ndarray) -> float:
    """Return the signed area of a loop of points."""
    x, y = loop[:, 0], loop[:, 1]
    return float(np.dot(x, np.roll(y, -1)) - np.dot(np.roll(x, -1), y)) / 2


@pytest.mark.parametrize("face", list(Face))
@pytest.mark.parametrize("name", DEMOS)
def test_the_rim_is_closed_and_has_the_area_of_the_shadow(name: str, face: Face) -> None:
    """The largest closed loop of the file, arcs counted, is the shadow of the meshed part to 0.1 %."""
    body, metal, unit = solid(name)
    data = dxf.view_dxf(outlines(body, face_view(face), hidden=False), unit, face.value)
    space = read(io.StringIO(data.decode())).modelspace()
    rims = []
    for loop in (e for e in space.query("LWPOLYLINE") if isinstance(e, LWPolyline) and e.closed):
        points = loop.get_points("xyb")
        piece = Piece(tuple((x, y) for x, y, _ in (*points, points[0])), tuple(b for _, _, b in points))
        rims.append(abs(piece.area()) * float(unit.mm) ** 2)
    assert max(rims) == pytest.approx(shadow_mm2(metal, face), rel=1e-3)
