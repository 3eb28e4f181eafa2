"""A block with many round holes, put together in one go instead of cut hole by hole.

A kernel file. Cutting a thousand drilled and chamfered holes takes ten seconds and more; turning up a thousand walls
and setting their rims as openings into the block's two faces takes one. Only holes that open in those faces, inside
the block and apart from each other, qualify; what else they have along their axis (chamfers, counterbores, the point
of a blind one) comes along.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise

from OCP.BRep import BRep_Builder
from OCP.BRepAdaptor import BRepAdaptor_Curve, BRepAdaptor_Surface
from OCP.BRepBuilderAPI import BRepBuilderAPI_MakePolygon, BRepBuilderAPI_MakeWire
from OCP.BRepPrimAPI import BRepPrimAPI_MakeBox, BRepPrimAPI_MakeRevol
from OCP.GeomAbs import GeomAbs_CurveType
from OCP.gp import gp_Ax1, gp_Pnt
from OCP.TopAbs import TopAbs_EDGE, TopAbs_FACE, TopAbs_Orientation, TopAbs_WIRE
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS, TopoDS_Shell, TopoDS_Solid

from setupsheet.part.face import Box
from setupsheet.plane import Point2, distance
from setupsheet.solid.cutters import Shape, along, point, profiles
from setupsheet.solid.volume import Cone, Volume

FROM_COUNT = 60
"""Fewer holes are cut like everything else."""

_APART_MM = 1e-3
_SAME_MM = 1e-7

_Axis = tuple[int, float, float]


@dataclass(frozen=True, slots=True)
class _Bore:
    """A round hole by its outline inside the block: heights and radii, rising; and the cones that it is made of."""

    axis: int
    centre: Point2
    outline: tuple[Point2, ...]
    cones: tuple[Cone, ...]

    @property
    def radius(self) -> float:
        """Its greatest radius."""
        return max(radius for _, radius in self.outline)

    @property
    def volume_mm3(self) -> float:
        """What it holds."""
        pairs = pairwise(self.outline)
        return sum(math.pi * (h - g) * (a * a + a * b + b * b) / 3 for (g, a), (h, b) in pairs)


@dataclass(frozen=True, slots=True)
class Pierced:
    """A block with holes, how much metal they have taken, and the volumes that are still to be cut."""

    shape: Shape
    gone_mm3: float
    left: dict[str, Volume]


def pierced(box: Box, volumes: Mapping[str, Volume]) -> Pierced | None:
    """Return the pierced block, or None if it does not pay."""
    stacks: dict[_Axis, list[Cone]] = {}
    for shape in (shape for volume in volumes.values() for shape in volume):
        if isinstance(shape, Cone):
            key = (shape.axis, round(shape.centre[0], 6), round(shape.centre[1], 6))
            stacks.setdefault(key, []).append(shape)
    bores = [bore for cones in stacks.values() if (bore := _bore(cones, box)) is not None]
    if len(bores) < FROM_COUNT:
        return None
    axis = Counter(bore.axis for bore in bores).most_common(1)[0][0]
    bores = _alone([bore for bore in bores if bore.axis == axis])
    gone = {cone for bore in bores for cone in bore.cones}
    rest = {key: tuple(s for s in volume if s not in gone) for key, volume in volumes.items()}
    volume_mm3 = sum(bore.volume_mm3 for bore in bores)
    return Pierced(_block(box, axis, bores), volume_mm3, {key: volume for key, volume in rest.items() if volume})


def _bore(cones: list[Cone], box: Box) -> _Bore | None:
    """Return a stack of cones as one hole that opens in at least one end of the block, if it is that."""
    axis, centre = cones[0].axis, cones[0].centre
    low, high = box.low[axis], box.high[axis]
    inside = [outline for points in profiles(cones) if len(outline := _clipped(points, low, high)) > 1]
    if len(inside) != 1:
        return None
    outline = inside[0]
    if outline[0][0] > low and outline[-1][0] < high:
        return None
    bore = _Bore(axis, centre, tuple(outline), tuple(cones))
    edge = bore.radius + _APART_MM
    across = [i for i in range(3) if i != axis]
    held = all(box.low[i] + edge < c < box.high[i] - edge for i, c in zip(across, centre, strict=True))
    open_ = min(radius for height, radius in outline if height in (low, high)) > _APART_MM
    return bore if held and open_ else None


def _clipped(points: list[Point2], low: float, high: float) -> list[Point2]:
    """Return the stretch of an outline between two heights; no step lies right at an end."""
    found: list[Point2] = []
    for a, b in pairwise(points):
        is_step = b[0] - a[0] < _SAME_MM
        if b[0] <= low or a[0] >= high or (is_step and (b[0] - low < _SAME_MM or high - a[0] < _SAME_MM)):
            continue
        start = a if a[0] >= low else _between(a, b, low)
        end = b if b[0] <= high else _between(a, b, high)
        found += [one for one in (start, end) if not found or one != found[-1]]
    return found


def _between(a: Point2, b: Point2, height: float) -> Point2:
    return height, a[1] + (height - a[0]) * (b[1] - a[1]) / (b[0] - a[0])


def _alone(bores: list[_Bore]) -> list[_Bore]:
    """Return the holes that meet no other one of the list, looked for along the first axis."""
    row = sorted(bores, key=lambda bore: (bore.centre, bore.radius))
    radii = [bore.radius for bore in row]
    reach = 2 * max(radii) + _APART_MM
    meeting: set[int] = set()
    for i, bore in enumerate(row):
        for j in range(i + 1, len(row)):
            if row[j].centre[0] - bore.centre[0] > reach:
                break
            if distance(row[j].centre, bore.centre) < radii[j] + radii[i] + _APART_MM:
                meeting |= {i, j}
    return [bore for i, bore in enumerate(row) if i not in meeting]


def _block(box: Box, axis: int, bores: list[_Bore]) -> Shape:
    """Return the block: its faces, the holes' rims as openings in two of them, and the holes' walls."""
    builder, shell, solid = BRep_Builder(), TopoDS_Shell(), TopoDS_Solid()
    builder.MakeShell(shell)
    openings: dict[int, list[Shape]] = {-1: [], 1: []}
    for bore in bores:
        wall, rims = _wall(bore, box)
        for face in _parts(wall, TopAbs_FACE):
            builder.Add(shell, face)
        for sign, rim in rims.items():
            openings[sign].append(rim)
    for face in _parts(BRepPrimAPI_MakeBox(gp_Pnt(*box.low), gp_Pnt(*box.high)).Shape(), TopAbs_FACE):
        builder.Add(shell, _opened(face, openings[_sign(face, axis)]) if _sign(face, axis) else face)
    shell.Closed(True)
    builder.MakeSolid(solid)
    builder.Add(solid, shell)
    return solid


def _wall(bore: _Bore, box: Box) -> tuple[Shape, dict[int, Shape]]:
    """Return the wall of a hole, facing its axis, and its rims by the side of the block that they open in."""
    low, high = box.low[bore.axis], box.high[bore.axis]
    bottom, top = bore.outline[0], bore.outline[-1]
    closed_low = [(bottom[0], 0.0)] if bottom[0] > low and bottom[1] > 0 else []
    closed_high = [(top[0], 0.0)] if top[0] < high and top[1] > 0 else []
    polygon = BRepBuilderAPI_MakePolygon()
    for height, radius in (*closed_low, *bore.outline, *closed_high):
        polygon.Add(point(bore.axis, (bore.centre[0] + radius, bore.centre[1]), height))
    turned = gp_Ax1(point(bore.axis, bore.centre, low), along(bore.axis))
    wall = BRepPrimAPI_MakeRevol(polygon.Wire(), turned).Shape()
    rims: dict[int, Shape] = {}
    outwards = True
    for edge in _parts(wall, TopAbs_EDGE):
        if sign := _end(edge, bore.axis, low, high):
            rims[sign] = _clockwise(edge, bore.axis, sign)
            outwards = rims[sign].Orientation() == edge.Orientation()
    return (wall.Reversed() if outwards else wall), rims


def _end(edge: Shape, axis: int, low: float, high: float) -> int:
    """Tell at which end of the block an edge runs round its hole: -1, 1, or 0 at neither."""
    curve = BRepAdaptor_Curve(TopoDS.Edge(edge))
    if curve.GetType() != GeomAbs_CurveType.GeomAbs_Circle:
        return 0
    height = curve.Circle().Location().Coord(axis + 1)
    return -1 if abs(height - low) < _SAME_MM else int(abs(height - high) < _SAME_MM)


def _clockwise(edge: Shape, axis: int, sign: int) -> Shape:
    """Return a round edge so that it runs clockwise, seen from outside the end where it lies."""
    forward = edge.Oriented(TopAbs_Orientation.TopAbs_FORWARD)
    circle = BRepAdaptor_Curve(TopoDS.Edge(forward)).Circle()
    return forward.Reversed() if circle.Axis().Direction().Coord(axis + 1) * sign > 0 else forward


def _sign(face: Shape, axis: int) -> int:
    """Tell which end of the block one of its own faces is: -1, 1, or 0 for a side."""
    normal = BRepAdaptor_Surface(TopoDS.Face(face)).Plane().Axis().Direction()
    turned = -1 if face.Orientation() == TopAbs_Orientation.TopAbs_REVERSED else 1
    along_axis: float = normal.Coord(axis + 1)
    return turned * round(along_axis)


def _opened(face: Shape, rims: list[Shape]) -> Shape:
    """Return a face of the block with openings."""
    builder, found = BRep_Builder(), face.EmptyCopied()
    builder.Add(found, _parts(face, TopAbs_WIRE)[0])
    for rim in rims:
        builder.Add(found, BRepBuilderAPI_MakeWire(TopoDS.Edge(rim)).Wire())
    return found


def _parts(shape: Shape, kind: Shape) -> list[Shape]:
    found, explorer = [], TopExp_Explorer(shape, kind)
    while explorer.More():
        found.append(explorer.Current())
        explorer.Next()
    return found
